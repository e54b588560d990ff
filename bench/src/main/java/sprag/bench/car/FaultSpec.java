package sprag.bench.car;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import sprag.bench.cli.Nearest;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/**
 * One fault to inject: where, what and how much. Written {@code bus_voltage_v.bias=20}; without the magnitude,
 * {@code bus_voltage_v.bias}, the usual one is taken.
 */
public final class FaultSpec {
    private final String name;
    private final double magnitude;
    private final Enum<?> point;
    private final Enum<?> kind;

    private FaultSpec(String name, double magnitude, Enum<?> point, Enum<?> kind) {
        this.name = name;
        this.magnitude = magnitude;
        this.point = point;
        this.kind = kind;
    }

    /** A fault of a sensor or its wire. */
    public static FaultSpec of(Signal signal, SignalFault kind, double magnitude) {
        return new FaultSpec(signal.key() + "." + kind.key(), magnitude, signal, kind);
    }

    /** A fault of a control wire or its driver. */
    public static FaultSpec of(Output output, OutputFault kind, double magnitude) {
        return new FaultSpec(output.key() + "." + kind.key(), magnitude, output, kind);
    }

    /** A fault of a part. */
    public static FaultSpec of(PartFault part, double magnitude) {
        return new FaultSpec(part.key, magnitude, part, part);
    }

    /** A fault of a part with its usual magnitude. */
    public static FaultSpec of(PartFault part) {
        return of(part, part.usual);
    }

    /**
     * Every single fault that a vehicle can have, each with its usual magnitude. Returns sensors first, then control
     * wires, then parts, in the order of their tables.
     */
    public static List<FaultSpec> all(Vehicle vehicle) {
        List<FaultSpec> all = new ArrayList<>();
        for (Signal signal : Signal.values()) {
            for (SignalFault kind : SignalFault.values()) {
                if (Fitted.samples(vehicle, signal) && (!signal.isSwitch() || kind.onSwitches)) {
                    all.add(of(signal, kind, usual(vehicle, signal, kind)));
                }
            }
        }
        for (Output output : Output.values()) {
            for (OutputFault kind : OutputFault.values()) {
                if (Fitted.feels(vehicle, output)) {
                    all.add(of(output, kind, usual(vehicle, output, kind)));
                }
            }
        }
        for (PartFault part : PartFault.values()) {
            if (part.appliesTo(vehicle)) {
                all.add(of(part));
            }
        }
        return all;
    }

    /**
     * Whether there is such a fault in any vehicle, so that one without it only lacks the part.
     *
     * @param written as for {@link #parse}
     * @return false when it is a slip
     */
    public static boolean exists(String written) {
        String wanted = wanted(written);
        return Arrays.stream(PartFault.values()).anyMatch(part -> part.key.equals(wanted))
                || Arrays.stream(Signal.values())
                        .anyMatch(signal -> Arrays.stream(SignalFault.values())
                                .filter(kind -> !signal.isSwitch() || kind.onSwitches)
                                .anyMatch(kind -> of(signal, kind, 1).name.equals(wanted)))
                || Arrays.stream(Output.values())
                        .anyMatch(output -> Arrays.stream(OutputFault.values())
                                .anyMatch(kind -> of(output, kind, 1).name.equals(wanted)));
    }

    private static String wanted(String written) {
        int at = written.indexOf('=');
        return (at < 0 ? written : written.substring(0, at)).strip();
    }

    /**
     * Reads a fault's name, with or without a magnitude.
     *
     * @param written e.g. {@code pedal_a_v.open}, {@code bus_voltage_v.bias=20}
     * @throws IllegalArgumentException when there is none, with the nearest name; its message is meant for people
     */
    public static FaultSpec parse(String written, Vehicle vehicle) {
        int at = written.indexOf('=');
        String wanted = wanted(written);
        List<FaultSpec> all = all(vehicle);
        for (FaultSpec fault : all) {
            if (fault.name.equals(wanted)) {
                return at < 0 ? fault : fault.sized(written.substring(at + 1).strip());
            }
        }
        List<String> names = all.stream().map(FaultSpec::name).toList();
        throw new IllegalArgumentException(
                "\"" + wanted + "\" is no fault of " + vehicle.name() + ". " + Nearest.hint(wanted, names));
    }

