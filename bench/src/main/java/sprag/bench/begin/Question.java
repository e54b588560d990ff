package sprag.bench.begin;

import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.AMPERE_HOUR;
import static sprag.supervisor.vocabulary.Unit.KILOGRAM;
import static sprag.supervisor.vocabulary.Unit.KPH;
import static sprag.supervisor.vocabulary.Unit.METRE;
import static sprag.supervisor.vocabulary.Unit.MICROFARAD;
import static sprag.supervisor.vocabulary.Unit.NEWTON_METRE;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.RPM;
import static sprag.supervisor.vocabulary.Unit.VOLT;
import static sprag.supervisor.vocabulary.Unit.WATT;

import java.util.List;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** What a builder is asked before a first vehicle file is written. One row each; everything else follows or has a default. */
enum Question implements Row {
    // @formatter:off
    //                unit         default   min      max   question                                                         why it is asked; a value outside the range would
    CELLS            (NUMBER,           32,    4,     220, "How many cells stand in series in the pack?",                   "all pack voltages follow from it",                        "be no pack that a car is driven with"),
    CHEMISTRY        (                   0, List.of("lfp", "nmc"), "Which cells are they?",                                 "it sets the voltages of a cell, full and empty",          "be cells that the gauge does not know"),
    CAPACITY_AH      (AMPERE_HOUR,     200,    2,    2000, "What is the pack's capacity?",                                  "charge time, range and the gauge follow from it",         "be no traction pack"),
    DISCHARGE_MAX_A  (AMPERE,          400,    5,    2000, "What is the greatest current out of the pack?",                 "cables, fuse and limits follow from it",                  "overload pack, fuse or cable"),
    CHARGE_MAX_A     (AMPERE,          100,    1,    2000, "What is the greatest current into the pack?",                   "charging and regeneration are limited by it",             "plate lithium in the cells"),
    MOTOR_KIND       (                   0, List.of("induction", "permanent-magnet"), "Which kind of motor is it?",         "a motor with magnets makes voltage whenever it turns",    "misjudge the voltage of a spinning motor"),
    MOTOR_EMF_V_PER_KRPM (VOLT,          0,    0,    2000, "How much voltage does it make for 1000 turns a minute (0 for induction)?", "it decides how fast the contactors may open at speed", "misjudge the voltage of a spinning motor"),
    MOTORS           (NUMBER,            1,    1,       4, "How many motors drive the car together, on one shaft or one in each wheel?", "torque, power and heat are the sums of all", "be more motors than one request for torque serves"),
    MOTOR_TORQUE_NM  (NEWTON_METRE,    120,    2,    2000, "What is the greatest torque of one motor with its inverter?",   "the pedal map ends there",                                "break the drive line"),
    MOTOR_POWER_W    (WATT,          30000,  500, 1000000, "What is the greatest power of one motor with its inverter?",    "torque falls with speed from there",                      "overload pack or motor"),
    MOTOR_MAX_RPM    (RPM,            8000,  100,   25000, "How fast may the motor turn?",                                  "the speed limit must stay below it",                      "burst the rotor"),
    GEARBOX          (                   0, List.of("fixed", "clutch", "hub"), "What lies between motor and wheels? fixed is one ratio; clutch, a gearbox that is kept with its clutch; hub, nothing, with a motor in each wheel", "behind a clutch nobody knows the gear, and the motor may turn while the car stands", "doubt a motor that is out of gear, or believe a broken speed wire"),
    GEAR_RATIO       (NUMBER,            8,  0.5,      30, "How often does the motor turn for one turn of the wheel? With a clutch, in the lowest gear that you drive in", "road speed is computed from it",                          "make every road speed wrong"),
    WHEEL_RADIUS_M   (METRE,           0.3,  0.1,       1, "What is the radius of a driven wheel under load?",              "road speed is computed from it",                          "make every road speed wrong"),
    MASS_KG          (KILOGRAM,       1200,   50,   20000, "How heavy is the car with its driver?",                         "brake lamps and the simulated drive follow from it",      "make the car accelerate as no real car does"),
    MAX_KPH          (KPH,              90,    3,     200, "At which speed shall the drive end? With a clutch, in that gear",                           "torque fades to nothing there",                           "outrun brakes or motor"),
    REGEN_SHARE      (NUMBER,         0.35,    0,       1, "Which share of the torque may brake the car?",                  "one-pedal driving needs some; ice asks for less",         "lock the driven wheels"),
    CAPACITANCE_UF   (MICROFARAD,     2000,   10,   50000, "How large are the capacitors on the bus together?",             "the precharge is computed from it",                       "make the precharge arithmetic wrong"),
    COOLING          (                   0, List.of("air", "liquid"), "How are motor and inverter cooled?",                 "a pump and its sensor belong to liquid",                  "make the parts heat up as no real part does"),
    INLET            (                   1, List.of("type-1", "type-2", "plain", "none"), "Which inlet does the car have? plain is a mains lead without a pilot, as of a household plug; none, when the pack is taken out to charge", "the plug is recognised by it",                            "misread the cable"),
    PLUG_SIGN        (                   2, List.of("switch", "charger", "both"), "What tells that the plain lead is plugged in: a switch that the plug presses, the line by which the charger says that it is well, or both?", "it alone keeps the car from driving off with its lead", "let the car drive off with its lead in the socket"),
    INLET_MAX_A      (AMPERE,           16,    6,      80, "What do the inlet and the wires behind it stand?",              "no more is ever taken from a station",                    "melt the inlet"),
    SUPPLY_V         (VOLT,            230,  100,     250, "What is the mains voltage?",                                    "the chargers' current follows from it",                   "misjudge the current taken from the station"),
    CHARGERS         (NUMBER,            1,    1,       3, "How many chargers are there?",                                  "they share the inlet",                                    "leave chargers unlimited"),
    CHARGER_MAX_W    (WATT,           3300,  100,   50000, "What does each charger give?",                                  "charge current and time follow from it",                  "ask more than the charger has"),
    CHARGER_SIDE     (                   0, List.of("pack-side", "bus-side"), "On which side of the contactors are they?",  "chargers on the bus need the contactors closed",          "close contactors that the charger does not need, or not close them"),
    CHARGER_CONTROL  (                   0, List.of("limited", "switched", "alone"), "Do they take limits from the supervisor, are they only switched by it, or does nothing control them?", "what nobody limits must be limited by the charger itself", "leave the chargers unlimited"),
    DCDC_SIDE        (                   0, List.of("pack-side", "bus-side"), "On which side is the DC-DC converter?",      "it decides whether the 12 V battery is fed on the cable", "let the 12 V battery run flat"),
    DCDC_MAX_A       (AMPERE,           60,    1,     500, "What does the DC-DC converter give at 12 V?",                   "the 12 V budget is judged by it",                         "make the DC-DC converter like none"),
    SENSORS          (                   1, List.of("few", "usual", "all"), "How many sensors are fitted?",                 "what is not measured cannot be guarded",                  "expect sensors that are not there");
    // @formatter:on

