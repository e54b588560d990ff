package sprag.bench.port.equal;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import sprag.supervisor.vocabulary.Consistency;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** Values that no shipped vehicle has: many mistakes show only where something is fitted, missing or equal that usually is not. */
final class OddVehicles {
    /**
     * Seeds of values without any order. Those of 28 and 33 have a pedal of which a reading gives the released share to the last
     * bit; with most values no number does, and a mistake at that limit changes nothing. Those of 6 and 31 trust a voltage little.
     */
    private static final long[] ANY = {1, 2, 3, 4, 6, 28, 31, 33};

    /** So many vehicles have everything that can be fitted, and as many have nothing of it. */
    private static final int TWICE = 2;

    /** What tells that a plug is there without asking the chargers. */
    private static final Set<Signal> OF_THE_PLUG =
            EnumSet.of(Signal.PILOT_PEAK_V, Signal.PILOT_DUTY, Signal.PROXIMITY_V, Signal.PLUG_PRESENT);

    /** With powers of two what is computed from a reading can meet a limit to the last bit. */
    private static final Map<Parameter, Double> ROUND = Map.of(
            Parameter.REGEN_DEMAND_REST_V, 0.0,
            Parameter.REGEN_DEMAND_FULL_V, 4.0,
            Parameter.DRIVE_GEAR_RATIO, 8.0,
            Parameter.DRIVE_WHEEL_RADIUS_M, 0.5,
            Parameter.DRIVE_MASS_KG, 1024.0);

    private final Settings like;

    /** Odd vehicles with the values of a usual one where nothing else is said. */
    OddVehicles(Settings like) {
        this.like = like;
    }

    /** Values within their ranges and signals that no vehicle has together. */
    List<Settings> any() {
        List<Settings> all = new ArrayList<>();
        for (long seed : ANY) {
            all.add(any(seed));
        }
        return all;
    }

    /** Vehicles with everything or nothing, and one in which limits fall together for each kind of inlet. */
    List<Settings> sound() {
        List<Settings> all = new ArrayList<>();
        for (int seed = 0; seed < 2 * TWICE; seed++) {
            all.add(extreme(seed, seed < TWICE));
        }
        all.add(together(4, "plain", OF_THE_PLUG));
        all.add(together(5, "type-1", Set.of()));
        return all;
    }

    /** A vehicle with everything that can be fitted, or with nothing of it. No tolerance is 0, which would hide how it is used. */
    private Settings extreme(long seed, boolean everything) {
        Random chance = new Random(seed);
        double[] values = new double[Parameter.COUNT];
        for (Parameter parameter : Parameter.values()) {
            double value = notNothing(parameter, chance);
            boolean other = value == like.get(parameter) && parameter.choices().isEmpty() && chance.nextBoolean();
            if (other && parameter != Parameter.LOOP_TICK_MS) {
                value = within(parameter, value * (0.8 + 0.4 * chance.nextDouble()));
            }
            values[parameter.ordinal()] = value;
        }
        Set<Signal> fitted = EnumSet.allOf(Signal.class);
        fitted.removeIf(signal -> signal.optional && !everything);
        return Settings.of(values, fitted);
    }

    /**
     * A vehicle in which the limits of one part are equal wherever no rule keeps them apart. Its inlet limits nothing that a station
     * offers.
     */
    private Settings together(long seed, String inlet, Set<Signal> missing) {
        Random chance = new Random(seed);
        double[] values = new double[Parameter.COUNT];
        for (Parameter parameter : Parameter.values()) {
            values[parameter.ordinal()] = notNothing(parameter, chance);
        }
        values[Parameter.INLET_KIND.ordinal()] = Parameter.INLET_KIND.choices().indexOf(inlet);
        for (Parameter parameter : Parameter.values()) {
            int i = parameter.ordinal();
            double before = values[i];
            if (parameter.spec().unit() != Unit.NUMBER && parameter.choices().isEmpty() && chance.nextInt(4) > 0) {
                values[i] = within(parameter, values[firstAlike(parameter).ordinal()]);
                values[i] = isConsistent(values) ? values[i] : before;
            }
        }
        ROUND.forEach((parameter, value) -> values[parameter.ordinal()] = value);
        values[Parameter.INLET_MAX_A.ordinal()] = Parameter.INLET_MAX_A.max();
        Set<Signal> fitted = EnumSet.allOf(Signal.class);
        fitted.removeAll(missing);
        return Settings.of(values, fitted);
    }

    /** The usual value, but for choices and for what is usually 0. */
    private double notNothing(Parameter parameter, Random chance) {
        double value = like.get(parameter);
        if (!parameter.choices().isEmpty()) {
            return chance.nextInt(parameter.choices().size());
        }
        boolean nothing = value == 0 && parameter.max() < 1e9;
        return nothing ? parameter.min() + (parameter.max() - parameter.min()) * (1 + chance.nextInt(8)) / 64 : value;
    }

    /** The first value of the same part with the same unit. */
    private static Parameter firstAlike(Parameter parameter) {
        return Stream.of(Parameter.values())
                .filter(other -> part(other).equals(part(parameter))
                        && other.spec().unit() == parameter.spec().unit()
                        && other.choices().isEmpty())
                .findFirst()
                .orElse(parameter);
    }

    private static String part(Parameter parameter) {
        return parameter.name().substring(0, parameter.name().indexOf('_'));
    }

    private static boolean isConsistent(double[] values) {
        return Stream.of(Consistency.values())
                .allMatch(row -> row.holds(values[row.lower.ordinal()], values[row.upper.ordinal()]));
    }

    private static double within(Parameter parameter, double value) {
        return Math.min(parameter.max(), Math.max(parameter.min(), value));
    }

    private Settings any(long seed) {
        Random chance = new Random(seed);
        double[] values = new double[Parameter.COUNT];
        for (Parameter parameter : Parameter.values()) {
            double value = like.get(parameter);
            if (!parameter.choices().isEmpty()) {
                value = chance.nextInt(parameter.choices().size());
            } else if (chance.nextInt(8) == 0 && parameter != Parameter.LOOP_TICK_MS && parameter.max() < 1e9) {
                value = parameter.min() + (parameter.max() - parameter.min()) * chance.nextInt(64) / 64;
            } else if (chance.nextInt(3) == 0 && parameter != Parameter.LOOP_TICK_MS) {
                value = within(parameter, Math.rint(value * (0.5 + chance.nextDouble()) * 8) / 8);
            }
            values[parameter.ordinal()] = value;
        }
        Set<Signal> fitted = EnumSet.allOf(Signal.class);
        fitted.removeIf(signal -> signal.optional && chance.nextInt(3) == 0);
        return Settings.of(values, fitted);
    }
}
