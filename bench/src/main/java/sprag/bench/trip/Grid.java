package sprag.bench.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import sprag.bench.trip.Search.Question;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Row;

/**
 * Two values tried together: a curve over the first for each of a few values of the second.
 *
 * @param second the value that stays the same along a curve
 * @param curves one for each value of it
 */
record Grid(Row second, List<Curve> curves) {
    /** How many values of the first and of the second are tried at most: forty trips together. */
    static final int FIRST_MOST = 8;

    static final int SECOND_MOST = 5;

    /**
     * One curve.
     *
     * @param value the second value
     * @param search the curve, null when that value contradicts another one
     * @param trouble why there is none, else empty
     */
    record Curve(double value, Search search, String trouble) {}

    /** Tries all. */
    static Grid of(TripReport base, Question first, Question second, Runnable each, BooleanSupplier stop) {
        Variation variation = new Variation(base.vehicle(), second.row());
        List<Curve> curves = new ArrayList<>();
        for (double value : second.values()) {
            Vehicle changed;
            try {
                changed = variation.with(value);
            } catch (IllegalArgumentException contradiction) {
                curves.add(new Curve(value, null, contradiction.getMessage()));
                continue;
            }
            curves.add(new Curve(value, Search.curve(base, changed, first, each, stop), ""));
        }
        return new Grid(second.row(), curves);
    }

    /** The curves that were driven. */
    List<Curve> driven() {
        return curves.stream().filter(each -> each.search() != null).toList();
    }
}
