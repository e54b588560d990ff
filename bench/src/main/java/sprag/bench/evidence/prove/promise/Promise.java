package sprag.bench.evidence.prove.promise;

import java.util.function.Predicate;
import sprag.bench.evidence.prove.explore.Property;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/**
 * What must be true of every tick. Each row has the hazard that it guards against, the ticks to which it applies, what
 * is demanded of them, and what is wrong otherwise.
 *
 * <p>The rows are written from the hazards and the facts, without looking at Logic or at the interlock table. So a row
 * that is missing there breaks a promise here.
 */
public enum Promise implements Property<Tick> {
    // @formatter:off
    //                       hazard  of ticks that ...                      demanded                                                       otherwise
    DEAD_ON_CUT_OFF         ("H05", Tick::live,                             never(Fact.CUT_LOOP_OPEN, Fact.CRASH_SEEN),                    "something is alive although the cut-off loop is open or a crash was seen"),
    DEAD_ON_A_WELD          ("H05", Tick::live,                             never(Fact.NEGATIVE_WELDED, Fact.POSITIVE_WELDED),             "something is alive although a main contactor is welded"),
    DEAD_ON_A_STUCK_RELAY   ("H08", Tick::live,                             never(Fact.PRECHARGE_WELDED),                                  "something is alive although the precharge relay is welded"),
    DEAD_WITHOUT_12_V       ("H13", Tick::live,                             never(Fact.LV_LOST),                                           "something is alive although the 12 V supply cannot hold contactors"),
    DEAD_ON_A_VETO          ("H14", Tick::live,                             never(Fact.GATE_VETOED),                                       "something is alive although the gate had to overrule the logic"),
    DEAD_AT_REST            ("H05", t -> restful(t.after().state()),        t -> !t.live(),                                                "something is alive in a state where everything is open"),
    BUS_DIES                ("H05", t -> t.anyClosed() && !t.was(State.PRECHARGE) && !t.was(State.DRIVE_ENABLE),
                                                                            never(Fact.BUS_STILL_LIVE),                                    "a contactor is closed although the bus stayed live after opening"),
    BLEED_ENDS_DEAD         ("H05", t -> t.goes(Step.BLEED, Step.IDLE),     t -> t.opensAtOnce() || t.bus() == BusLevel.DISCHARGED,        "the bleed-down is taken for done although the bus is not dead"),
    COVER_STOPS             ("H05", Tick::goesOn,                           never(Fact.COVER_LOOP_OPEN),                                   "the drive or its start goes on although a traction connector or lid is open"),

    NO_TORQUE_WITH_A_PLUG   ("H02", t -> t.torque() || t.may().inverterEnabled, never(Fact.PLUG_SEEN),                                     "torque, or a live inverter, although a plug is seen"),
    NO_DRIVE_WITH_A_PLUG    ("H02", Tick::goesOn,                           never(Fact.PLUG_SEEN),                                         "the drive or its start goes on although a plug is seen"),
    NO_CHARGE_WHILE_ROLLING ("H02", Tick::charges,                          never(Fact.ROLLING_PLUGGED),                                   "charge although the car rolls, or nobody knows that it stands"),
    PLUG_LOCKS_OUT          ("H02", t -> (t.was(State.OFF) || t.was(State.IGNITION)) && !t.isNow(State.CHARGE_LOCKOUT) && !t.isNow(State.FAULT),
                                                                            never(Fact.PLUG_SEEN),                                         "a plug is seen at rest and the car does not lock itself out"),
    NO_TORQUE_WHILE_LOCKED  ("H02", t -> t.was(State.CHARGE_LOCKOUT) || t.isNow(State.CHARGE_LOCKOUT),
                                                                            t -> !t.torque() && !t.may().inverterEnabled,                  "torque, or a live inverter, in charge lockout"),

