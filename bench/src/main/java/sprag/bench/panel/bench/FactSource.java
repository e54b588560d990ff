package sprag.bench.panel.bench;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.ChargerSignals;
import sprag.bench.cli.Numbers;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * What a fact is made of: the readings it is taken from, and the limits they are held against. For people alone; the supervisor
 * makes its facts in its own input. A test holds that every fact has a row.
 */
public record FactSource(List<Signal> readings, List<Parameter> limits) {
    private static FactSource from(Object... parts) {
        List<Signal> readings = new ArrayList<>();
        List<Parameter> limits = new ArrayList<>();
        for (Object part : parts) {
            if (part instanceof Signal signal) {
                readings.add(signal);
            } else {
                limits.add((Parameter) part);
            }
        }
        return new FactSource(List.copyOf(readings), List.copyOf(limits));
    }

    private FactSource and(List<Signal> more) {
        List<Signal> all = new ArrayList<>(readings);
        all.addAll(more);
        return new FactSource(List.copyOf(all), limits);
    }

    /** What a fact is made of. */
    public static FactSource of(Fact fact) {
        FactSource drive = driver(fact);
        return drive != null ? drive : bus(fact) != null ? bus(fact) : pack(fact) != null ? pack(fact) : inlet(fact);
    }

    private static FactSource driver(Fact fact) {
        return switch (fact) {
            case KEY_ON, KEY_OFF -> from(Signal.KEY_ON);
            case START_REQUESTED, START_RELEASED -> from(Signal.START_REQUEST);
            case SERVICE_RESET -> from(Signal.SERVICE_RESET);
            case DIRECTION, DIRECTION_CONFLICT -> from(Signal.FORWARD_SWITCH, Signal.REVERSE_SWITCH);
            case BRAKE_PRESSED -> from(Signal.BRAKE_PRESSED);
            case PEDAL_RELEASED -> tracks(Parameter.PEDAL_RELEASED_SHARE);
            case PEDAL_REST_WRONG -> tracks(Parameter.PEDAL_A_RELEASED_V, Parameter.PEDAL_B_RELEASED_V);
            case PEDAL_OUT_OF_RANGE -> tracks(Parameter.PEDAL_MIN_V, Parameter.PEDAL_MAX_V);
            case PEDAL_SHORTED -> tracks(Parameter.PEDAL_SHORT_V);
            case PEDAL_DISAGREES -> tracks(Parameter.PEDAL_DISAGREE_SHARE);
            case PEDAL_REFERENCE_WRONG ->
                from(Signal.PEDAL_SUPPLY_V, Parameter.PEDAL_SUPPLY_MIN_V, Parameter.PEDAL_SUPPLY_MAX_V);
            case PEDAL_WITH_BRAKE ->
                from(Signal.PEDAL_A_V, Signal.PEDAL_B_V, Signal.BRAKE_PRESSED, Parameter.PEDAL_BRAKE_SHARE);
            case PEDAL_STILL ->
                from(Signal.PEDAL_A_V, Signal.PEDAL_B_V, Signal.BRAKE_PRESSED, Parameter.PEDAL_RELEASED_SHARE);
            case STANDSTILL -> from(Signal.MOTOR_SPEED_RPM, Signal.WHEEL_SPEED_KPH, Parameter.DRIVE_STANDSTILL_KPH);
            case SPEED_LOST -> from(Signal.MOTOR_SPEED_RPM);
            case SPEED_DOUBTED -> from(Signal.MOTOR_SPEED_RPM, Signal.WHEEL_SPEED_KPH);
            case CURRENTS_APART -> from(Signal.PACK_CURRENT_A, Signal.PACK_CURRENT_2_A, Parameter.PACK_APART_SHARE);
            case REGEN_DEMAND_LOST -> from(Signal.REGEN_DEMAND_V, Parameter.PEDAL_MIN_V, Parameter.PEDAL_MAX_V);
            case WHEEL_SPEED_LOST -> from(Signal.WHEEL_SPEED_KPH);
            case OVERSPEED -> from(Signal.MOTOR_SPEED_RPM, Parameter.MOTOR_MAX_RPM, Parameter.DRIVE_MAX_KPH);
            case ROLLING_AWAY ->
                from(
                        Signal.MOTOR_SPEED_RPM,
                        Signal.FORWARD_SWITCH,
                        Signal.REVERSE_SWITCH,
                        Parameter.DRIVE_STANDSTILL_KPH);
            case INVERTER_FAULTED -> from(Signal.INVERTER_FAULT);
            case INVERTER_NOT_READY -> from(Signal.INVERTER_READY);
            case TORQUE_UNASKED -> from(Signal.PACK_CURRENT_A, Signal.PACK_VOLTAGE_V, Parameter.DRIVE_UNASKED_A);
            case MOTOR_OVERHEATED -> from(Signal.MOTOR_TEMP_V, Parameter.MOTOR_HOT_C);
            case MOTOR_WARM -> from(Signal.MOTOR_TEMP_V, Parameter.MOTOR_WARM_C);
            case INVERTER_OVERHEATED -> from(Signal.INVERTER_TEMP_V, Parameter.INVERTER_HOT_C);
            case INVERTER_WARM -> from(Signal.INVERTER_TEMP_V, Parameter.INVERTER_WARM_C);
            case COOLANT_OVERHEATED -> from(Signal.COOLANT_TEMP_V, Parameter.COOLANT_HOT_C);
            case COOLANT_WARM -> from(Signal.COOLANT_TEMP_V, Parameter.COOLANT_WARM_C);
            case COOLING_LOST -> from(Signal.INVERTER_TEMP_V, Signal.COOLANT_TEMP_V, Parameter.COOLANT_LAG_K);
            case DRIVE_SENSOR_LOST -> from(Signal.MOTOR_TEMP_V, Signal.INVERTER_TEMP_V, Signal.COOLANT_TEMP_V);
            case HEATER_WITHOUT_AIR -> from(Signal.HEATER_AIRFLOW);
            default -> null;
        };
    }

