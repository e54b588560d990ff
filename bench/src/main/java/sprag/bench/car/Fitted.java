package sprag.bench.car;

import java.util.EnumSet;
import java.util.Set;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Which signals and outputs the car of a vehicle has. */
public final class Fitted {
    private Fitted() {}

    /** Whether the car of a vehicle samples a signal. The loop itself gives its own two signals. */
    public static boolean samples(Vehicle vehicle, Signal signal) {
        return vehicle.settings().has(signal) && signal != Signal.LOOP_OVERRUN && signal != Signal.LINK_LOST;
    }

    /** Whether the car of a vehicle has what an output drives. */
    public static boolean drives(Vehicle vehicle, Output output) {
        switch (output) {
            case NEGATIVE_CONTACTOR:
                return vehicle.is(Parameter.CONTACTOR_POLES, "both");
            case CHARGER_ENABLE:
                return hasInlet(vehicle) && !vehicle.is(Parameter.CHARGER_CONTROL, "alone");
            case CHARGE_CURRENT_LIMIT_A:
            case CHARGE_VOLTAGE_LIMIT_V:
            case CHARGER_1_LIMIT_A:
                return takesLimit(vehicle);
            case CHARGER_2_LIMIT_A:
                return takesLimit(vehicle) && vehicle.get(Parameter.CHARGER_COUNT) >= 2;
            case CHARGER_3_LIMIT_A:
                return takesLimit(vehicle) && vehicle.get(Parameter.CHARGER_COUNT) >= 3;
            case PLUG_LOCK:
                return vehicle.is(Parameter.INLET_LOCK, "fitted");
            case COOLANT_PUMP:
            case RADIATOR_FAN_DUTY:
                return vehicle.is(CarParameter.THERMAL_COOLING, "liquid");
            case HEATER_BLOWER:
            case HEATER_ELEMENT:
                return vehicle.get(CarParameter.WARMER_POWER_W) > 0;
            default:
                return true;
        }
    }

    /** The signals that the car of a vehicle samples. */
    public static Set<Signal> sampled(Vehicle vehicle) {
        EnumSet<Signal> sampled = EnumSet.allOf(Signal.class);
        sampled.removeIf(signal -> !samples(vehicle, signal));
        return sampled;
    }

    /** The outputs that drive something in the car of a vehicle. */
    public static Set<Output> driven(Vehicle vehicle) {
        EnumSet<Output> driven = EnumSet.allOf(Output.class);
        driven.removeIf(output -> !drives(vehicle, output));
        return driven;
    }

    private static boolean hasInlet(Vehicle vehicle) {
        return !vehicle.is(Parameter.INLET_KIND, "none");
    }

    private static boolean takesLimit(Vehicle vehicle) {
        return hasInlet(vehicle) && vehicle.is(Parameter.CHARGER_CONTROL, "limited");
    }

    /** Whether a fault of an output's wire changes anything in the car. Lamps, the gauge and the sum of the shares do not. */
    static boolean feels(Vehicle vehicle, Output output) {
        switch (output) {
            case BRAKE_LAMP:
            case READY_LAMP:
            case FAULT_LAMP:
            case CHARGE_LAMP:
            case BUZZER:
            case GAUGE_FRACTION:
            case CHARGE_CURRENT_LIMIT_A:
                return false;
            case HEARTBEAT:
                return vehicle.get(CarParameter.BOX_WATCHDOG_MS) > 0;
            default:
                return drives(vehicle, output);
        }
    }
}
