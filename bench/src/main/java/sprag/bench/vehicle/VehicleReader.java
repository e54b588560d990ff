package sprag.bench.vehicle;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.cli.Nearest;
import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.Consistency;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Reads {@code vehicle.toml}. Either the whole file is good and becomes a vehicle, or nothing does. */
public final class VehicleReader {
    private static final double R25_WITHIN_K = 3;
    private static final double MAGNETS = Parameter.MOTOR_KIND.choices().indexOf("permanent-magnet");
    private static final double AIR = CarParameter.THERMAL_COOLING.choices().indexOf("air");
    private static final double NO_INLET = Parameter.INLET_KIND.choices().indexOf("none");
    /** What a vehicle whose pack is charged elsewhere need not say; none of it acts there. */
    /** What counts things. */
    private static final List<Row> WHOLE = List.of(
            Parameter.PACK_CELLS,
            Parameter.REGEN_LEVELS,
            Parameter.INLET_PHASES,
            Parameter.CHARGER_COUNT,
            SizingParameter.SENSOR_ADC_BITS);

    private static final Set<Row> NEEDS_INLET = Set.of(
            Parameter.CHARGER_SIDE,
            Parameter.CHARGER_1_MAX_W,
            Parameter.CHARGE_CURRENT_A,
            Parameter.CHARGE_OVER_V,
            Parameter.CHARGE_END_A);

    private static final String FITTED = "signals.fitted";

    private final Problems problems = new Problems();
    private final Map<Row, Double> values = new HashMap<>();
    private final Section root;

    private VehicleReader(Path file) throws BadInput {
        this.root = TomlFile.read(file, problems);
    }

    /**
     * Reads a vehicle.
     *
     * @param folder the folder that holds {@code vehicle.toml}
     * @throws BadInput with every problem of the file
     */
    public static Vehicle read(Path folder) throws BadInput {
        return new VehicleReader(folder.resolve(Catalogue.VEHICLE_FILE)).vehicle(folder);
    }

    /**
     * Reads a vehicle that has a supervisor. One that relays switch is refused: there is nothing to prove in it, and no board
     * may ever be armed for it.
     *
     * @param folder the folder that holds {@code vehicle.toml}
     * @throws BadInput with every problem of the file
     */
    public static Vehicle readSupervised(Path folder) throws BadInput {
        VehicleReader reader = new VehicleReader(folder.resolve(Catalogue.VEHICLE_FILE));
        Vehicle vehicle = reader.vehicle(folder);
        if (CarParameter.hasRelays(vehicle)) {
            String key = CarParameter.RELAYS_TIMERS.key();
            String has = "is not \"none\", so timer relays switch this car and it has no supervisor";
            reader.root.note(
                    key, has, "\"none\"", "", "Take the line out, or use the command run, which plays such a car.");
        }
        reader.problems.throwIfAny();
        return vehicle;
    }

    private Vehicle vehicle(Path folder) throws BadInput {
        String name = root.text(
                "about.name", String.valueOf(folder.toAbsolutePath().normalize().getFileName()));
        String description = root.text("about.description", "");
        Set<Signal> optional = optionalSignals();
        boolean inlet = root.value(Parameter.INLET_KIND) != NO_INLET;
        for (Row[] family : Vehicle.families()) {
            for (Row row : family) {
                boolean idle = !inlet && NEEDS_INLET.contains(row) && !root.has(row.key());
                values.put(row, idle ? row.min() : root.value(row));
            }
        }
        WHOLE.forEach(row -> root.whole(row, get(row)));
        takeOver();
        ThermistorTable thermistors = ThermistorTable.read(root);
        if (thermistors != null) {
            thermistors.putInto(values);
        }
        root.end();
        contradictions(optional);
        lock(optional.contains(Signal.PLUG_LOCKED));
        new KindCheck(root, this::get).check(optional);
        PedalCheck.check(root, this::get, optional.contains(Signal.PEDAL_B_V));
        problems.throwIfAny();
        double[] own = new double[Parameter.COUNT];
        Arrays.setAll(own, i -> get(Parameter.values()[i]));
        values.keySet().removeAll(List.of(Parameter.values()));
        return new Vehicle(
                new Vehicle.About(name, description, folder, thermistors), Settings.of(own, optional), values);
    }

    private double get(Row row) {
        return values.get(row);
    }

    private void takeOver() {
        for (CarParameter row : CarParameter.values()) {
            if (row.sameAs().isPresent() && !root.has(row.key())) {
                values.put(row, get(row.sameAs().get()));
            }
        }
    }

    private Set<Signal> optionalSignals() {
        Set<Signal> found = EnumSet.noneOf(Signal.class);
        List<String> names = Arrays.stream(Signal.values())
                .filter(s -> s.fit == Signal.Fit.OPTIONAL || s.fit == Signal.Fit.INLET)
                .map(Signal::key)
                .toList();
        for (String written : root.texts(FITTED)) {
            if (names.contains(written)) {
                Signal signal = Arrays.stream(Signal.values())
                        .filter(s -> s.key().equals(written))
                        .findFirst()
                        .orElseThrow();
                if (!found.add(signal)) {
                    String twice = "holds \"" + written + "\" twice";
                    root.note(
                            FITTED, twice, "each signal once", "", "Take one out, or write the signal that was meant.");
                }
            } else if (Arrays.stream(Signal.values()).noneMatch(s -> s.key().equals(written))) {
                root.note(
                        FITTED,
                        "holds \"" + written + "\", which is not an optional signal",
                        "names of optional signals",
                        "have no effect",
                        Nearest.hint(written, names));
            }
        }
        return found;
    }