    private static FactSource tracks(Parameter... limits) {
        return new FactSource(List.of(Signal.PEDAL_A_V, Signal.PEDAL_B_V), List.of(limits));
    }

    private static FactSource bus(Fact fact) {
        return switch (fact) {
            case BUS_LEVEL ->
                from(
                        Signal.BUS_VOLTAGE_V,
                        Signal.PACK_VOLTAGE_V,
                        Parameter.BUS_DISCHARGED_V,
                        Parameter.PRECHARGE_DONE_FRACTION);
            case BUS_FLAT -> from(Signal.BUS_VOLTAGE_V, Parameter.PRECHARGE_FLAT_FRACTION);
            case BUS_STALLED -> from(Signal.BUS_VOLTAGE_V, Signal.PACK_VOLTAGE_V, Parameter.PRECHARGE_DONE_FRACTION);
            case BUS_REVERSED -> from(Signal.BUS_VOLTAGE_V);
            case BUS_STILL_LIVE -> from(Signal.BUS_VOLTAGE_V, Parameter.BUS_DISCHARGED_V);
            case BUS_LOST -> from(Signal.BUS_VOLTAGE_V, Signal.PACK_VOLTAGE_V, Parameter.BUS_LOST_FRACTION);
            case BUS_OVERVOLTAGE -> from(Signal.BUS_VOLTAGE_V, Parameter.BUS_MAX_V);
            case BACK_EMF_HIGH -> from(Signal.MOTOR_SPEED_RPM, Parameter.MOTOR_EMF_V_PER_KRPM, Parameter.BUS_MAX_V);
            case CURRENT_LOW -> from(Signal.PACK_CURRENT_A, Parameter.CONTACTOR_OPEN_A);
            case RESISTOR_OVERLOADED, RESISTOR_SPENT ->
                from(
                        Signal.PACK_VOLTAGE_V,
                        Signal.BUS_VOLTAGE_V,
                        Signal.PRECHARGE_AUX_CLOSED,
                        Parameter.PRECHARGE_ENERGY_J,
                        Parameter.PRECHARGE_COOLING_S);
            case NEGATIVE_CONFIRMED, NEGATIVE_WELDED, NEGATIVE_DROPPED -> from(Signal.NEGATIVE_AUX_CLOSED);
            case POSITIVE_CONFIRMED, POSITIVE_WELDED, POSITIVE_DROPPED -> from(Signal.POSITIVE_AUX_CLOSED);
            case PRECHARGE_WELDED -> from(Signal.PRECHARGE_AUX_CLOSED);
            case CUT_LOOP_OPEN -> from(Signal.CUT_LOOP_CLOSED);
            case COVER_LOOP_OPEN -> from(Signal.COVER_LOOP_CLOSED);
            case CRASH_SEEN -> from(Signal.CRASH_LOOP_CLOSED);
            case LV_LOW -> from(Signal.LV_SUPPLY_V, Parameter.LV_LOW_V);
            case LV_LOST -> from(Signal.LV_SUPPLY_V, Parameter.LV_LOST_V);
            case LINK_LOST -> from(Signal.LINK_LOST);
            case LOOP_LATE -> from(Signal.LOOP_OVERRUN);
            case GATE_VETOED -> from();
            default -> null;
        };
    }