    /** What is asked. */
    final String question;
    /** Why it is asked, to follow the question. */
    final String why;

    private final Spec spec;

    Question(Unit unit, double byDefault, double min, double max, String question, String why, String risk) {
        this.spec = Spec.number(unit, byDefault, min, max, risk);
        this.question = question;
        this.why = why;
    }

    Question(double byDefault, List<String> choices, String question, String why, String risk) {
        this.spec = Spec.choice(byDefault, choices, risk);
        this.question = question;
        this.why = why;
    }

    /** Whether the answers to what was asked before leave this question open. */
    boolean applies(Answers answers) {
        String inlet = answers.word(INLET);
        return switch (this) {
            case MOTOR_EMF_V_PER_KRPM -> answers.word(MOTOR_KIND).equals("permanent-magnet");
            case GEAR_RATIO -> !answers.word(GEARBOX).equals("hub");
            case PLUG_SIGN -> inlet.equals("plain");
            case INLET_MAX_A, SUPPLY_V, CHARGERS, CHARGER_MAX_W, CHARGER_SIDE, CHARGER_CONTROL -> !inlet.equals("none");
            default -> true;
        };
    }

    /** Whether it counts things. */
    boolean isWhole() {
        return this == CELLS || this == CHARGERS || this == MOTORS;
    }

    @Override
    public Spec spec() {
        return spec;
    }

    @Override
    public String key() {
        return lowerName();
    }
}