    private FaultSpec sized(String number) {
        if (unit() == Unit.SWITCH) {
            throw new IllegalArgumentException(name + " takes no magnitude, but \"" + number + "\" was given");
        }
        double size;
        try {
            size = Double.parseDouble(number);
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(name + " = \"" + number + "\" is not a number", e);
        }
        if (!Double.isFinite(size) || (unit() == Unit.MILLISECOND && !(size >= 1 && size <= 60_000))) {
            throw new IllegalArgumentException(name + " = " + number + " is outside 1..60000 ms or not finite");
        }
        return new FaultSpec(name, size, point, kind);
    }

    /** How large a fault is when nothing is said: large enough to matter, small enough to stay in range. */
    private static double usual(Vehicle vehicle, Signal signal, SignalFault kind) {
        if (kind == SignalFault.DELAY) {
            return 300;
        }
        if (kind == SignalFault.INTERMITTENT) {
            return 200;
        }
        if (kind != SignalFault.BIAS && kind != SignalFault.NOISE) {
            return 1;
        }
        switch (signal) {
            case PACK_VOLTAGE_V:
            case BUS_VOLTAGE_V:
            case CHARGER_1_VOLTAGE_V:
            case CHARGER_2_VOLTAGE_V:
            case CHARGER_3_VOLTAGE_V:
                return 0.1 * vehicle.get(Parameter.PACK_NOMINAL_V);
            case PACK_CURRENT_A:
            case PACK_CURRENT_2_A:
                return 0.1 * vehicle.get(Parameter.PACK_DISCHARGE_MAX_A);
            case CHARGER_1_CURRENT_A:
            case CHARGER_2_CURRENT_A:
            case CHARGER_3_CURRENT_A:
                return 0.2 * vehicle.get(Parameter.CHARGE_CURRENT_A);
            case MOTOR_SPEED_RPM:
                return 0.05 * vehicle.get(Parameter.MOTOR_MAX_RPM);
            case WHEEL_SPEED_KPH:
                return 10;
            case ISOLATION_KOHM:
                return 100;
            case REGEN_LEVEL:
                return 1;
            case LV_SUPPLY_V:
            case PILOT_PEAK_V:
                return 1.5;
            case CELL_MAX_V:
            case CELL_MIN_V:
            case PILOT_DUTY:
                return 0.1;
            default:
                return 0.5;
        }
    }

    private static double usual(Vehicle vehicle, Output output, OutputFault kind) {
        if (kind == OutputFault.DELAY) {
            return 300;
        }
        if (kind == OutputFault.STUCK_OFF) {
            return 0;
        }
        switch (output) {
            case TORQUE_REQUEST_NM:
                return 0.5 * vehicle.get(Parameter.DRIVE_TORQUE_NM);
            case CHARGE_CURRENT_LIMIT_A:
            case CHARGER_1_LIMIT_A:
            case CHARGER_2_LIMIT_A:
            case CHARGER_3_LIMIT_A:
                return vehicle.get(Parameter.PACK_CHARGE_MAX_A);
            case CHARGE_VOLTAGE_LIMIT_V:
                return 1.05 * vehicle.get(Parameter.PACK_MAX_V);
            default:
                return 1;
        }
    }

    /** The stable name, without the magnitude, e.g. {@code bus_voltage_v.bias}. */
    public String name() {
        return name;
    }

    /** How strong the fault is; 1 for a fault that is only there or not there. */
    public double magnitude() {
        return magnitude;
    }

    /** The unit of the magnitude; a switch for a fault that is only there or not there. */
    public Unit unit() {
        if (point instanceof Signal) {
            return ((SignalFault) kind).unit((Signal) point);
        }
        return point instanceof Output ? ((OutputFault) kind).unit((Output) point) : ((PartFault) kind).unit;
    }

    /** One sentence for people. */
    public String meaning() {
        if (point instanceof Signal) {
            return ((Signal) point).meaning + ": " + ((SignalFault) kind).meaning;
        }
        return point instanceof Output
                ? ((Output) point).key() + ": " + ((OutputFault) kind).meaning
                : ((PartFault) kind).meaning;
    }

    /** The signal, the output or the part fault it is about. */
    Enum<?> point() {
        return point;
    }

    /** The kind of fault at that point. */
    Enum<?> kind() {
        return kind;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof FaultSpec
                && name.equals(((FaultSpec) other).name)
                && magnitude == ((FaultSpec) other).magnitude;
    }

    @Override
    public int hashCode() {
        return Objects.hash(name, magnitude);
    }

    /** As {@link #parse} reads it. */
    @Override
    public String toString() {
        return unit() == Unit.SWITCH ? name : name + "=" + magnitude;
    }
}