    /** More current melts a fuse sooner: a curve that says otherwise has two of its points swapped. */
    private void fuseCurve() {
        SizingParameter[][] points = {
            {SizingParameter.FUSE_POINT_1_A, SizingParameter.FUSE_POINT_1_S},
            {SizingParameter.FUSE_POINT_2_A, SizingParameter.FUSE_POINT_2_S},
            {SizingParameter.FUSE_POINT_3_A, SizingParameter.FUSE_POINT_3_S}
        };
        for (int i = 1; i < points.length; i++) {
            boolean current = get(points[i][0]) <= get(points[i - 1][0]);
            boolean time = get(points[i][1]) >= get(points[i - 1][1]);
            if (current || time) {
                SizingParameter wrong = points[i][current ? 0 : 1];
                SizingParameter before = points[i - 1][current ? 0 : 1];
                root.note(
                        wrong.key(),
                        "= " + get(wrong) + (current ? " is not above " : " is not below ") + before.key() + " = "
                                + get(before),
                        "points in the order of rising current and falling time",
                        "",
                        "Write the points in the order of the curve.");
            }
        }
    }

    private void lock(boolean contact) {
        if (contact && get(Parameter.INLET_LOCK) == 0) {
            root.note(
                    FITTED,
                    "holds \"plug_locked\", but inlet.lock is \"none\"",
                    "plug_locked only with inlet.lock = \"fitted\"",
                    "be the contact of a lock that is never driven",
                    "Write inlet.lock = \"fitted\", or take plug_locked out.");
        }
    }

    /** Three coefficients describe the part that r25_ohm and beta_k describe roughly: both must agree near 25 °C. */
    private void thermistor() {
        double a = get(Parameter.THERMISTOR_STEINHART_A);
        double b = get(Parameter.THERMISTOR_STEINHART_B);
        double c = get(Parameter.THERMISTOR_STEINHART_C);
        double ln = Math.log(get(Parameter.THERMISTOR_R25_OHM));
        boolean none = a == 0 && b == 0 && c == 0;
        double r25C = 1 / (a + b * ln + c * ln * ln * ln) - 273.15;
        if (!none && !(Math.abs(r25C - 25) <= R25_WITHIN_K)) {
            root.note(
                    Parameter.THERMISTOR_STEINHART_A.key(),
                    ", steinhart_b and steinhart_c give " + Numbers.text(r25C, "°C") + " at thermistor.r25_ohm",
                    "25 °C, " + R25_WITHIN_K + " K more or less",
                    "misread every temperature",
                    "Copy all three from the data sheet, for a resistance in ohm, and r25_ohm from the same part.");
        }
    }

    private void ends(Tolerance low, Tolerance high) {
        if (get(low) > get(high)) {
            Tolerance at = root.has(high.key()) ? high : low;
            root.note(
                    at.key(),
                    ": " + low.key() + " = " + Section.plain(get(low)) + " is above " + high.key() + " = "
                            + Section.plain(get(high)),
                    low.key() + " at most " + high.key(),
                    "",
                    "Exchange the two, or write both.");
        }
    }

    private void contradictions(Set<Signal> fitted) {
        fuseCurve();
        thermistor();
        ends(Tolerance.COLD_C, Tolerance.HOT_C);
        ends(Tolerance.CHARGE_LOW, Tolerance.CHARGE_HIGH);
        if (fitted.contains(Signal.COOLANT_TEMP_V) && get(CarParameter.THERMAL_COOLING) == AIR) {
            root.note(
                    FITTED,
                    "holds \"coolant_temp_v\", and car.thermal.cooling = \"air\" has no coolant",
                    "a coolant sensor where there is coolant",
                    "judge the temperature of nothing",
                    "Take the signal out, or write cooling = \"liquid\".");
        }
        if (get(Parameter.MOTOR_KIND) == MAGNETS && get(Parameter.MOTOR_EMF_V_PER_KRPM) == 0) {
            root.note(
                    Parameter.MOTOR_EMF_V_PER_KRPM.key(),
                    "= 0, and motor.kind = \"permanent-magnet\" makes voltage whenever it turns",
                    "more than 0 for a motor with magnets",
                    "let the contactors open while the motor drives the bus up",
                    "Write the voltage that it makes for 1000 turns a minute.");
        }
        for (Consistency row : Consistency.values()) {
            double lower = get(row.lower);
            double upper = get(row.upper);
            if (!Double.isNaN(lower) && !Double.isNaN(upper) && !row.holds(lower, upper)) {
                Row at = root.has(row.upper.key()) || !root.has(row.lower.key()) ? row.upper : row.lower;
                root.note(
                        at.key(),
                        against(row, at),
                        "",
                        "",
                        "Make " + row.lower.key() + " less than " + row.upper.key() + ": " + row.otherwise + ".");
            }
        }
    }

    /** E.g. {@code = 3 (line 7) must be more than pack.min_v = 4 (line 6)}. */
    private String against(Consistency row, Row at) {
        Row other = at == row.upper ? row.lower : row.upper;
        return "= " + Section.plain(get(at)) + " must be " + (at == row.upper ? "more" : "less") + " than "
                + other.key()
                + " = " + Section.plain(get(other))
                + (root.has(other.key()) ? " (line " + root.line(other.key()) + ")" : " (its default)");
    }
}