    PEDAL_ONLY_IN_DRIVE     ("H01", Tick::follows,                          t -> t.was(State.DRIVE_ENABLE) && t.isNow(State.DRIVE_ENABLE) && t.after().step() == Step.HOLD && t.may().inverterEnabled,
                                                                                                                                           "torque follows the pedal outside a connected drive"),
    RAMP_ONLY_IN_RUNDOWN    ("H01", Tick::ramps,                           t -> t.isNow(State.RUNDOWN) && t.after().step() == Step.RAMP_DOWN,
                                                                                                                                           "torque ramps out although the contactors may already be opening"),
    RAMP_ONLY_FROM_TORQUE   ("H01", t -> t.ramps() && t.was(State.DRIVE_ENABLE), t -> t.before().torqueLatched() == Reset.NONE && !t.any(Causes.NEEDING_RELEASE) && !t.any(Causes.NEEDING_THE_KEY),
                                                                                                                                           "torque ramps out although it had been taken away at once"),
    TORQUE_NEEDS_THE_KEY    ("H01", Tick::follows,                          always(Fact.KEY_ON),                                           "torque follows the pedal with the key off"),
    TORQUE_NEEDS_A_PEDAL    ("H01", Tick::follows,                          never(Fact.PEDAL_OUT_OF_RANGE, Fact.PEDAL_SHORTED, Fact.PEDAL_REFERENCE_WRONG, Fact.PEDAL_DISAGREES),
                                                                                                                                           "torque follows a pedal that cannot be believed"),
    BRAKE_WINS              ("H01", Tick::follows,                          never(Fact.PEDAL_WITH_BRAKE),                                  "torque although pedal and brake are pressed together"),
    STUCK_PEDAL_IS_SPARED   ("H01", Tick::follows,                          never(Fact.PEDAL_STILL),                                       "torque follows a pedal that does not move under the brake"),
    TORQUE_NEEDS_OBEDIENCE  ("H01", Tick::follows,                          never(Fact.INVERTER_FAULTED, Fact.INVERTER_NOT_READY, Fact.TORQUE_UNASKED),
                                                                                                                                           "torque from an inverter that is faulty, not ready or does not obey"),
    START_IS_BRAKED         ("H01", Tick::starts,                           always(Fact.BRAKE_PRESSED, Fact.PEDAL_RELEASED),               "a start without the brake, or with a pressed pedal"),
    START_PEDAL_IS_SOUND    ("H01", Tick::starts,                           never(Fact.PEDAL_REST_WRONG, Fact.PEDAL_OUT_OF_RANGE, Fact.PEDAL_SHORTED, Fact.PEDAL_REFERENCE_WRONG, Fact.PEDAL_DISAGREES),
                                                                                                                                           "a start with a pedal that cannot be believed"),

    ONE_DIRECTION           ("H03", Tick::follows,                          t -> t.lever() != Direction.NEUTRAL && t.lever() == t.may().engaged && t.may().engaged == t.after().engaged(),
                                                                                                                                           "torque another way than the lever says"),
    CLEAR_DIRECTION         ("H03", Tick::follows,                          never(Fact.DIRECTION_CONFLICT),                                "torque although the direction switches contradict each other"),
    NO_TURNING_WHILE_ROLLING("H03", t -> t.after().engaged() != t.before().engaged() && t.after().engaged() != Direction.NEUTRAL,
                                                                            always(Fact.STANDSTILL, Fact.PEDAL_RELEASED),                  "a direction engages while rolling or with the pedal pressed"),
    DRIVE_IS_KEPT           ("H04", t -> t.was(State.DRIVE_ENABLE) && !t.isNow(State.DRIVE_ENABLE),
                                                                            t -> !t.is(Fact.KEY_ON) || t.seen(Causes.ENDING_A_DRIVE),                   "the drive ends without a reason to end it"),
    DRIVE_STAYS_CONNECTED   ("H04", t -> t.was(State.DRIVE_ENABLE) && t.isNow(State.DRIVE_ENABLE),
                                                                            t -> t.after().step() == Step.HOLD && t.may().inverterEnabled, "the contactors or the inverter let go in the middle of a drive"),
    SPEED_IS_KNOWN          ("H16", t -> t.follows() || t.starts(),         never(Fact.SPEED_LOST, Fact.SPEED_DOUBTED),                    "torque or a start although the speed is unknown: neither direction nor brake lamp can be right"),

    CURRENT_IS_AGREED       ("H14", t -> t.follows() && !t.may().limited || t.starts(), never(Fact.CURRENTS_APART),                      "a start or full torque although two pack currents differ"),
    CURRENT_AT_CHARGE       ("H09", Tick::charges,                          never(Fact.CURRENTS_APART),                                    "charge current although two pack currents differ"),

