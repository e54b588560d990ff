package sprag.bench.vehicle;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** One vehicle as its file describes it: the supervisor's settings, and every other row. Immutable. */
public final class Vehicle {
    /** Every table of rows that a vehicle's file may hold. A new family is one more line here. */
    private static final Row[][] FAMILIES = {
        Parameter.values(), //
        CarParameter.values(), //
        SizingParameter.values(), //
        Tolerance.values(),
    };

    private final About about;
    private final Settings settings;
    private final Map<Row, Double> values;

    /**
     * What its file says besides numbers by key.
     *
     * @param thermistors the table of the thermistors; null when the file gives none
     */
    record About(String name, String description, Path folder, ThermistorTable thermistors) {}

    Vehicle(About about, Settings settings, Map<Row, Double> values) {
        this.about = about;
        this.settings = settings;
        this.values = Map.copyOf(values);
    }

    /** The tables of rows that a vehicle's file may hold, the supervisor's own first. */
    static Row[][] families() {
        return FAMILIES.clone();
    }

    /** The row of a dotted key, from any table. */
    public static Optional<Row> row(String key) {
        return rows().filter(row -> row.key().equals(key)).findFirst();
    }

    /** Every row that a vehicle's file may hold. */
    public static Stream<Row> rows() {
        return Stream.of(FAMILIES).flatMap(Stream::of);
    }

    /** The same under another name, for results that must not be taken for its own. */
    public Vehicle named(String other) {
        About renamed = new About(other, about.description(), about.folder(), about.thermistors());
        return new Vehicle(renamed, settings, values);
    }

    /** How it is called: the name in the file, else that of the folder. */
    public String name() {
        return about.name();
    }

    /** How a command names it: a shipped one by the name of its folder, every other by its path. */
    public String argument() {
        return Catalogue.installed().argument(folder());
    }

    /** One or two sentences about it, empty when the file gives none. */
    public String description() {
        return about.description();
    }

    /** The folder that its file stands in; other files about it stand there too. */
    public Path folder() {
        return about.folder();
    }

    /** The table of the thermistors that the file gives, empty when it gives none. */
    public Optional<ThermistorTable> thermistors() {
        return Optional.ofNullable(about.thermistors());
    }

    /** The values that the supervisor gets. */
    public Settings settings() {
        return settings;
    }

    /** The value of any row in its unit, the supervisor's included; for a choice, the index of the word. */
    public double get(Row row) {
        if (row instanceof Parameter) {
            return settings.get((Parameter) row);
        }
        Double value = values.get(row);
        if (value == null) {
            throw new IllegalArgumentException(row.key() + " belongs to no table of a vehicle's file");
        }
        return value;
    }

    /** Whether a choice has a certain word. */
    public boolean is(Row row, String word) {
        return row.choices().indexOf(word) == (int) get(row);
    }

    /** The signals it has: all that every vehicle has, and the optional ones that are fitted. */
    public Set<Signal> fitted() {
        EnumSet<Signal> all = EnumSet.noneOf(Signal.class);
        for (Signal signal : Signal.values()) {
            if (settings.has(signal)) {
                all.add(signal);
            }
        }
        return all;
    }

    /** The same vehicle with one value changed, for tests and for weakening one value at a time. */
    public Vehicle with(Row row, double value) {
        if (!(value >= row.min() && value <= row.max())) {
            throw new IllegalArgumentException(
                    row.key() + " = " + value + " is outside " + row.min() + ".." + row.max());
        }
        if (row instanceof Parameter) {
            return new Vehicle(about, settings.with((Parameter) row, value), values);
        }
        Map<Row, Double> changed = new HashMap<>(values);
        changed.put(row, value);
        return new Vehicle(about, settings, changed);
    }

    /**
     * The same drawing with another simulated car; the supervisor knows nothing of it.
     *
     * @param car what is different, each value within its range
     */
    public Vehicle withCar(Map<CarParameter, Double> car) {
        if (car.isEmpty()) {
            return this;
        }
        Map<Row, Double> changed = new HashMap<>(values);
        car.forEach((row, value) -> {
            if (!(value >= row.min() && value <= row.max())) {
                throw new IllegalArgumentException(
                        row.key() + " = " + value + " is outside " + row.min() + ".." + row.max());
            }
            changed.put(row, value);
        });
        return new Vehicle(about, settings, changed);
    }

    @Override
    public String toString() {
        return about.name();
    }
}
