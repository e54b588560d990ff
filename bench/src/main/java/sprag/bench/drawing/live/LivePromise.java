package sprag.bench.drawing.live;

import java.util.stream.IntStream;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;

/** What a schedule must keep in every combination of outputs and switches. One row each. */
public enum LivePromise {
    // @formatter:off
    //                hazard  what holds in every combination                                                                    what must be drawn    where it is broken
    CUT_OFF_RELEASES ("H05", "with a cut-off pressed no contact of the traction circuit is held closed",                         Need.CUT_OFF,         v -> v.pressed() & v.tractionHeld()),
    CUT_OFF_ISOLATES ("H05", "with a cut-off pressed nothing takes or gives pack voltage",                                       Need.CUT_OFF,         v -> v.pressed() & v.anyFed(Consumer.Kind.TRACTION)),
    SERVICE_SWITCH   ("H05", "with the service switch out nothing outside the pack takes or gives pack voltage",                 Need.SERVICE_SWITCH,  v -> v.out() & v.anyFed(Consumer.Kind.TRACTION)),
    BEAT_STOPS       ("H14", "while the supervisor's beat has stopped no contact of the traction circuit is held closed",        Need.BEAT,            v -> ~v.beating() & v.tractionHeld()),
    CUT_OFF_SILENCES ("H01", "with a cut-off pressed, or the supervisor's beat stopped, nothing wakes the inverter",              Need.WAKING,          View::wokenInSpite),
    COMMANDED        ("H15", "a coil does not pull while the output that drives it is off, and none of the traction circuit without one", Need.NOTHING, View::pullsUnasked),
    PRECHARGED       ("H07", "pack plus reaches the inverter only through the resistor until the positive contactor is asked for", Need.NOTHING,       View::chargedAtOnce),
    UNPLUGGED        ("H02", "with a plug in the inverter has pack voltage, or what wakes it, only while the outputs for that are on", Need.PLUG,          View::drivesPlugged),
    KEY_OFF          ("H15", "with the key off and the plug out no contact of the traction circuit is held closed", Need.RELAYS_ALONE, View::heldWithoutKey),
    STARTED          ("H15", "no contact to the inverter closes before the start switch is pressed",         Need.RELAYS_ALONE, View::closesUnstarted),
    HEATED           ("H12", "the heater has both poles of the pack only while its output is on",                             Need.HEATER,         View::heatsUnasked),
    THROUGH_CONTACTOR("H08", "the inverter is not awake while pack plus reaches it through the resistor alone", Need.RELAYS_ALONE, View::drivesThroughResistor),
    APART            ("H06", "the traction circuit, mains and the 12 V side never meet",                                         Need.NOTHING,         v -> v.flow().mixed()),
    NO_SHORT         ("H13", "no position of a switch and no output shorts a source",                                            Need.NOTHING,         v -> v.flow().shorted()),
    FUSED            ("H13", "nothing leads round a fuse: what it guards would stay live without it",                            Need.NOTHING,         View::fuseBypassed),
    RATING           ("H05", "no terminal sees more than it is rated for",                                                       Need.NOTHING,         View::overRating),
    SETTLES          ("H15", "coils do not go on pulling and releasing each other",                                              Need.NOTHING,         v -> v.flow().unsettled),
    OBEYED           ("H04", "with key on, nothing cut off and the beat alive, a coil pulls when its output is on",              Need.NOTHING,         View::disobeyed),
    SUPPLIED         ("H13", "the supervisor is fed whenever the 12 V battery is there",                                         Need.NOTHING,         v -> v.batteryOn() & ~v.supervisorFed()),
    BRAKE_LAMPS      ("H16", "the brake lamps light when the brake is pressed, whatever the outputs do",                         Need.BRAKE_LAMP,      v -> v.batteryOn() & v.braking() & ~v.brakeLampsLit());
    // @formatter:on

    /** What a schedule must draw so that a promise can be kept at all. */
    enum Need {
        NOTHING(""),
        CUT_OFF("no cut-off switch is drawn"),
        SERVICE_SWITCH("no service switch is drawn in the traction circuit"),
        BEAT("no relay is drawn that the heartbeat holds"),
        /** The promise is about what a terminal or an output switches; of the data bus a circuit knows nothing. */
        WAKING("no cut-off switch is drawn"),
        HEATER(""),
        PLUG("a charger is drawn, but no inlet and no plug switch"),
        BRAKE_LAMP(""),
        /** The promise is about cars without a supervisor; of others a stricter one speaks. */
        RELAYS_ALONE("");

        final String missing;

        Need(String missing) {
            this.missing = missing;
        }
    }

    /** Where a promise is broken, one bit a combination. */
    @FunctionalInterface
    interface Judge {
        long broken(View view);
    }

    /** Promises before this one are about harm, those from here on about a car that works. */
    private static final LivePromise FIRST_THAT_WORKS = OBEYED;

    /** The hazard behind it. */
    public final String hazard;
    /** The promise. */
    public final String words;

    final Need need;
    final Judge judge;

    LivePromise(String hazard, String words, Need need, Judge judge) {
        this.hazard = hazard;
        this.words = words;
        this.need = need;
        this.judge = judge;
    }

    /** Whether harm may follow when it is broken; otherwise the car only does not work. */
    public boolean guards() {
        return compareTo(FIRST_THAT_WORKS) < 0;
    }

    /** Whether it speaks of cars without a supervisor only. */
    public boolean isOfRelaysAlone() {
        return need == Need.RELAYS_ALONE;
    }

    /** Whether it says anything about a circuit. */
    boolean concerns(SwitchCircuit circuit) {
        return switch (need) {
            case RELAYS_ALONE -> circuit.isUnsupervised();
            case WAKING -> new DriveWays(circuit).canWake();
            case HEATER -> circuit.control(Control.Kind.OUTPUT, "heater_element") != Gate.NONE;
            default -> true;
        };
    }

    /** Why it cannot be kept at all; empty when it can. */
    String missing(SwitchCircuit circuit) {
        boolean there = switch (need) {
            case NOTHING, BRAKE_LAMP, HEATER, RELAYS_ALONE -> true;
            case CUT_OFF, WAKING -> circuit.cutOffs(false).length > 0;
            case SERVICE_SWITCH -> circuit.cutOffs(true).length > 0 || hasNoPack(circuit);
            case PLUG -> circuit.plugs().length > 0 || circuit.consumers(Consumer.Kind.MAINS).length == 0;
            case BEAT -> circuit.control(Control.Kind.OUTPUT, "heartbeat") != Gate.NONE;
        };
        return there || !concerns(circuit) ? "" : need.missing;
    }

    private static boolean hasNoPack(SwitchCircuit circuit) {
        return IntStream.range(0, circuit.poles.size())
                .noneMatch(p -> circuit.poles.get(p).potential().isTraction());
    }
}