    INSULATION_AT_REST      ("H06", Tick::goesUp,                           never(Fact.ISOLATION_LOW),                                     "contactors go on closing although the insulation is low"),
    INSULATION_KNOWN_TO_GO  ("H06", Tick::starts,                           never(Fact.ISOLATION_SILENT),                                  "a start although the insulation is unknown"),
    INSULATION_WARNED       ("H06", t -> t.follows() && !t.may().limited,   never(Fact.ISOLATION_LOW, Fact.ISOLATION_SILENT),                                     "full torque although the insulation is low or unknown"),
    INSULATION_AT_CHARGE    ("H06", Tick::charges,                          never(Fact.ISOLATION_LOW, Fact.ISOLATION_SILENT),              "charge although the insulation is low or unknown"),
    INSULATION_KNOWN        ("H06", t -> t.follows() && !t.may().limited || t.starts(), never(Fact.ISOLATION_SILENT),                    "a start or full torque although nobody knows the insulation"),
    INSULATION_KNOWN_CHARGE ("H06", Tick::charges,                          never(Fact.ISOLATION_SILENT),                                  "charge current although nobody knows the insulation"),

    POSITIVE_ON_FULL_BUS    ("H07", Tick::positiveCloses,                   t -> t.before().step() == Step.RAISE_BUS && t.bus() == BusLevel.CHARGED && t.is(Fact.BUS_FLAT),
                                                                                                                                           "the positive contactor closes onto a bus that is not charged"),
    PRECHARGE_IS_LONG_ENOUGH("H07", Tick::positiveCloses,                   t -> t.lasted(Math.max(t.limits().min(), t.limits().fast())), "the positive contactor closes before the least time of a precharge"),
    FAST_IS_NO_PROOF        ("H07", Tick::keepsRaising,                     t -> t.lasted(t.limits().fast()) || t.bus() != BusLevel.CHARGED, "the precharge goes on although the bus was charged impossibly soon"),
    BUS_MUST_RISE           ("H07", Tick::keepsRaising,                     never(Fact.BUS_REVERSED),                                      "the precharge goes on although the bus falls"),
    STALL_ENDS_IT           ("H08", Tick::keepsRaising,                     t -> !t.is(Fact.BUS_STALLED) || t.bus() == BusLevel.CHARGED,   "the precharge goes on although the bus has stalled"),
    RESISTOR_IS_SPARED      ("H08", Tick::keepsRaising,                     never(Fact.RESISTOR_OVERLOADED),                               "the precharge goes on although the resistor is overloaded"),
    RESISTOR_IS_COOL        ("H08", Tick::begins,                           never(Fact.RESISTOR_SPENT),                                    "contactors begin to close although the resistor could not take another precharge"),
    BUS_IS_DEAD_AT_START    ("H07", Tick::begins,                           t -> t.bus() == BusLevel.DISCHARGED,                           "contactors begin to close onto a bus that is not dead"),
    WELD_TEST_COUNTS        ("H05", Tick::testsOn,                          t -> t.bus() == BusLevel.DISCHARGED,                           "the weld test goes on although the bus rose in it"),
    WELD_TEST_LASTS         ("H05", Tick::testAdvances,                     Tick::testLasted,                                              "a half of the weld test is cut short"),
    NEGATIVE_IS_CLOSED      ("H07", t -> t.goes(Step.TEST_POSITIVE, Step.RAISE_BUS), always(Fact.NEGATIVE_CONFIRMED),                      "the precharge begins although the negative contactor is not seen closed"),
    POSITIVE_IS_CLOSED      ("H07", t -> t.goes(Step.OVERLAP, Step.HOLD),   t -> t.is(Fact.POSITIVE_CONFIRMED) && t.lasted(t.limits().overlap()),
                                                                                                                                           "the precharge path opens although the positive contactor is not seen closed"),
    CONTACTORS_AS_THE_STEP  ("H07", t -> true,                               Tick::contactorsAsTheStep,                                     "a contactor is not where its step has it"),
    BUS_LOADS_AS_CONNECTED  ("H07", t -> true,                               t -> t.may().busConnected == (t.after().step() == Step.HOLD),  "loads run on a bus that is not connected, or are kept off one that is"),
    STEPS_IN_ORDER          ("H07", t -> t.before().step() != t.after().step(), t -> StepOrder.allows(t.before().step(), t.after().step(), t.limits().testsNegative()), "a contactor step is skipped, or the sequence runs backwards"),
    OPENS_IN_ORDER          ("H07", t -> t.isNow(Step.IDLE) && (t.before().step() == Step.OVERLAP || t.before().step() == Step.HOLD || t.before().step() == Step.RAMP_DOWN),
                                                                            Tick::opensAtOnce,                                             "everything opens at once, under load, although no interlock asks for that"),
    CURRENT_IS_LOW_TO_OPEN  ("H07", t -> t.goes(Step.RAMP_DOWN, Step.OPEN_POSITIVE), t -> t.lasted(t.limits().currentWait()) || t.is(Fact.CURRENT_LOW),
                                                                                                                                           "contactors open under load before the bounded wait is over"),
    WAIT_FOR_CURRENT_ENDS   ("H09", t -> t.goes(Step.RAMP_DOWN, Step.RAMP_DOWN), t -> !t.lasted(t.limits().currentWait()) || t.is(Fact.BACK_EMF_HIGH),
                                                                                                                                           "contactors stay closed for a current that does not fall, longer than the bounded wait"),
    RELEASE_IS_AWAITED      ("H07", t -> t.goes(Step.OPEN_POSITIVE, Step.OPEN_NEGATIVE) || t.goes(Step.OPEN_NEGATIVE, Step.BLEED),
                                                                            t -> t.lasted(t.limits().release()),                        "the next contactor opens before the last one can have"),
    CONTACTS_ARE_TRUE       ("H07", t -> t.follows() || t.charges() && t.limits().busSide(), never(Fact.BUS_LOST, Fact.NEGATIVE_DROPPED, Fact.POSITIVE_DROPPED),
                                                                                                                                           "torque or charge although a contactor or the fuse has opened"),
    CONTACTS_STAY_CLOSED    ("H07", t -> t.goesUp() && !t.begins(),                         never(Fact.NEGATIVE_DROPPED, Fact.POSITIVE_DROPPED),           "contactors go on closing although one has dropped out"),

