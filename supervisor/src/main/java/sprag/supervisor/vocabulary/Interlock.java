package sprag.supervisor.vocabulary;

import static sprag.supervisor.vocabulary.Cause.inSequence;
import static sprag.supervisor.vocabulary.Cause.unless;
import static sprag.supervisor.vocabulary.Cause.when;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_ARC_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_HEAT_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_INLET_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_LATENT_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_PACK_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_SHOCK_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_TORQUE_MS;
import static sprag.supervisor.vocabulary.Reset.KEY_CYCLE;
import static sprag.supervisor.vocabulary.Reset.NONE;
import static sprag.supervisor.vocabulary.Reset.PEDAL_RELEASE;
import static sprag.supervisor.vocabulary.Reset.SERVICE;
import static sprag.supervisor.vocabulary.Response.BLOCK_CHARGE;
import static sprag.supervisor.vocabulary.Response.BLOCK_START;
import static sprag.supervisor.vocabulary.Response.LIMIT;
import static sprag.supervisor.vocabulary.Response.OPEN_NOW;
import static sprag.supervisor.vocabulary.Response.STOP_THEN_OPEN;
import static sprag.supervisor.vocabulary.Response.WARN;
import static sprag.supervisor.vocabulary.Response.ZERO_TORQUE;

import java.util.Collections;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * A rule "when this happens, do that until it is reset". One row each, strongest response first, and among
 * equals the one that takes most to reset. In each state the rows that apply there are asked from top to bottom, and the first
 * whose cause is present acts. A cause that needs service is thereby never hidden behind one that only needs the key.
 *
 * <p>The letters say in which states a row applies ({@link State#letter}): {@code o} off, {@code i} ignition, {@code p} precharge, {@code d} drive-enable,
 * {@code r} rundown, {@code c} charge-lockout, {@code f} fault. In ignition any row that applies keeps a start from
 * happening; in fault it keeps a reset from happening.
 *
 * <p>The budget is the fault-tolerant time: detection and reaction together must be shorter.
 */
public enum Interlock {
    // @formatter:off
    //                     hazard  cause                               response        reset          where      budget             why this response
    GATE_VETOED           ("H14", when(Fact.GATE_VETOED),              OPEN_NOW,       SERVICE,       "oipdrcf", BUDGET_TORQUE_MS, "two judgements of the same readings differ: one is wrong, and nothing that follows can be trusted to go in order"),
    CRASH_SEEN            ("H05", when(Fact.CRASH_SEEN),               OPEN_NOW,       SERVICE,       "oipdrcf", BUDGET_SHOCK_MS,  "after a crash people touch what is broken; somebody must look before it lives again"),
    NEGATIVE_WELDED       ("H05", when(Fact.NEGATIVE_WELDED),          OPEN_NOW,       SERVICE,       "oipdrcf", BUDGET_SHOCK_MS,  "one pole is live for good; the other must never close onto it unnoticed"),
    POSITIVE_WELDED       ("H05", when(Fact.POSITIVE_WELDED),          OPEN_NOW,       SERVICE,       "oipdrcf", BUDGET_SHOCK_MS,  "one pole is live for good; the other must never close onto it unnoticed"),
    PRECHARGE_WELDED      ("H08", when(Fact.PRECHARGE_WELDED),         OPEN_NOW,       SERVICE,       "oipdrcf", BUDGET_SHOCK_MS,  "the resistor would feed every load on the bus, and bypass the open contactor"),
    BUS_STILL_LIVE        ("H05", when(Fact.BUS_STILL_LIVE),           OPEN_NOW,       SERVICE,       "oi  rcf", BUDGET_LATENT_MS, "a bus that stays live after opening is welded on, or cannot bleed: people trust it to be dead"),
    CUT_LOOP_OPEN         ("H05", when(Fact.CUT_LOOP_OPEN),            OPEN_NOW,       KEY_CYCLE,     " ipdrcf", BUDGET_SHOCK_MS,  "somebody has asked for everything to be dead, at once"),
    LV_LOST               ("H13", when(Fact.LV_LOST),                  OPEN_NOW,       KEY_CYCLE,     " ipdrcf", BUDGET_ARC_MS,    "coils would drop out by themselves, chattering; better all at once and on purpose"),
    CHARGER_RUNS_ON       ("H09", when(Fact.CHARGER_RUNS_ON),          OPEN_NOW,       KEY_CYCLE,     "     cf", BUDGET_PACK_MS,   "a charger that does not obey can only be cut off"),
    NEGATIVE_WELD_FOUND   ("H05", inSequence("the bus rose with only the precharge relay closed"),
                                                                       OPEN_NOW,       SERVICE,       "  p  c ", BUDGET_SHOCK_MS,  "the negative contactor is welded, or its line is bridged"),
    POSITIVE_WELD_FOUND   ("H05", inSequence("the bus rose with only the negative contactor closed"),
                                                                       OPEN_NOW,       SERVICE,       "  p  c ", BUDGET_SHOCK_MS,  "the positive contactor or precharge relay is welded, or bridged"),
    PRECHARGE_FAST        ("H07", inSequence("the bus was charged sooner than precharge.fast_ms"),
                                                                       OPEN_NOW,       KEY_CYCLE,     "  p  c ", BUDGET_ARC_MS,    "no capacitor there, or the resistor is bridged: the reading proves nothing"),
    PRECHARGE_SLOW        ("H08", inSequence("the bus was not charged within precharge.timeout_ms"),
                                                                       OPEN_NOW,       KEY_CYCLE,     "  p  c ", BUDGET_ARC_MS,    "something drains the bus; going on only heats the resistor"),
    PRECHARGE_STALLED     ("H08", inSequence("the bus stopped rising below precharge.done_fraction"),
                                                                       OPEN_NOW,       KEY_CYCLE,     "  p  c ", BUDGET_ARC_MS,    "a load is on the bus or the resistor is open: it will never get there"),
    PRECHARGE_REVERSED    ("H07", inSequence("the bus fell, or was negative, while it should rise"),
                                                                       OPEN_NOW,       KEY_CYCLE,     "  p  c ", BUDGET_ARC_MS,    "reversed wiring, a short, or a dropped contactor"),
    RESISTOR_OVERLOADED   ("H08", inSequence("the precharge resistor held more heat than precharge.energy_j"),
                                                                       OPEN_NOW,       KEY_CYCLE,     "  p  c ", BUDGET_ARC_MS,    "it would burn"),
    CONTACTOR_NOT_CLOSED  ("H07", inSequence("a contactor was not seen closed within contactor.close_ms"),
                                                                       OPEN_NOW,       KEY_CYCLE,     "  p  c ", BUDGET_ARC_MS,    "going on would load the precharge path with the drive's current"),

    ISOLATION_LOST        ("H06", when(Fact.ISOLATION_LOW),            STOP_THEN_OPEN, SERVICE,       "  p  cf", BUDGET_LATENT_MS,   "at rest people stand beside the car and may touch it"),
    COVER_LOOP_OPEN       ("H05", when(Fact.COVER_LOOP_OPEN),          STOP_THEN_OPEN, KEY_CYCLE,     " ipdrcf", BUDGET_SHOCK_MS,  "live parts may be within reach; a contactor opened under load might weld and leave them live"),
    PACK_OVERHEATED       ("H09", when(Fact.PACK_OVERHEATED),          STOP_THEN_OPEN, KEY_CYCLE,     " ipdrcf", BUDGET_PACK_MS,   "any further current feeds a thermal runaway"),
    PACK_OVERVOLTAGE      ("H09", when(Fact.PACK_OVERVOLTAGE),         STOP_THEN_OPEN, KEY_CYCLE,     " ipdrcf", BUDGET_PACK_MS,   "the last line against overcharge"),
    PACK_UNDERVOLTAGE     ("H09", when(Fact.PACK_UNDERVOLTAGE),        STOP_THEN_OPEN, KEY_CYCLE,     " ipd   ", BUDGET_PACK_MS,   "the last line against over-discharge; charging it is the remedy and stays possible"),
    CELL_OVERVOLTAGE      ("H09", when(Fact.CELL_OVERVOLTAGE),         STOP_THEN_OPEN, KEY_CYCLE,     " ipdrcf", BUDGET_PACK_MS,   "the last line against overcharge"),
    CELL_UNDERVOLTAGE     ("H09", when(Fact.CELL_UNDERVOLTAGE),        STOP_THEN_OPEN, KEY_CYCLE,     " ipd   ", BUDGET_PACK_MS,   "the last line against over-discharge; charging it is the remedy and stays possible"),
    PACK_OVERCURRENT      ("H09", when(Fact.PACK_OVERCURRENT),         STOP_THEN_OPEN, KEY_CYCLE,     "  pdrc ", BUDGET_PACK_MS,   "torque goes first; what remains is a short, and the fuse is faster than any contactor"),
    READINGS_LOST         ("H14", when(Fact.READINGS_LOST),            STOP_THEN_OPEN, KEY_CYCLE,     " ipdrcf", BUDGET_TORQUE_MS, "no decision about contactors can rest on an unknown voltage or current"),
    LINK_LOST             ("H14", when(Fact.LINK_LOST),                STOP_THEN_OPEN, KEY_CYCLE,     " ipdrcf", BUDGET_TORQUE_MS, "commands may not arrive; the board releases by itself and must not come back by itself"),
    LOOP_LATE             ("H14", when(Fact.LOOP_LATE),                STOP_THEN_OPEN, KEY_CYCLE,     " ipdrcf", BUDGET_TORQUE_MS, "every delay in here is counted in ticks; late ticks make all of them wrong"),
    BUS_LOST              ("H07", when(Fact.BUS_LOST),                 STOP_THEN_OPEN, KEY_CYCLE,     "   drc ", BUDGET_ARC_MS,    "a contactor or the fuse has opened; reconnecting onto a fallen bus would be an inrush"),
    NEGATIVE_DROPPED      ("H07", when(Fact.NEGATIVE_DROPPED),         STOP_THEN_OPEN, KEY_CYCLE,     "  pdrc ", BUDGET_ARC_MS,    "if it pulls in again it closes onto a fallen bus"),
    POSITIVE_DROPPED      ("H07", when(Fact.POSITIVE_DROPPED),         STOP_THEN_OPEN, KEY_CYCLE,     "  pdrc ", BUDGET_ARC_MS,    "if it pulls in again it closes onto a fallen bus"),
    TORQUE_UNASKED        ("H01", when(Fact.TORQUE_UNASKED),           STOP_THEN_OPEN, KEY_CYCLE,     "   dr  ", BUDGET_TORQUE_MS, "the inverter does not obey; it is disabled first and cut off after the bounded wait"),
    CHARGE_OVERVOLTAGE    ("H09", when(Fact.CHARGE_OVERVOLTAGE),       STOP_THEN_OPEN, KEY_CYCLE,     "     cf", BUDGET_PACK_MS,   "the charger passes the limit it was given"),
    PLUG_PRESENT          ("H02", when(Fact.PLUG_SEEN),                STOP_THEN_OPEN, NONE,          "  pd   ", BUDGET_TORQUE_MS, "the car is tied to the wall; torque ends in the same tick, contactors open at low current"),

    PEDAL_OUT_OF_RANGE    ("H01", when(Fact.PEDAL_OUT_OF_RANGE),       ZERO_TORQUE,    KEY_CYCLE,     " i d   ", BUDGET_TORQUE_MS, "a broken wire must not be a pedal position"),
    PEDAL_SHORTED         ("H01", when(Fact.PEDAL_SHORTED),            ZERO_TORQUE,    KEY_CYCLE,     " i d   ", BUDGET_TORQUE_MS, "two tracks that are one wire prove nothing"),
    PEDAL_REFERENCE_WRONG ("H01", when(Fact.PEDAL_REFERENCE_WRONG),    ZERO_TORQUE,    KEY_CYCLE,     " i d   ", BUDGET_TORQUE_MS, "every position is scaled by the reference"),
    PEDAL_DISAGREES       ("H01", when(Fact.PEDAL_DISAGREES),          ZERO_TORQUE,    KEY_CYCLE,     " i d   ", BUDGET_TORQUE_MS, "one track lies and nobody knows which; the contactors need not open"),
    SPEED_LOST            ("H16", when(Fact.SPEED_LOST),               ZERO_TORQUE,    KEY_CYCLE,     " i d   ", BUDGET_TORQUE_MS, "direction, regeneration and brake lamp all rest on the speed"),
    INVERTER_FAULTED      ("H01", when(Fact.INVERTER_FAULTED),         ZERO_TORQUE,    PEDAL_RELEASE, "   d   ", BUDGET_TORQUE_MS, "it stops by itself; torque must not return under a pressed pedal"),
    INVERTER_NOT_READY    ("H01", when(Fact.INVERTER_NOT_READY),       ZERO_TORQUE,    PEDAL_RELEASE, "   d   ", BUDGET_TORQUE_MS, "torque must not jump in when it becomes ready under a pressed pedal"),
    PEDAL_WITH_BRAKE      ("H01", when(Fact.PEDAL_WITH_BRAKE),         ZERO_TORQUE,    PEDAL_RELEASE, "   d   ", BUDGET_TORQUE_MS, "the brake is the clearer wish; torque returns only after the pedal was released"),
    PEDAL_STILL           ("H01", when(Fact.PEDAL_STILL),              ZERO_TORQUE,    PEDAL_RELEASE, "   d   ", BUDGET_HEAT_MS,   "a foot trembles and lifts when the other brakes; a stuck wiper or a pedal under a mat does neither"),
    DIRECTION_CONFLICT    ("H03", when(Fact.DIRECTION_CONFLICT),       ZERO_TORQUE,    PEDAL_RELEASE, "   d   ", BUDGET_TORQUE_MS, "nobody knows which way"),
    BUS_OVERVOLTAGE       ("H17", when(Fact.BUS_OVERVOLTAGE),          ZERO_TORQUE,    PEDAL_RELEASE, "   d   ", BUDGET_TORQUE_MS, "regeneration ends; opening the contactors now would lift the bus further"),
    MOTOR_OVERHEATED      ("H11", when(Fact.MOTOR_OVERHEATED),         ZERO_TORQUE,    PEDAL_RELEASE, " i d   ", BUDGET_HEAT_MS,   "it cools only without torque"),
    INVERTER_OVERHEATED   ("H11", when(Fact.INVERTER_OVERHEATED),      ZERO_TORQUE,    PEDAL_RELEASE, " i d   ", BUDGET_HEAT_MS,   "it cools only without torque"),
    COOLANT_OVERHEATED    ("H11", when(Fact.COOLANT_OVERHEATED),       ZERO_TORQUE,    PEDAL_RELEASE, " i d   ", BUDGET_HEAT_MS,   "beyond this the coolant boils and cools nothing"),
    DISCHARGE_WITHDRAWN   ("H09", when(Fact.DISCHARGE_WITHDRAWN),      ZERO_TORQUE,    PEDAL_RELEASE, " ipd   ", BUDGET_PACK_MS,   "the monitor knows the cells; the contactors stay so that the driver can steer to the side"),
    PEDAL_AT_ENABLE       ("H01", inSequence("the pedal has not yet been seen released with the brake pressed"),
                                                                       ZERO_TORQUE,    Reset.BRAKED_RELEASE, "   d   ", BUDGET_TORQUE_MS, "torque begins only from a released pedal, with the driver's foot on the brake"),
    DIRECTION_ROLLING     ("H03", inSequence("a direction was asked for that is not the engaged one, while rolling or with the pedal pressed"),
                                                                       ZERO_TORQUE,    NONE,          "   d   ", BUDGET_TORQUE_MS, "torque against the rolling direction; it engages near standstill with the pedal released"),
    SPEED_DOUBTED         ("H03", when(Fact.SPEED_DOUBTED),            ZERO_TORQUE,    NONE,          " i d   ", BUDGET_TORQUE_MS, "a lost speed looks like standstill; torque returns when the motor is seen to turn, or the brake was held until the car must stand"),

    BRAKE_NOT_PRESSED     ("H01", unless(Fact.BRAKE_PRESSED, "the brake pedal is not pressed"),
                                                                       BLOCK_START,    NONE,          " i     ", BUDGET_TORQUE_MS, "the brake holds the car while it comes alive"),
    PEDAL_NOT_RELEASED    ("H01", unless(Fact.PEDAL_RELEASED, "a fitted pedal track is faulty or not below the released share"),
                                                                       BLOCK_START,    NONE,          " i     ", BUDGET_TORQUE_MS, "a pressed pedal at enable would move the car"),
    PEDAL_REST_WRONG      ("H01", when(Fact.PEDAL_REST_WRONG),         BLOCK_START,    NONE,          " i     ", BUDGET_TORQUE_MS, "at rest both tracks are known exactly: a track that has drifted shows here before it drives"),
    BUS_NOT_DISCHARGED    ("H07", inSequence("the bus is above bus.discharged_v before a start"),
                                                                       BLOCK_START,    NONE,          " i   c ", BUDGET_ARC_MS,    "the weld test needs a dead bus"),
    START_HELD            ("H15", inSequence("the start button was never seen released since the key was turned on"),
                                                                       BLOCK_START,    NONE,          " i     ", BUDGET_TORQUE_MS, "a stuck button must not start the car"),
    KEY_NEVER_OFF         ("H15", inSequence("the key was already on when the supervisor woke up"),
                                                                       BLOCK_START,    KEY_CYCLE,     "o      ", BUDGET_TORQUE_MS, "power that returns must not bring the car alive"),
    RESISTOR_SPENT        ("H08", when(Fact.RESISTOR_SPENT),           BLOCK_START,    NONE,          " i   c ", BUDGET_ARC_MS,    "the resistor must cool before it can take another precharge"),

    ROLLING_PLUGGED       ("H02", when(Fact.ROLLING_PLUGGED),          BLOCK_CHARGE,   NONE,          "     c ", BUDGET_INLET_MS,  "a rolling car tears the cable; no current may flow when it does"),
    CHARGE_NOT_PERMITTED  ("H09", when(Fact.CHARGE_WITHDRAWN),         BLOCK_CHARGE,   NONE,          "     c ", BUDGET_PACK_MS,   "the monitor knows the cells"),
    PACK_TOO_COLD         ("H09", when(Fact.PACK_TOO_COLD),            BLOCK_CHARGE,   NONE,          "     c ", BUDGET_PACK_MS,   "cold cells plate lithium"),
    PACK_TOO_WARM         ("H09", when(Fact.PACK_TOO_WARM_TO_CHARGE),  BLOCK_CHARGE,   NONE,          "     c ", BUDGET_PACK_MS,   "warm cells age, and warm up further"),
    PACK_SENSOR_UNKNOWN   ("H09", when(Fact.PACK_SENSOR_LOST),         BLOCK_CHARGE,   NONE,          "     c ", BUDGET_PACK_MS,   "nobody is in the car to notice; no charge on an unknown temperature"),
    CELLS_UNKNOWN         ("H14", when(Fact.MONITOR_SILENT),           BLOCK_CHARGE,   NONE,          "     c ", BUDGET_PACK_MS,   "nobody is in the car to notice; no charge on unknown cells"),
    CURRENTS_UNKNOWN      ("H09", when(Fact.CURRENTS_APART),           BLOCK_CHARGE,   NONE,          "     c ", BUDGET_PACK_MS,   "nobody is in the car to notice; no charge by a current that nobody knows"),
    ISOLATION_UNKNOWN     ("H06", when(Fact.ISOLATION_SILENT),         BLOCK_CHARGE,   NONE,          "     c ", BUDGET_LATENT_MS, "a plugged car is touched from the ground; no charge on unknown insulation"),
    CHARGE_TOO_LONG       ("H09", when(Fact.CHARGE_TOO_LONG),          BLOCK_CHARGE,   NONE,          "     c ", BUDGET_HEAT_MS,   "a charge that does not end feeds a bad cell"),
    PILOT_INVALID         ("H10", when(Fact.PILOT_INVALID),            BLOCK_CHARGE,   NONE,          "     c ", BUDGET_INLET_MS,  "without a sound pilot nobody knows what the supply can bear"),
    PROXIMITY_INVALID     ("H10", when(Fact.PROXIMITY_INVALID),        BLOCK_CHARGE,   NONE,          "     c ", BUDGET_INLET_MS,  "without a known cable nobody knows what it can bear"),
    PROXIMITY_MISSING     ("H10", when(Fact.PROXIMITY_MISSING),        BLOCK_CHARGE,   NONE,          "     c ", BUDGET_INLET_MS,  "a plug that is not fully home heats its contacts"),
    PLUG_UNLOCKED         ("H10", when(Fact.PLUG_UNLOCKED),            BLOCK_CHARGE,   NONE,          "     c ", BUDGET_PACK_MS,   "a plug that nothing holds can be pulled under load; no charge behind an open lock"),
    PLUG_WANTED           ("H10", when(Fact.PLUG_WANTED),              BLOCK_CHARGE,   NONE,          "     c ", BUDGET_INLET_MS,  "start cannot mean a drive here; the charge ends, and the lock opens when the current is gone"),
    CHARGER_OVERHEATED    ("H11", when(Fact.CHARGER_OVERHEATED),       BLOCK_CHARGE,   NONE,          "     c ", BUDGET_HEAT_MS,   "it cools only without current"),
    CHARGER_ABOVE_LIMIT   ("H10", when(Fact.CHARGER_ABOVE_LIMIT),      BLOCK_CHARGE,   NONE,          "     c ", BUDGET_HEAT_MS,   "it can overload supply and cable; switched off it may still obey, else charger-runs-on acts"),
    CHARGERS_LOST         ("H10", when(Fact.CHARGERS_LOST),            BLOCK_CHARGE,   NONE,          "     c ", BUDGET_INLET_MS,  "nothing is there that could charge"),
    PLUG_PULLED           ("H10", inSequence("the plug or its latch was released while charge current was allowed or still flowed"),
                                                                       BLOCK_CHARGE,   NONE,          "     c ", BUDGET_INLET_MS,  "current must be zero before the contacts part"),

    MOTOR_WARM            ("H11", when(Fact.MOTOR_WARM),               LIMIT,          NONE,          "   d   ", BUDGET_HEAT_MS,   "less torque, less heat; the driver feels it coming"),
    INVERTER_WARM         ("H11", when(Fact.INVERTER_WARM),            LIMIT,          NONE,          "   d   ", BUDGET_HEAT_MS,   "less torque, less heat; the driver feels it coming"),
    COOLANT_WARM          ("H11", when(Fact.COOLANT_WARM),             LIMIT,          NONE,          "   d   ", BUDGET_HEAT_MS,   "less torque, less heat; the driver feels it coming"),
    COOLING_LOST          ("H11", when(Fact.COOLING_LOST),             LIMIT,          NONE,          "   d   ", BUDGET_HEAT_MS,   "without flow the inverter lives on its own mass for a short while"),
    PACK_WARM             ("H09", when(Fact.PACK_WARM),                LIMIT,          NONE,          "   d c ", BUDGET_PACK_MS,   "less current, less heat"),
    PACK_LOW              ("H09", when(Fact.PACK_LOW),                 LIMIT,          NONE,          "   d   ", BUDGET_PACK_MS,   "the torque falls with the voltage, so that a cold pack gives what it can and the stop does not come in traffic"),
    PACK_COOL             ("H09", when(Fact.PACK_COOL),                LIMIT,          NONE,          "   d c ", BUDGET_PACK_MS,   "cold cells plate lithium when charged, by a charger or by regeneration"),
    PACK_FULL             ("H09", when(Fact.PACK_FULL),                LIMIT,          NONE,          "   d c ", BUDGET_PACK_MS,   "a full pack cannot take regeneration; one high cell bends the charge before it trips"),
    CHARGE_WITHDRAWN      ("H09", when(Fact.CHARGE_WITHDRAWN),         LIMIT,          NONE,          "   d   ", BUDGET_PACK_MS,   "no regeneration; driving on is what helps"),
    DRIVE_SENSOR_LOST     ("H11", when(Fact.DRIVE_SENSOR_LOST),        LIMIT,          NONE,          "   d   ", BUDGET_HEAT_MS,   "a temperature nobody knows is taken as warm, enough to get home"),
    PACK_SENSOR_LOST      ("H09", when(Fact.PACK_SENSOR_LOST),         LIMIT,          NONE,          "   d   ", BUDGET_PACK_MS,   "a temperature nobody knows is taken as both warm and cold"),
    MONITOR_SILENT        ("H14", when(Fact.MONITOR_SILENT),           LIMIT,          NONE,          " i d   ", BUDGET_PACK_MS,   "its permits are separate wires and still guard; enough to get home, no new start"),
    CURRENTS_APART        ("H14", when(Fact.CURRENTS_APART),           LIMIT,          NONE,          " i d   ", BUDGET_PACK_MS,   "the greater of the two guards the pack; enough to get home, no new start"),
    LV_LOW                ("H13", when(Fact.LV_LOW),                   LIMIT,          NONE,          " i d c ", BUDGET_HEAT_MS,   "loads are shed and the driver is told while there is still time"),
    ISOLATION_LOW         ("H06", when(Fact.ISOLATION_LOW),            LIMIT,          NONE,          " i d   ", BUDGET_LATENT_MS, "a first fault hurts nobody; stopping dead in traffic might; no new start"),
    ISOLATION_SILENT      ("H06", when(Fact.ISOLATION_SILENT),         LIMIT,          NONE,          " i d   ", BUDGET_LATENT_MS, "a silent monitor is no lost insulation; enough to get home, no new start"),
    OVERSPEED             ("H17", when(Fact.OVERSPEED),                LIMIT,          NONE,          "   d   ", BUDGET_HEAT_MS,   "no more drive torque; braking torque stays"),

    HEATER_WITHOUT_AIR    ("H12", when(Fact.HEATER_WITHOUT_AIR),       WARN,           NONE,          "   d c ", BUDGET_HEAT_MS,   "the element stays off: that is decided where it is switched"),
    ROLLING_AWAY          ("H18", when(Fact.ROLLING_AWAY),             WARN,           NONE,          "   d   ", BUDGET_HEAT_MS,   "regeneration cannot hold a hill; the buzzer asks for the brake"),
    WHEEL_SPEED_LOST      ("H03", when(Fact.WHEEL_SPEED_LOST),         WARN,           NONE,          "   d   ", BUDGET_LATENT_MS, "the motor's speed still drives, as in a car that never had a second one"),
    SPEED_UNKNOWN_PLUGGED ("H02", when(Fact.SPEED_LOST),               WARN,           NONE,          "     c ", BUDGET_LATENT_MS, "nobody would notice the car roll; charge goes on only while nothing else speaks of movement"),
    REGEN_DEMAND_LOST     ("H04", when(Fact.REGEN_DEMAND_LOST),        WARN,           NONE,          "   d   ", BUDGET_TORQUE_MS, "the friction brake alone slows the car now: the driver must know before the next stop"),
    GAUGE_UNSURE          ("H04", when(Fact.GAUGE_UNSURE),             WARN,           NONE,          "   d   ", BUDGET_HEAT_MS,   "a gauge that guesses strands its driver");
    // @formatter:on

    /** How many interlocks there are. */
    public static final int COUNT = values().length;

    /** The hazard it guards against, an id of {@code docs/hazards.md}. */
    public final String hazard;
    /** What sets it off. */
    public final Cause cause;
    /** What it does. */
    public final Response response;
    /** What, besides the cause being gone, ends that. */
    public final Reset reset;
    /** The states in which it is asked. */
    public final Set<State> where;
    /** The fault-tolerant time: detection and reaction together must be shorter. */
    public final Parameter budget;
    /** Why this response and not another. */
    public final String why;

    Interlock(String hazard, Cause cause, Response response, Reset reset, String where, Parameter budget, String why) {
        this.hazard = hazard;
        this.cause = cause;
        this.response = response;
        this.reset = reset;
        this.where = Collections.unmodifiableSet(State.inColumn(where));
        this.budget = budget;
        this.why = why;
    }

    /** The name for people, e.g. {@code plug-present}.
     *
     * @return the name in lower case with hyphens
     */
    public String id() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The interlock with a name.
     *
     * @param name as people read it ({@code plug-present}) or as the code has it ({@code PLUG_PRESENT}); case does not count
     * @return the interlock; empty when there is none of that name
     */
    public static Optional<Interlock> of(String name) {
        String wanted = name.toLowerCase(Locale.ROOT).replace('_', '-');
        return Stream.of(values()).filter(row -> row.id().equals(wanted)).findFirst();
    }
}
