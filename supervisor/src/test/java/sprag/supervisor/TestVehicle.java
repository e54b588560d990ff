package sprag.supervisor;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Values of an invented vehicle with every optional signal fitted: 350 V, two pedal tracks, permanent magnet, bus-side charger. */
public final class TestVehicle {
    private TestVehicle() {}

    public static Settings full() {
        double[] values = new double[Parameter.COUNT];
        Arrays.fill(values, Double.NaN);
        given().forEach((parameter, value) -> values[parameter.ordinal()] = value);
        return Settings.of(values, EnumSet.complementOf(EnumSet.of(Signal.PACK_CURRENT_2_A)));
    }

    /** With every signal, the one that is compared with another and the lever for regeneration too. */
    public static Settings every() {
        double[] values = new double[Parameter.COUNT];
        Arrays.fill(values, Double.NaN);
        given().forEach((parameter, value) -> values[parameter.ordinal()] = value);
        values[Parameter.REGEN_BY.ordinal()] = Parameter.REGEN_BY.choices().indexOf("lever");
        return Settings.of(values, EnumSet.allOf(Signal.class));
    }

    private static Map<Parameter, Double> given() {
        Map<Parameter, Double> v = new EnumMap<>(Parameter.class);
        v.put(Parameter.PACK_CELLS, 96.0);
        v.put(Parameter.PACK_CHEMISTRY, 1.0);
        v.put(Parameter.PACK_NOMINAL_V, 350.0);
        v.put(Parameter.PACK_MIN_V, 288.0);
        v.put(Parameter.PACK_MAX_V, 403.0);
        v.put(Parameter.PACK_CAPACITY_AH, 60.0);
        v.put(Parameter.PACK_DISCHARGE_MAX_A, 300.0);
        v.put(Parameter.PACK_CHARGE_MAX_A, 90.0);
        v.put(Parameter.CELL_MIN_V, 3.0);
        v.put(Parameter.CELL_LOW_V, 3.2);
        v.put(Parameter.CELL_HIGH_V, 4.15);
        v.put(Parameter.CELL_MAX_V, 4.2);
        v.put(Parameter.PRECHARGE_RESISTANCE_OHM, 100.0);
        v.put(Parameter.PRECHARGE_FAST_MS, 150.0);
        v.put(Parameter.PRECHARGE_MIN_MS, 300.0);
        v.put(Parameter.PRECHARGE_TIMEOUT_MS, 1000.0);
        v.put(Parameter.PRECHARGE_ENERGY_J, 400.0);
        v.put(Parameter.BUS_CAPACITANCE_UF, 1000.0);
        v.put(Parameter.BUS_DISCHARGED_V, 60.0);
        v.put(Parameter.BUS_MAX_V, 430.0);
        v.put(Parameter.CONTACTOR_OPEN_A, 5.0);
        v.put(Parameter.PEDAL_A_RELEASED_V, 1.0);
        v.put(Parameter.PEDAL_A_FULL_V, 4.0);
        v.put(Parameter.PEDAL_B_RELEASED_V, 0.5);
        v.put(Parameter.PEDAL_B_FULL_V, 2.0);
        v.put(Parameter.DRIVE_TORQUE_NM, 200.0);
        v.put(Parameter.DRIVE_POWER_W, 80_000.0);
        v.put(Parameter.DRIVE_RISE_NM_PER_S, 400.0);
        v.put(Parameter.DRIVE_FALL_NM_PER_S, 1000.0);
        v.put(Parameter.DRIVE_GEAR_RATIO, 8.0);
        v.put(Parameter.DRIVE_WHEEL_RADIUS_M, 0.3);
        v.put(Parameter.DRIVE_MASS_KG, 1200.0);
        v.put(Parameter.DRIVE_MAX_KPH, 130.0);
        v.put(Parameter.DRIVE_UNASKED_A, 15.0);
        v.put(Parameter.MOTOR_KIND, 1.0);
        v.put(Parameter.MOTOR_EMF_V_PER_KRPM, 40.0);
        v.put(Parameter.MOTOR_MAX_RPM, 12_000.0);
        v.put(Parameter.REGEN_TORQUE_NM, 100.0);
        v.put(Parameter.INLET_LOCK, 1.0);
        v.put(Parameter.CHARGER_SIDE, 1.0);
        v.put(Parameter.CHARGER_1_MAX_W, 6600.0);
        v.put(Parameter.CHARGE_CURRENT_A, 18.0);
        v.put(Parameter.CHARGE_VOLTAGE_V, 400.0);
        v.put(Parameter.CHARGE_OVER_V, 4.0);
        v.put(Parameter.CHARGE_END_A, 2.0);
        return v;
    }
}
