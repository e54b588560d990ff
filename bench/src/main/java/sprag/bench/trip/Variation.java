package sprag.bench.trip;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Numbers;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Consistency;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;

/** A vehicle with one value changed, and with it what follows from that value. */
final class Variation {
    /** Voltages that more cells in series raise in proportion. */
    private static final List<Row> WITH_CELLS = List.of(
            Parameter.PACK_NOMINAL_V,
            Parameter.PACK_MIN_V,
            Parameter.PACK_MAX_V,
            Parameter.CHARGE_VOLTAGE_V,
            Parameter.CHARGE_OVER_V,
            Parameter.BUS_MAX_V,
            CarParameter.MACHINE_MIN_V,
            CarParameter.MACHINE_TRIP_V,
            CarParameter.LV_DCDC_MIN_V,
            CarParameter.CELLS_HEAT_J_PER_K);
    /** What a larger cell has less of, and more of. */
    private static final List<Row> AGAINST_CAPACITY =
            List.of(CarParameter.CELLS_RESISTANCE_MOHM, CarParameter.CELLS_POLAR_MOHM);

    private static final List<Row> WITH_CAPACITY = List.of(CarParameter.CELLS_HEAT_J_PER_K);

    private final Vehicle base;
    private final Row row;

    Variation(Vehicle base, Row row) {
        this.base = base;
        this.row = row;
    }

    /** The keys that change with it, for people; empty for none. */
    List<String> followers() {
        List<String> keys = new ArrayList<>();
        for (CarParameter each : same()) {
            keys.add(each.key());
        }
        for (Row each : withIt()) {
            keys.add(each.key());
        }
        for (Row each : againstIt()) {
            keys.add(each.key() + " (inversely)");
        }
        return keys;
    }

    /** What changes with a value and what does not, for people. */
    String followersTold() {
        return followers().isEmpty()
                ? "Nothing else was changed: mass, cooling and wires stay as the file says."
                : changes() + " " + rest(isMass());
    }

    /** What changes with two values tried together and what does not, for people. */
    static List<String> followersTold(Variation first, Variation second) {
        List<String> all = new ArrayList<>();
        for (Variation each : List.of(first, second)) {
            if (!each.followers().isEmpty()) {
                all.add(each.changes());
            }
        }
        all.add(rest(first.isMass() || second.isMass()));
        return all;
    }

    private String changes() {
        return "With " + row.key() + " change in proportion: " + String.join(", ", followers()) + ".";
    }

    private static String rest(boolean isMass) {
        return (isMass ? "Currents" : "Mass, currents") + ", cooling and wires stay as the file says.";
    }

    private boolean isMass() {
        return row == Parameter.DRIVE_MASS_KG || row == CarParameter.BODY_MASS_KG;
    }

    private List<CarParameter> same() {
        List<CarParameter> all = new ArrayList<>();
        for (CarParameter each : CarParameter.values()) {
            if (each.sameAs().filter(row::equals).isPresent() && base.get(each) == base.get(row)) {
                all.add(each);
            }
        }
        return all;
    }

    private List<Row> withIt() {
        return row == Parameter.PACK_CELLS ? WITH_CELLS : row == Parameter.PACK_CAPACITY_AH ? WITH_CAPACITY : List.of();
    }

    private List<Row> againstIt() {
        return row == Parameter.PACK_CAPACITY_AH ? AGAINST_CAPACITY : List.of();
    }

    /** The vehicle with another value.
     *
     * @throws IllegalArgumentException when what follows is out of range or contradicts another value
     */
    Vehicle with(double value) {
        double factor = value / base.get(row);
        Vehicle changed = base.with(row, value);
        for (CarParameter each : same()) {
            changed = changed.with(each, value);
        }
        for (Row each : withIt()) {
            changed = changed.with(each, changed.get(each) * factor);
        }
        for (Row each : againstIt()) {
            changed = changed.with(each, changed.get(each) / factor);
        }
        for (Consistency each : Consistency.values()) {
            double lower = changed.get(each.lower);
            double upper = changed.get(each.upper);
            if (!Double.isNaN(lower) && !Double.isNaN(upper) && !each.holds(lower, upper)) {
                throw new IllegalArgumentException(each.lower.key() + " = " + Numbers.text(lower)
                        + " must be less than " + each.upper.key() + " = " + Numbers.text(upper));
            }
        }
        return changed;
    }
}
