package sprag.bench.evidence.prove.promise;

import sprag.supervisor.vocabulary.Fact;

/**
 * Groups of facts that promises use. They are written without looking at the interlock table, so that a row that is
 * missing there is found here.
 */
final class Causes {
    /** The facts after which no contactor may be trusted or closed. */
    private static final FactSet TRACTION_UNSAFE = FactSet.of(
            Fact.CUT_LOOP_OPEN,
            Fact.CRASH_SEEN,
            Fact.LV_LOST,
            Fact.NEGATIVE_WELDED,
            Fact.POSITIVE_WELDED,
            Fact.PRECHARGE_WELDED);

    /** The facts that may end a drive. */
    static final FactSet ENDING_A_DRIVE = TRACTION_UNSAFE.plus(
            Fact.PLUG_SEEN,
            Fact.COVER_LOOP_OPEN,
            Fact.PACK_OVERHEATED,
            Fact.PACK_OVERVOLTAGE,
            Fact.PACK_UNDERVOLTAGE,
            Fact.CELL_OVERVOLTAGE,
            Fact.CELL_UNDERVOLTAGE,
            Fact.PACK_OVERCURRENT,
            Fact.READINGS_LOST,
            Fact.LINK_LOST,
            Fact.LOOP_LATE,
            Fact.GATE_VETOED,
            Fact.BUS_LOST,
            Fact.NEGATIVE_DROPPED,
            Fact.POSITIVE_DROPPED,
            Fact.TORQUE_UNASKED);

    /** The facts with which no fault may be left. */
    static final FactSet KEEPING_A_FAULT = TRACTION_UNSAFE.plus(
            Fact.BUS_STILL_LIVE,
            Fact.CHARGER_RUNS_ON,
            Fact.COVER_LOOP_OPEN,
            Fact.PACK_OVERHEATED,
            Fact.PACK_OVERVOLTAGE,
            Fact.CELL_OVERVOLTAGE,
            Fact.READINGS_LOST,
            Fact.LINK_LOST,
            Fact.LOOP_LATE,
            Fact.GATE_VETOED,
            Fact.CHARGE_OVERVOLTAGE,
            Fact.ISOLATION_LOW);

    /** The facts after which only a service reset may bring contactors or charge back. */
    static final FactSet NEEDING_SERVICE = FactSet.of(
            Fact.CRASH_SEEN, Fact.NEGATIVE_WELDED, Fact.POSITIVE_WELDED, Fact.PRECHARGE_WELDED, Fact.GATE_VETOED);

    /** The facts after which the key must be turned off before torque comes back. */
    static final FactSet NEEDING_THE_KEY = FactSet.of(
            Fact.PEDAL_OUT_OF_RANGE,
            Fact.PEDAL_SHORTED,
            Fact.PEDAL_REFERENCE_WRONG,
            Fact.PEDAL_DISAGREES,
            Fact.SPEED_LOST);

    /** The facts after which the pedal must be released before torque comes back. */
    static final FactSet NEEDING_RELEASE = FactSet.of(
            Fact.INVERTER_FAULTED,
            Fact.INVERTER_NOT_READY,
            Fact.PEDAL_WITH_BRAKE,
            Fact.DIRECTION_CONFLICT,
            Fact.BUS_OVERVOLTAGE,
            Fact.MOTOR_OVERHEATED,
            Fact.INVERTER_OVERHEATED,
            Fact.COOLANT_OVERHEATED,
            Fact.DISCHARGE_WITHDRAWN);

    // @formatter:off
    /**
     * When one of these facts was true while contactors were closed, the key must be turned on and off before they
     * close again.
     */
    private static final FactSet NEEDING_A_CYCLE = FactSet.of(
        Fact.CUT_LOOP_OPEN, Fact.LV_LOST, Fact.COVER_LOOP_OPEN, Fact.PACK_OVERHEATED, Fact.PACK_OVERVOLTAGE,
        Fact.CELL_OVERVOLTAGE, Fact.PACK_OVERCURRENT, Fact.READINGS_LOST, Fact.LINK_LOST, Fact.LOOP_LATE,
        Fact.NEGATIVE_DROPPED, Fact.POSITIVE_DROPPED);
    // @formatter:on

    private static final FactSet DRIVEN = FactSet.of(Fact.BUS_LOST, Fact.TORQUE_UNASKED);
    private static final FactSet CHARGED = FactSet.of(Fact.CHARGER_RUNS_ON, Fact.CHARGE_OVERVOLTAGE, Fact.BUS_LOST);
    private static final FactSet UNDERVOLTAGE = FactSet.of(Fact.PACK_UNDERVOLTAGE, Fact.CELL_UNDERVOLTAGE);

    /**
     * Whether a fact is true in this tick after which the key must be turned on and off. The facts are asked for here,
     * whether Logic asked for them or not.
     */
    static boolean tripped(Tick tick) {
        return switch (tick.before().state()) {
            case PRECHARGE -> tick.any(NEEDING_A_CYCLE) || tick.any(UNDERVOLTAGE);
            case DRIVE_ENABLE -> tick.any(NEEDING_A_CYCLE) || tick.any(DRIVEN) || tick.any(UNDERVOLTAGE);
            case RUNDOWN -> tick.any(NEEDING_A_CYCLE) || tick.any(DRIVEN);
            case CHARGE_LOCKOUT -> tick.any(NEEDING_A_CYCLE) || tick.any(CHARGED);
            default -> false;
        };
    }

    private Causes() {}
}