    PACK_ENDS_DRIVE         ("H09", Tick::goesOn,                           never(Fact.PACK_OVERHEATED, Fact.PACK_OVERVOLTAGE, Fact.PACK_UNDERVOLTAGE, Fact.CELL_OVERVOLTAGE, Fact.CELL_UNDERVOLTAGE),
                                                                                                                                           "the drive or its start goes on although the pack is beyond its limits"),
    OVERCURRENT_ENDS_IT     ("H09", t -> t.goesOn() && !t.was(State.IGNITION), never(Fact.PACK_OVERCURRENT),                               "the drive goes on although the pack current is beyond its limit"),
    MONITOR_ENDS_TORQUE     ("H09", t -> t.follows() || t.goesOn() && !t.was(State.DRIVE_ENABLE), never(Fact.DISCHARGE_WITHDRAWN),         "torque or a start although the battery monitor forbids to take current"),
    PACK_IS_SPARED          ("H09", t -> t.follows() && !t.may().limited,   never(Fact.PACK_WARM, Fact.PACK_COOL, Fact.PACK_FULL, Fact.PACK_LOW, Fact.CHARGE_WITHDRAWN, Fact.PACK_SENSOR_LOST),
                                                                                                                                           "full torque and regeneration although the pack asks to be spared"),
    PACK_IS_SPARED_AT_CHARGE("H09", t -> t.charges() && !t.may().limited,   never(Fact.PACK_WARM, Fact.PACK_COOL, Fact.PACK_FULL),         "full charge current although the pack asks to be spared"),
    PACK_ENDS_CHARGE        ("H09", Tick::charges,                          never(Fact.PACK_OVERHEATED, Fact.PACK_OVERVOLTAGE, Fact.CELL_OVERVOLTAGE, Fact.PACK_OVERCURRENT, Fact.CHARGE_OVERVOLTAGE, Fact.CHARGER_RUNS_ON),
                                                                                                                                           "charge although the pack is beyond its limits or a charger does not obey"),
    PACK_MAY_BE_CHARGED     ("H09", Tick::charges,                          never(Fact.PACK_TOO_COLD, Fact.PACK_TOO_WARM_TO_CHARGE, Fact.PACK_SENSOR_LOST, Fact.CHARGE_WITHDRAWN, Fact.CHARGE_TOO_LONG),
                                                                                                                                           "charge although the pack must not be charged now"),
    CHARGE_ENDS_WHEN_DONE   ("H09", t -> t.charges() && t.before().charge() == ChargePhase.CHARGING, never(Fact.CHARGE_DONE),              "charge goes on although it has reached its end"),
    CHARGE_IS_WANTED        ("H09", t -> t.before().charge() != ChargePhase.CHARGING && t.after().charge() == ChargePhase.CHARGING,
                                                                            always(Fact.CHARGE_DUE),                                       "a charge begins that nobody needs"),