    private static FactSource pack(Fact fact) {
        return switch (fact) {
            case READINGS_LOST ->
                from(
                        Signal.PACK_VOLTAGE_V,
                        Signal.BUS_VOLTAGE_V,
                        Signal.PACK_CURRENT_A,
                        Signal.PACK_CURRENT_2_A,
                        Signal.CRASH_LOOP_CLOSED);
            case PACK_OVERVOLTAGE -> from(Signal.PACK_VOLTAGE_V, Parameter.PACK_MAX_V);
            case PACK_UNDERVOLTAGE -> from(Signal.PACK_VOLTAGE_V, Parameter.PACK_MIN_V);
            case CELL_OVERVOLTAGE -> from(Signal.CELL_MAX_V, Parameter.CELL_MAX_V);
            case CELL_UNDERVOLTAGE -> from(Signal.CELL_MIN_V, Parameter.CELL_MIN_V);
            case PACK_OVERCURRENT ->
                from(
                        Signal.PACK_CURRENT_A,
                        Parameter.PACK_DISCHARGE_MAX_A,
                        Parameter.PACK_CHARGE_MAX_A,
                        Parameter.PACK_OVER_FACTOR);
            case PACK_FULL ->
                from(Signal.PACK_VOLTAGE_V, Signal.CELL_MAX_V, Parameter.REGEN_FULL_FRACTION, Parameter.CELL_HIGH_V);
            case PACK_LOW -> from(Signal.PACK_VOLTAGE_V, Signal.CELL_MIN_V, Parameter.PACK_MIN_V, Parameter.CELL_LOW_V);
            case MONITOR_SILENT -> from(Signal.CELL_MAX_V, Signal.CELL_MIN_V);
            case PACK_WARM -> from(Signal.PACK_HOT_V, Parameter.PACK_WARM_C);
            case PACK_OVERHEATED -> from(Signal.PACK_HOT_V, Parameter.PACK_HOT_C);
            case PACK_COOL -> from(Signal.PACK_COLD_V, Parameter.PACK_COOL_C);
            case PACK_TOO_COLD -> from(Signal.PACK_COLD_V, Parameter.PACK_COLD_C);
            case PACK_TOO_WARM_TO_CHARGE -> from(Signal.PACK_HOT_V, Parameter.CHARGE_HOT_C);
            case PACK_SENSOR_LOST -> from(Signal.PACK_HOT_V, Signal.PACK_COLD_V);
            case DISCHARGE_WITHDRAWN -> from(Signal.DISCHARGE_PERMIT);
            case CHARGE_WITHDRAWN -> from(Signal.CHARGE_PERMIT);
            case ISOLATION_LOW -> from(Signal.ISOLATION_KOHM, Signal.PACK_VOLTAGE_V, Parameter.ISOLATION_MIN_OHM_PER_V);
            case ISOLATION_SILENT -> from(Signal.ISOLATION_KOHM);
            case GAUGE_UNSURE -> from(Signal.PACK_CURRENT_A, Signal.CELL_MAX_V, Signal.CELL_MIN_V);
            default -> null;
        };
    }

