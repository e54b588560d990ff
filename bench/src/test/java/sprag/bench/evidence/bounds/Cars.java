package sprag.bench.evidence.bounds;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Consistency;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** The vehicles that come with the project, and some with any values that a vehicle file may give. */
record Cars(String name, Settings settings, int pieces) {
    private static final int COARSE = 4;
    private static final int FINE = 32;
    private static final int GENERATED = 3;

    private static final Catalogue CATALOGUE = new Catalogue(Path.of(".."));

    static Stream<Cars> shipped() {
        return CATALOGUE.vehicles().stream().map(name -> new Cars(name, read(name), FINE));
    }

    /** One, on a coarse grid. */
    static Stream<Cars> some() {
        return Stream.of(new Cars("coupe", read("coupe"), COARSE));
    }

    /** The same, and one with several chargers that share a current. */
    static Stream<Cars> someThatCharge() {
        return Stream.concat(some(), Stream.of(new Cars("parcel-van", read("parcel-van"), COARSE)));
    }

    /** All that are shipped and three that are generated, on a fine grid. */
    static Stream<Cars> all() {
        return Stream.concat(shipped(), IntStream.rangeClosed(1, GENERATED).mapToObj(seed -> generated(seed, FINE)));
    }

    private static Settings read(String name) {
        try {
            return VehicleReader.read(CATALOGUE.vehicle(name)).settings();
        } catch (BadInput e) {
            throw new IllegalStateException("cannot read " + name, e);
        }
    }

    /** Half of all values anywhere in their range, as long as no two contradict each other, and half of the optional signals. */
    static Cars generated(long seed, int pieces) {
        Random dice = new Random(seed);
        Settings settings = read("coupe");
        for (int round = 0; round < 3; round++) {
            for (Parameter p : Parameter.values()) {
                if (dice.nextBoolean() && p != Parameter.INLET_KIND && p != Parameter.LOOP_TICK_MS) {
                    Settings changed = settings.with(p, any(p, dice));
                    settings = consistent(changed) ? changed : settings;
                }
            }
        }
        for (Signal signal : EnumSet.allOf(Signal.class)) {
            settings = dice.nextBoolean() ? settings.without(signal) : settings;
        }
        return new Cars("generated " + seed, settings, pieces);
    }

    private static double any(Parameter p, Random dice) {
        if (p.unit() == Unit.CHOICE) {
            return dice.nextInt(p.choices().size());
        }
        double at = dice.nextInt(8) == 0 ? dice.nextInt(2) : dice.nextDouble();
        double value = p.min() + at * (p.max() - p.min());
        boolean whole = p == Parameter.REGEN_LEVELS || p == Parameter.CHARGER_COUNT || p == Parameter.INLET_PHASES;
        return whole ? Math.rint(value) : value;
    }

    private static boolean consistent(Settings settings) {
        for (Consistency row : Consistency.values()) {
            if (!row.holds(settings.get(row.lower), settings.get(row.upper))) {
                return false;
            }
        }
        return true;
    }

    double get(Parameter parameter) {
        return settings.get(parameter);
    }

    @Override
    public String toString() {
        return name;
    }
}
