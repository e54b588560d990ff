package sprag.supervisor;

import java.util.function.Consumer;
import java.util.function.Predicate;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** What an unknown reading counts as, and why that is the safe side. One row a signal. */
enum UnknownReading {
    // @formatter:off
    KEY_ON               (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "neither on nor off: the drive ends in order", "a key that nobody can read must not keep a car alive, and must not reset a fault"),
    START_REQUEST        (State.IGNITION,       r -> r.given(Signal.START_REQUEST, 0), r -> !r.is(Fact.START_RELEASED) && r.state() == State.IGNITION, "neither pressed nor released: no start", "a lost sample must not start a car"),
    FORWARD_SWITCH       (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "a conflict of directions: no torque", "nobody knows which way"),
    REVERSE_SWITCH       (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "a conflict of directions: no torque", "nobody knows which way"),
    BRAKE_PRESSED        (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "pressed where the pedal fights it, not pressed where a start needs it", "the driver may be braking; and nobody knows that the brake holds"),
    PEDAL_A_V            (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "no position: no torque, until the key was turned", "a broken wire must not be a pedal position"),
    PEDAL_B_V            (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "no position: no torque, until the key was turned", "a broken wire must not be a pedal position"),
    PEDAL_SUPPLY_V       (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "wrong: no torque, until the key was turned", "every position is scaled by the reference"),
    REGEN_LEVEL          (State.DRIVE_ENABLE,   r -> r.given(Signal.REGEN_LEVEL, 2), r -> r.supervisor.conditioned().regenLevel == 0, "level 0: coast", "the friction brake is always there; braking that nobody chose surprises the driver behind"),
    SERVICE_RESET        (State.OFF,            r -> r.given(Signal.SERVICE_RESET, 1), r -> !r.is(Fact.SERVICE_RESET), "not pressed", "only a person may reset what needs service"),
    REGEN_DEMAND_V       (State.DRIVE_ENABLE,   r -> r.given(Signal.REGEN_DEMAND_V, 0.5).run(5).given(Signal.REGEN_DEMAND_V, 3), r -> r.supervisor.conditioned().regenAsked == 0 && r.is(Fact.REGEN_DEMAND_LOST), "nothing is asked for: no regeneration by it, and a warning", "the friction brake is always there; braking that nobody chose surprises the driver behind"),
    HEATER_REQUEST       (State.DRIVE_ENABLE,   r -> r.given(Signal.HEATER_REQUEST, 1), r -> !r.out.isOn(Output.HEATER_BLOWER), "no heat asked for", "heat that nobody asked for warms nobody"),
    CUT_LOOP_CLOSED      (State.DRIVE_ENABLE,   r -> {},                UnknownReading::dead,         "open: everything opens at once", "somebody may have asked for everything to be dead"),
    COVER_LOOP_CLOSED    (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "open: the drive ends in order", "live parts may be within reach"),
    CRASH_LOOP_CLOSED    (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "lost: the drive ends in order", "no crash was seen, so nobody is hurt by an orderly end; but the next one would not be seen"),
    NEGATIVE_AUX_CLOSED  (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "open while the contactor should be closed: the drive ends in order", "if it pulls in again it closes onto a fallen bus"),
    POSITIVE_AUX_CLOSED  (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "open while the contactor should be closed: the drive ends in order", "if it pulls in again it closes onto a fallen bus"),
    PRECHARGE_AUX_CLOSED (State.OFF,            r -> r.meddle(Signal.PRECHARGE_AUX_CLOSED, 1), r -> !r.is(Fact.PRECHARGE_WELDED), "not known to be welded: nothing latches", "a lost sample is no weld; a relay that is welded leaves the bus live, and that is seen at the bus"),
    INVERTER_READY       (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "not ready: no torque", "torque must not jump in when it becomes ready"),
    INVERTER_FAULT       (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "a fault: no torque", "torque must not return under a pressed pedal"),
    MOTOR_SPEED_RPM      (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "lost: no torque, no other direction, and a permanent-magnet motor counts as spinning", "direction, regeneration and brake lamp all rest on the speed"),
    WHEEL_SPEED_KPH      (State.DRIVE_ENABLE,   r -> {},                r -> r.is(Fact.WHEEL_SPEED_LOST) && r.state() == State.DRIVE_ENABLE, "no confirmation: a warning", "the motor's speed is there, and is judged as in a car without a second one"),
    MOTOR_TEMP_V         (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "warm: the torque is limited", "a temperature nobody knows is taken as warm, enough to get home"),
    INVERTER_TEMP_V      (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "warm: the torque is limited", "a temperature nobody knows is taken as warm, enough to get home"),
    COOLANT_TEMP_V       (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "warm: the torque is limited", "a temperature nobody knows is taken as warm, enough to get home"),
    DISCHARGE_PERMIT     (State.DRIVE_ENABLE,   r -> r.pedal(0.5),      UnknownReading::torqueless,   "withdrawn: no torque", "the monitor knows the cells"),
    CHARGE_PERMIT        (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "withdrawn: no regeneration and no charge", "the monitor knows the cells"),
    PACK_HOT_V           (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "both warm and cold: limited, and no charge", "either would harm the cells"),
    PACK_COLD_V          (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "both warm and cold: limited, and no charge", "either would harm the cells"),
    PACK_VOLTAGE_V       (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "lost: the drive ends in order", "no decision about contactors can rest on it"),
    BUS_VOLTAGE_V        (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "lost, and neither dead nor charged: the drive ends in order", "no decision about contactors can rest on it"),
    PACK_CURRENT_A       (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "lost: the drive ends in order, contactors open after the bounded wait", "nobody knows that the current is low"),
    PACK_CURRENT_2_A     (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "another current than the first sensor's: limited, no start and no charge", "the first sensor still guards; enough to get home"),
    CELL_MAX_V           (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "full: limited, and no charge", "one cell may be too high"),
    CELL_MIN_V           (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "empty: limited, and no charge", "one cell may be too low"),
    ISOLATION_KOHM       (State.DRIVE_ENABLE,   r -> {},                UnknownReading::limited,      "unknown: limited, no start and no charge", "a first fault hurts nobody, and stopping dead in traffic might"),
    LV_SUPPLY_V          (State.DRIVE_ENABLE,   r -> {},                UnknownReading::dead,         "lost: everything opens at once", "coils would drop out by themselves, chattering"),
    PLUG_PRESENT         (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "a plug: the drive ends", "a car that is tied to the wall must not move"),
    PROXIMITY_V          (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "a plug: the drive ends", "a car that is tied to the wall must not move"),
    PILOT_PEAK_V         (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "a plug: the drive ends", "a car that is tied to the wall must not move"),
    PILOT_DUTY           (State.CHARGE_LOCKOUT, UnknownReading::offer,  r -> !r.is(Fact.CHARGE_OFFERED), "no offer: no charge", "nobody knows what the supply can bear"),
    PLUG_LOCKED          (State.CHARGE_LOCKOUT, UnknownReading::offer,  r -> !r.is(Fact.PLUG_HELD),   "open: no charge", "a plug that nothing holds can be pulled under load"),
    CHARGER_1_OK         (State.CHARGE_LOCKOUT, UnknownReading::offer,  r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that is not there cannot obey"),
    CHARGER_2_OK         (State.CHARGE_LOCKOUT, r -> only(r, Signal.CHARGER_2_OK), r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that is not there cannot obey"),
    CHARGER_3_OK         (State.CHARGE_LOCKOUT, r -> only(r, Signal.CHARGER_3_OK), r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that is not there cannot obey"),
    CHARGER_1_CURRENT_A  (State.CHARGE_LOCKOUT, r -> only(r, Signal.CHARGER_1_OK), r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that does not say what it gives is not known to obey"),
    CHARGER_2_CURRENT_A  (State.CHARGE_LOCKOUT, r -> only(r, Signal.CHARGER_2_OK), r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that does not say what it gives is not known to obey"),
    CHARGER_3_CURRENT_A  (State.CHARGE_LOCKOUT, r -> only(r, Signal.CHARGER_3_OK), r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that does not say what it gives is not known to obey"),
    CHARGER_1_VOLTAGE_V  (State.CHARGE_LOCKOUT, r -> only(r, Signal.CHARGER_1_OK), r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that does not say its voltage is not known to obey"),
    CHARGER_2_VOLTAGE_V  (State.CHARGE_LOCKOUT, r -> only(r, Signal.CHARGER_2_OK), r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that does not say its voltage is not known to obey"),
    CHARGER_3_VOLTAGE_V  (State.CHARGE_LOCKOUT, r -> only(r, Signal.CHARGER_3_OK), r -> r.is(Fact.CHARGERS_LOST), "not well: it is asked for nothing", "a charger that does not say its voltage is not known to obey"),
    CHARGER_TEMP_V       (State.CHARGE_LOCKOUT, UnknownReading::offer,  r -> Double.isNaN(r.supervisor.conditioned().chargerTempC), "no temperature: half of the chargers' rating is asked for", "they protect themselves, and half the power heats them by a quarter"),
    HEATER_AIRFLOW       (State.DRIVE_ENABLE,   UnknownReading::heat,   r -> !r.out.isOn(Output.HEATER_ELEMENT), "no air: the element stays off", "an element without air burns"),
    HEATER_TEMP_V        (State.DRIVE_ENABLE,   UnknownReading::heat,   r -> !r.out.isOn(Output.HEATER_ELEMENT), "hot: the element stays off", "it may be too hot already"),
    LOOP_OVERRUN         (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "late: the drive ends in order", "every delay is counted in ticks"),
    LINK_LOST            (State.DRIVE_ENABLE,   r -> {},                UnknownReading::ended,        "down: the drive ends in order", "commands may not arrive");
    // @formatter:on

    final Signal signal;
    final State state;
    final String assumed;
    final String because;
    private final Consumer<Rig> prepare;
    private final Predicate<Rig> shows;

    UnknownReading(State state, Consumer<Rig> prepare, Predicate<Rig> shows, String assumed, String because) {
        this.signal = Signal.valueOf(name());
        this.state = state;
        this.prepare = prepare;
        this.shows = shows;
        this.assumed = assumed;
        this.because = because;
    }

    /** A rig in the state of the row, with everything sound. */
    Rig ready() {
        Rig rig = new Rig(TestVehicle.every().with(Parameter.CHARGER_COUNT, 3)).at(state);
        prepare.accept(rig);
        return rig;
    }

    boolean shows(Rig rig) {
        return shows.test(rig);
    }

    private static boolean torqueless(Rig rig) {
        return rig.state() == State.DRIVE_ENABLE && rig.torqueNm() == 0;
    }

    private static boolean ended(Rig rig) {
        return rig.state() != State.DRIVE_ENABLE && rig.torqueNm() == 0;
    }

    private static boolean dead(Rig rig) {
        return rig.state() == State.FAULT && !rig.anyContactor();
    }

    private static boolean limited(Rig rig) {
        return rig.state() == State.DRIVE_ENABLE && rig.supervisor.permissions().limited;
    }

    /** A charge that is offered: 32 A cable, 15 A. */
    private static void offer(Rig rig) {
        rig.given(Signal.PROXIMITY_V, 1.9).given(Signal.PILOT_PEAK_V, 9).given(Signal.PILOT_DUTY, 0.25);
    }

    /** The only charger of three that is well. */
    private static void only(Rig rig, Signal charger) {
        offer(rig);
        rig.given(Signal.CHARGER_1_OK, 0).given(charger, 1);
    }

    /** Heat asked for, and air that follows the blower. */
    private static void heat(Rig rig) {
        rig.meddle = () -> rig.in.set(Signal.HEATER_AIRFLOW, rig.out.isOn(Output.HEATER_BLOWER) ? 1 : 0);
        rig.given(Signal.HEATER_REQUEST, 1);
    }
}
