package sprag.bench.evidence.campaign.play;

import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** How much a reading must change to count as different: a welded contact changes the bus by millivolts before it matters. */
final class DifferenceThresholds {
    private static final double SHARE = 0.02;
    private static final double SMALL_WIRE_V = 0.05;
    private static final double CELL_V = 0.02;
    private static final Signal[] SIGNALS = Signal.values();

    private final double[] threshold = new double[SIGNALS.length];
    /** What differed last differs most likely again. */
    private Signal likely = SIGNALS[0];

    DifferenceThresholds(Vehicle vehicle) {
        for (Signal signal : SIGNALS) {
            threshold[signal.ordinal()] = switch (signal) {
                case PACK_VOLTAGE_V, BUS_VOLTAGE_V, CHARGER_1_VOLTAGE_V, CHARGER_2_VOLTAGE_V, CHARGER_3_VOLTAGE_V ->
                    vehicle.get(Parameter.PACK_MAX_V) * SHARE;
                case PACK_CURRENT_A, PACK_CURRENT_2_A -> vehicle.get(Parameter.PACK_DISCHARGE_MAX_A) * SHARE;
                case CHARGER_1_CURRENT_A, CHARGER_2_CURRENT_A, CHARGER_3_CURRENT_A ->
                    vehicle.get(Parameter.CHARGE_CURRENT_A) * SHARE;
                case MOTOR_SPEED_RPM -> vehicle.get(Parameter.MOTOR_MAX_RPM) * SHARE;
                case CELL_MAX_V, CELL_MIN_V -> CELL_V;
                case ISOLATION_KOHM ->
                    vehicle.get(Parameter.PACK_MAX_V) * vehicle.get(Parameter.ISOLATION_MIN_OHM_PER_V) / 1000;
                case LV_SUPPLY_V -> vehicle.get(Parameter.LV_LOW_V) * SHARE;
                case PILOT_DUTY -> SHARE;
                case PILOT_PEAK_V -> 1;
                default -> signal.isSwitch() ? 0 : SMALL_WIRE_V;
            };
        }
    }

    /** Whether any reading differs by more than its threshold. Until a fault shows they are mostly the same to the bit. */
    boolean differs(Readings now, Readings then) {
        if (differs(likely, now, then)) {
            return true;
        }
        if (now.equals(then)) {
            return false;
        }
        for (Signal signal : SIGNALS) {
            if (differs(signal, now, then)) {
                likely = signal;
                return true;
            }
        }
        return false;
    }

    private boolean differs(Signal signal, Readings now, Readings then) {
        double a = now.get(signal);
        double b = then.get(signal);
        boolean known = a == a && b == b;
        return a != b && (known ? Math.abs(a - b) > threshold[signal.ordinal()] : a == a || b == b);
    }
}