    private static FactSource inlet(Fact fact) {
        return switch (fact) {
            case PLUG_SEEN -> from(Signal.PLUG_PRESENT, Signal.PROXIMITY_V, Signal.PILOT_PEAK_V);
            case CHARGE_OFFERED ->
                from(Signal.PLUG_PRESENT, Signal.PROXIMITY_V, Signal.PILOT_PEAK_V, Signal.PILOT_DUTY);
            case PLUG_HELD, PLUG_UNLOCKED -> from(Signal.PLUG_LOCKED);
            case PLUG_RELEASED -> from(Signal.PLUG_PRESENT, Signal.PROXIMITY_V);
            case PLUG_WANTED -> from(Signal.START_REQUEST, Signal.PLUG_PRESENT);
            case PILOT_INVALID -> from(Signal.PILOT_PEAK_V, Signal.PILOT_DUTY);
            case PROXIMITY_INVALID -> from(Signal.PROXIMITY_V);
            case PROXIMITY_MISSING -> from(Signal.PROXIMITY_V, Signal.PILOT_PEAK_V);
            case ROLLING_PLUGGED -> from(Signal.PLUG_PRESENT, Signal.MOTOR_SPEED_RPM, Signal.WHEEL_SPEED_KPH);
            case CHARGE_DUE, CHARGE_DONE ->
                from(Signal.PACK_VOLTAGE_V, Signal.PACK_CURRENT_A, Parameter.CHARGE_VOLTAGE_V, Parameter.CHARGE_END_A);
            case CHARGE_RETRY -> from(Parameter.CHARGE_RETRY_S);
            case CHARGE_TOO_LONG -> from(Parameter.CHARGE_MAX_MIN);
            case CHARGE_OVERVOLTAGE ->
                from(Signal.PACK_VOLTAGE_V, Parameter.CHARGE_VOLTAGE_V, Parameter.CHARGE_OVER_V)
                        .and(ChargerSignals.VOLTAGE_V);
            case CHARGER_RUNS_ON, CHARGER_ABOVE_LIMIT ->
                from(Signal.PACK_CURRENT_A, Parameter.CONTACTOR_OPEN_A).and(ChargerSignals.CURRENT_A);
            case CHARGERS_LOST -> from().and(ChargerSignals.ALL);
            case CHARGER_OVERHEATED -> from(Signal.CHARGER_TEMP_V, Parameter.CHARGER_HOT_C);
            default -> throw new IllegalStateException(fact + " has no row among the sources of facts");
        };
    }

    /** The limits of an interlock's cause on a vehicle, with how long the cause must last. */
    public static List<String> limits(Interlock row, Vehicle vehicle) {
        return row.cause.isFact() ? limits(row.cause.fact(), vehicle) : List.of();
    }

    /** The limits of a fact on a vehicle, with how long it must last. */
    static List<String> limits(Fact fact, Vehicle vehicle) {
        List<String> words = new ArrayList<>();
        for (Parameter limit : of(fact).limits()) {
            words.add(words(limit, vehicle));
        }
        if (fact.detection != null) {
            words.add("for " + words(fact.detection, vehicle));
        }
        return words;
    }

    private static String words(Parameter limit, Vehicle vehicle) {
        return Numbers.show(vehicle.get(limit), limit.unit()) + " (" + limit.key() + ")";
    }
}
