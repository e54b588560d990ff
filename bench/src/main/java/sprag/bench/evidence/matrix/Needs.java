package sprag.bench.evidence.matrix;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * What an interlock needs before it can act: signals that a vehicle may lack.
 *
 * @param all whether all of them are needed; else any one is enough
 */
record Needs(boolean all, List<Signal> signals) {
    private static Needs every(Signal... signals) {
        return new Needs(true, List.of(signals));
    }

    private static Needs any(Signal... signals) {
        return new Needs(false, List.of(signals));
    }

    /** What a row needs; nothing for a row that every vehicle can have. */
    static Needs of(Interlock row) {
        return switch (row) {
            case NEGATIVE_WELDED, NEGATIVE_DROPPED -> every(Signal.NEGATIVE_AUX_CLOSED);
            case POSITIVE_WELDED, POSITIVE_DROPPED -> every(Signal.POSITIVE_AUX_CLOSED);
            case PRECHARGE_WELDED -> every(Signal.PRECHARGE_AUX_CLOSED);
            case CONTACTOR_NOT_CLOSED -> any(Signal.NEGATIVE_AUX_CLOSED, Signal.POSITIVE_AUX_CLOSED);
            case CRASH_SEEN -> every(Signal.CRASH_LOOP_CLOSED);
            case COVER_LOOP_OPEN -> every(Signal.COVER_LOOP_CLOSED);
            case CELL_OVERVOLTAGE -> every(Signal.CELL_MAX_V);
            case CELL_UNDERVOLTAGE -> every(Signal.CELL_MIN_V);
            case CELLS_UNKNOWN, MONITOR_SILENT -> any(Signal.CELL_MAX_V, Signal.CELL_MIN_V);
            case PEDAL_SHORTED, PEDAL_DISAGREES -> every(Signal.PEDAL_B_V);
            case PEDAL_REFERENCE_WRONG -> every(Signal.PEDAL_SUPPLY_V);
            case INVERTER_FAULTED -> every(Signal.INVERTER_FAULT);
            case MOTOR_OVERHEATED, MOTOR_WARM -> every(Signal.MOTOR_TEMP_V);
            case INVERTER_OVERHEATED, INVERTER_WARM -> every(Signal.INVERTER_TEMP_V);
            case COOLANT_OVERHEATED, COOLANT_WARM -> every(Signal.COOLANT_TEMP_V);
            case COOLING_LOST -> every(Signal.INVERTER_TEMP_V, Signal.COOLANT_TEMP_V);
            case DRIVE_SENSOR_LOST -> any(Signal.MOTOR_TEMP_V, Signal.INVERTER_TEMP_V, Signal.COOLANT_TEMP_V);
            case CHARGERS_LOST -> every(Signal.CHARGER_2_OK, Signal.CHARGER_3_OK);
            case CHARGER_OVERHEATED -> every(Signal.CHARGER_TEMP_V);
            case CURRENTS_APART, CURRENTS_UNKNOWN -> every(Signal.PACK_CURRENT_2_A);
            case REGEN_DEMAND_LOST -> every(Signal.REGEN_DEMAND_V);
            case WHEEL_SPEED_LOST -> every(Signal.WHEEL_SPEED_KPH);
            case PLUG_UNLOCKED -> every(Signal.PLUG_LOCKED);
            case ISOLATION_LOST, ISOLATION_LOW, ISOLATION_SILENT, ISOLATION_UNKNOWN -> every(Signal.ISOLATION_KOHM);
            case HEATER_WITHOUT_AIR -> every(Signal.HEATER_AIRFLOW);
            default -> new Needs(true, List.of());
        };
    }

    /** What a vehicle lacks, so that the interlock cannot act on it; empty when it can. */
    List<Signal> missing(Settings settings) {
        List<Signal> absent = signals.stream()
                .filter(signal -> !settings.has(signal) && hasPart(signal, settings))
                .toList();
        return all || absent.size() == signals.size() ? absent : List.of();
    }

    /**
     * A charger that is there but tells nothing counts as well for ever. One that tells its current or voltage is missed when it falls
     * silent. One that is not there misses nothing.
     */
    private static boolean hasPart(Signal signal, Settings settings) {
        double chargers = settings.get(Parameter.CHARGER_COUNT);
        return switch (signal) {
            case CHARGER_2_OK ->
                chargers >= 2 && !settings.has(Signal.CHARGER_2_CURRENT_A) && !settings.has(Signal.CHARGER_2_VOLTAGE_V);
            case CHARGER_3_OK ->
                chargers >= 3 && !settings.has(Signal.CHARGER_3_CURRENT_A) && !settings.has(Signal.CHARGER_3_VOLTAGE_V);
            default -> true;
        };
    }

    /** The rows that cannot act on a vehicle, for a terminal of 80 columns, with what is missing. */
    static List<String> lines(Settings settings) {
        return Stream.of(Interlock.values())
                .filter(row -> !of(row).missing(settings).isEmpty())
                .map(row -> String.format("  %-22s needs %s", row.id(), of(row).words(settings)))
                .toList();
    }

    private String words(Settings settings) {
        return missing(settings).stream().map(Signal::key).collect(Collectors.joining(all ? " and " : " or "));
    }
}