    CHARGE_END_IS_AWAITED   ("H10", t -> t.before().charge() == ChargePhase.ENDING && t.after().charge() != ChargePhase.ENDING && !t.isNow(State.FAULT),
                                                                            t -> t.limits().busSide() ? !t.anyClosed() : t.lasted(t.limits().currentWait()) || t.is(Fact.CURRENT_LOW),
                                                                                                                                           "an ended charge counts as over although current may still flow"),
    FINISHED_STAYS          ("H09", t -> t.resumes(ChargePhase.FINISHED),   always(Fact.CHARGE_DUE),                                       "a finished charge begins again although nothing was used"),
    REFUSED_STAYS           ("H10", t -> t.resumes(ChargePhase.REFUSED),    always(Fact.CHARGE_RETRY),                                     "a refused charge is tried again without a wait"),
    CHARGE_IS_OFFERED       ("H10", Tick::charges,                          always(Fact.PLUG_SEEN, Fact.CHARGE_OFFERED),                   "charge without a plug or without an offer"),
    CHARGE_IS_HELD          ("H10", Tick::charges,                          always(Fact.PLUG_HELD),                                        "charge although the lock does not hold the plug"),
    LOCK_IS_SOUND           ("H10", Tick::charges,                          never(Fact.PLUG_UNLOCKED),                                     "charge although the lock was not seen to close"),
    PLUG_IS_GIVEN           ("H10", Tick::charges,                          never(Fact.PLUG_WANTED),                                       "charge although somebody wants the plug"),
    CHARGE_IS_CONNECTED     ("H10", Tick::charges,                          t -> t.after().step() == (t.limits().busSide() ? Step.HOLD : Step.IDLE),
                                                                                                                                           "charge although the contactors are not where it needs them"),
    COVER_ENDS_CHARGE       ("H05", Tick::charges,                          never(Fact.COVER_LOOP_OPEN),                                   "charge although a traction connector or lid is open"),
    INLET_IS_SOUND          ("H10", Tick::charges,                          never(Fact.PILOT_INVALID, Fact.PROXIMITY_INVALID, Fact.PROXIMITY_MISSING, Fact.CHARGERS_LOST, Fact.CHARGER_ABOVE_LIMIT),
                                                                                                                                           "charge although pilot, plug or chargers are not sound"),
    HEAT_ENDS_TORQUE        ("H11", t -> t.follows() || t.starts(),         never(Fact.MOTOR_OVERHEATED, Fact.INVERTER_OVERHEATED, Fact.COOLANT_OVERHEATED),
                                                                                                                                           "torque or a start although something is too hot"),
    HEAT_LIMITS_TORQUE      ("H11", t -> t.follows() && !t.may().limited,   never(Fact.MOTOR_WARM, Fact.INVERTER_WARM, Fact.COOLANT_WARM, Fact.COOLING_LOST, Fact.DRIVE_SENSOR_LOST),
                                                                                                                                           "full torque although something is warm, or might be"),
    HEAT_ENDS_CHARGE        ("H11", Tick::charges,                          never(Fact.CHARGER_OVERHEATED),                                "charge although the chargers are too hot"),
    LOW_12_V_LIMITS         ("H13", t -> (t.follows() || t.charges()) && !t.may().limited || t.starts(), never(Fact.LV_LOW),               "a start, full torque or full charge although the 12 V supply sags"),

