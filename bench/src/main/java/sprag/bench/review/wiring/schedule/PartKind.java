package sprag.bench.review.wiring.schedule;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * What a part is, which decides what the review knows about its terminals. One row each.
 *
 * <p>The kind stands in the list of parts; a part that is not listed is known by the words of its name. Rows are tried
 * from the top, so {@code pump_relay} is a relay and {@code motor_thermistor} a sensor.
 */
public enum PartKind {
    // @formatter:off
    //                 words of a name that tell it                          terminals the rules know
    CONTACTOR         ("contactor",                                          "in out coil_plus coil_minus aux_a aux_b"),
    TIMER             ("timer delay",                                        "in out coil_plus coil_minus"),
    RELAY             ("relay",                                              "in out rest coil_plus coil_minus"),
    FUSE              ("fuse",                                               "in out"),
    SUPPRESSOR        ("suppressor diode zener varistor snubber",            "a b"),
    RESISTOR          ("resistor",                                           "in out"),
    SHUNT             ("shunt",                                              "pack load sense_plus sense_minus"),
    CONNECTOR         ("connector",                                          "the same terminal serves both sides"),
    SPLICE            ("splice busbar stud junction",                        "all joined"),
    CUT_OFF           ("cutoff emergency service",                           "in out in_2 out_2 ..."),
    KEY               ("key",                                                "in drive start"),
    CURRENT_SENSOR    ("currentsensor",                                      "pack load supply ground signal"),
    ISOLATION_MONITOR ("isolationmonitor",                                   "plus minus chassis supply ground"),
    MONITOR           ("monitor",                                            "plus minus supply ground"),
    SENSOR            ("sensor thermistor probe encoder",                    "any"),
    SWITCH            ("switch button lever selector",                       "in out in_2 out_2 ..."),
    PEDAL             ("pedal",                                              "any"),
    SUPERVISOR        ("supervisor",                                         "a signal's or output's name, supply output_supply ground sensor_supply sensor_ground"),
    LAMP              ("lamp light",                                         "plus minus"),
    LOAD              ("pump fan blower buzzer horn wiper load gauge radio", "plus minus"),
    INVERTER          ("inverter",                                           "plus minus u v w supply ground"),
    DCDC              ("dcdc",                                               "plus minus out_plus out_minus"),
    CHARGER           ("charger",                                            "plus minus line neutral earth"),
    INLET             ("inlet",                                              "line neutral earth pilot proximity"),
    HEATER            ("heater",                                             "plus minus"),
    MOTOR             ("motor",                                              "u v w"),
    CHASSIS           ("chassis earth ground",                               "all joined"),
    LV_BATTERY        ("lvbattery battery12v",                               "plus minus"),
    PACK              ("pack battery",                                       "plus minus"),
    OTHER             ("",                                                   "any");
    // @formatter:on

    /** The words of the column {@code kind}. */
    public static final List<String> WORDS =
            Arrays.stream(values()).map(PartKind::word).toList();

    private static final Set<String> CONTACT_TERMINALS = Set.of("in", "out", "rest", "aux_a", "aux_b");
    private static final Set<String> COIL_TERMINALS = Set.of("coil_plus", "coil_minus");
    /** Other words for plus and minus, which no rule would follow. */
    private static final Set<String> POLE_SLIPS = Set.of("positive", "negative", "pos", "neg", "+", "-");

    private final List<String> hints;
    /** Terminals with a meaning to the rules, for people. */
    public final String terminals;

    PartKind(String hints, String terminals) {
        this.hints = hints.isEmpty() ? List.of() : List.of(hints.split(" "));
        this.terminals = terminals;
    }

    /** The word in the list of parts. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The words of a name that tell it. */
    public List<String> hints() {
        return hints;
    }

    /**
     * Whether a part of this kind can have a terminal. Kinds with any number of terminals of their own have every one that does
     * not belong to another kind.
     */
    public boolean hasTerminal(String pin) {
        String word = pin.replaceAll("_?\\d+$", "");
        return switch (this) {
            case CONTACTOR, RELAY, TIMER -> CONTACT_TERMINALS.contains(word) || COIL_TERMINALS.contains(word);
            case CUT_OFF, SWITCH -> CONTACT_TERMINALS.contains(word);
            case KEY -> Set.of("in", "out", "drive", "start", "accessory").contains(word);
            case FUSE, RESISTOR -> Set.of("in", "out").contains(word);
            case SUPPRESSOR -> Set.of("a", "b").contains(word);
            case SHUNT -> Set.of("pack", "load", "sense_plus", "sense_minus").contains(word);
            case PACK, LV_BATTERY -> !CONTACT_TERMINALS.contains(word) && !COIL_TERMINALS.contains(word);
            case LAMP, LOAD, INVERTER, DCDC, CHARGER, HEATER, MONITOR, ISOLATION_MONITOR, MOTOR, CURRENT_SENSOR ->
                !POLE_SLIPS.contains(word) && !CONTACT_TERMINALS.contains(word) && !COIL_TERMINALS.contains(word);
            default -> true;
        };
    }

    /** The kind of a word, or null. */
    public static PartKind of(String word) {
        int index = WORDS.indexOf(word.toLowerCase(Locale.ROOT).replace('_', '-'));
        return index < 0 ? null : values()[index];
    }

    /** The kind that a name tells; {@link #OTHER} when it tells none. */
    public static PartKind guess(String partName) {
        List<String> words = Arrays.stream(partName.toLowerCase(Locale.ROOT).split("[_-]"))
                .map(word -> word.replaceAll("\\d+$", ""))
                .toList();
        String joined = String.join("", words);
        for (PartKind kind : values()) {
            for (String hint : kind.hints) {
                boolean compound = hint.length() > 5 && joined.contains(hint);
                if (compound || words.contains(hint)) {
                    return kind;
                }
            }
        }
        return OTHER;
    }

    /** Whether it has contacts that open: in against out, with the same ending. */
    public boolean isSwitching() {
        return this == CONTACTOR || this == TIMER || this == RELAY || this == CUT_OFF || this == SWITCH || this == KEY;
    }

    /** Whether it has a coil. */
    public boolean hasCoil() {
        return this == CONTACTOR || this == TIMER || this == RELAY;
    }

    /** Whether several wires may share one of its terminals without a second thought. */
    public boolean hasStuds() {
        return switch (this) {
            case SPLICE, CHASSIS, PACK, LV_BATTERY, CONTACTOR, FUSE, SHUNT, DCDC, INVERTER, RESISTOR, CUT_OFF -> true;
            default -> false;
        };
    }

    /** Whether it is a mere joint: what matters lies beyond. */
    public boolean isJoint() {
        return this == CONNECTOR || this == SPLICE;
    }

    /** Whether its terminals plus and minus take power from a battery. */
    public boolean isLoad() {
        return switch (this) {
            case INVERTER, DCDC, CHARGER, HEATER, LOAD, LAMP, MONITOR, ISOLATION_MONITOR -> true;
            default -> false;
        };
    }

    /** Whether it only measures, so that it may sit where a load may not. */
    public boolean onlyMeasures() {
        return this == MONITOR || this == ISOLATION_MONITOR || this == SENSOR;
    }
}
