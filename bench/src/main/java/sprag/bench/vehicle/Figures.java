package sprag.bench.vehicle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import sprag.bench.cli.Expression;
import sprag.bench.cli.Nearest;
import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** The numbers that a file about a vehicle may use: those of the vehicle's own file, and those it names itself. */
public final class Figures {
    private final Optional<Vehicle> vehicle;
    private final Map<String, Row> rows = new HashMap<>();
    private final Map<String, Double> named = new HashMap<>();

    private Figures(Optional<Vehicle> vehicle) {
        this.vehicle = vehicle;
        for (Row[] family : Vehicle.families()) {
            for (Row row : family) {
                if (row.unit() != Unit.CHOICE && row.unit() != Unit.SWITCH) {
                    rows.put(row.key(), row);
                }
            }
        }
    }

    /** The figures of a vehicle. */
    public static Figures of(Vehicle vehicle) {
        return new Figures(Optional.of(vehicle));
    }

    /** No vehicle is known: an expression is refused. */
    public static Figures none() {
        return new Figures(Optional.empty());
    }

    /** Gives a number a name for what is read from now on. */
    public void name(String name, double value) {
        named.put(name, value);
    }

    /**
     * Works an expression out.
     *
     * @throws IllegalArgumentException with a sentence that says what is wrong
     */
    public double value(String text) {
        if (vehicle.isEmpty()) {
            throw new IllegalArgumentException("It depends on the vehicle, and none is given: use a number.");
        }
        return Expression.value(text, name -> figure(name, vehicle.get()));
    }

    private double figure(String name, Vehicle of) {
        Double own = named.get(name);
        if (own != null) {
            return own;
        }
        Row row = rows.get(name);
        if (row == null) {
            List<String> known = new ArrayList<>(rows.keySet());
            known.addAll(named.keySet());
            throw new IllegalArgumentException(
                    "\"" + name + "\" is no number of vehicle.toml. " + Nearest.hint(name, known));
        }
        double value = of.get(row);
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(
                    name + " is " + Numbers.text(value) + " on " + of.name() + ": give it in its vehicle.toml.");
        }
        return value;
    }
}