    BLIND_ENDS_DRIVE        ("H14", Tick::goesOn,                           never(Fact.READINGS_LOST, Fact.LINK_LOST, Fact.LOOP_LATE),
                                                                                                                                           "the drive or its start goes on blind"),
    BLIND_ENDS_CHARGE       ("H14", Tick::charges,                          never(Fact.READINGS_LOST, Fact.LINK_LOST, Fact.LOOP_LATE, Fact.MONITOR_SILENT),
                                                                                                                                           "charge goes on blind"),
    BLIND_ENDS_CLOSING      ("H14", Tick::goesUp,                           never(Fact.READINGS_LOST, Fact.LINK_LOST, Fact.LOOP_LATE),
                                                                                                                                           "contactors go on closing blind"),
    SILENCE_LIMITS          ("H14", t -> t.follows() && !t.may().limited || t.starts(), never(Fact.MONITOR_SILENT),                        "a start or full torque although the cells are unknown"),

    KEY_WAKES               ("H15", t -> t.was(State.OFF) && t.isNow(State.IGNITION), always(Fact.KEY_ON),                                 "the car wakes without the key"),
    KEY_HOLDS_THE_DRIVE     ("H15", Tick::goesOn,                           always(Fact.KEY_ON),                                           "the drive or its start goes on with the key off"),
    START_IS_ASKED_FOR      ("H15", Tick::starts,                           always(Fact.KEY_ON, Fact.START_REQUESTED),                     "a start that nobody asked for"),
    CLOSING_IS_ASKED_FOR    ("H15", t -> t.begins() && !t.starts(),         t -> t.was(State.CHARGE_LOCKOUT) && t.is(Fact.PLUG_SEEN) && t.is(Fact.CHARGE_OFFERED),
                                                                                                                                           "contactors begin to close without a start or a charge"),
    LATCH_ENDS_IN_FAULT     ("H15", t -> t.after().latched() != Reset.NONE,  t -> t.isNow(State.FAULT) || t.isNow(State.RUNDOWN) || t.isNow(State.CHARGE_LOCKOUT),
                                                                                                                                           "something is latched in a state that does not lead to FAULT"),
    FAULT_IS_KEPT           ("H15", t -> t.was(State.FAULT) && !t.isNow(State.FAULT),
                                                                            t -> t.is(Fact.KEY_OFF) && !t.is(Fact.KEY_ON) && !t.any(Causes.KEEPING_A_FAULT), "a fault is left with the key on or unknown, or its cause still there"),
    SERVICE_IS_ASKED_FOR    ("H15", t -> t.was(State.FAULT) && !t.isNow(State.FAULT) && t.before().latched() == Reset.SERVICE,
                                                                            always(Fact.SERVICE_RESET),                                    "a fault that needs service is left without it"),
    BUS_VOLTAGE_ENDS_REGEN  ("H17", Tick::follows,                          never(Fact.BUS_OVERVOLTAGE),                                   "torque although the bus is above its limit"),
    OVERSPEED_LIMITS        ("H17", t -> t.follows() && !t.may().limited,   never(Fact.OVERSPEED),                                         "full torque although the motor turns too fast"),
    PACK_ANCHORS_THE_MOTOR  ("H17", t -> t.goes(Step.RAMP_DOWN, Step.OPEN_POSITIVE), t -> t.lasted(t.limits().spinWait()) || !t.is(Fact.BACK_EMF_HIGH),
                                                                                                                                           "contactors open while a spinning motor would lift the bus");
    // @formatter:on

    /** The hazard it guards against, an id of {@code docs/hazards.md}. */
    public final String hazard;

    private final Predicate<Tick> of;
    private final Predicate<Tick> demanded;
    private final String otherwise;

    Promise(String hazard, Predicate<Tick> of, Predicate<Tick> demanded, String otherwise) {
        this.hazard = hazard;
        this.of = of;
        this.demanded = demanded;
        this.otherwise = otherwise;
    }

    @Override
    public String explanation() {
        return otherwise;
    }

    @Override
    public boolean concerns(Tick tick) {
        return of.test(tick);
    }

    @Override
    public boolean holds(Tick tick) {
        return demanded.test(tick);
    }

    private static Predicate<Tick> never(Fact... facts) {
        FactSet set = FactSet.of(facts);
        return tick -> !tick.any(set);
    }

    private static Predicate<Tick> always(Fact... facts) {
        return tick -> {
            for (Fact fact : facts) {
                if (!tick.is(fact)) {
                    return false;
                }
            }
            return true;
        };
    }

    private static boolean restful(State state) {
        return state == State.OFF || state == State.IGNITION || state == State.FAULT;
    }
}
