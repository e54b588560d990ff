package sprag.bench.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.BooleanSupplier;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Row;

/**
 * Tries one value over a range, many at once, and tells where a figure of the trip reaches a target.
 *
 * @param row the value that is tried
 * @param figure the figure that is aimed at, a name of {@link TripJson#figures}
 * @param target what it shall be
 * @param points what was found, by rising value
 * @param found the value that reaches the target by a straight line between its neighbours, NaN when none does
 * @param confirmed the figure of a whole trip at the value found, NaN when none is
 */
record Search(
        Row row,
        String figure,
        double target,
        List<Point> points,
        List<String> followers,
        double found,
        double confirmed) {
    /** How many values are tried at most. */
    static final int MOST = 40;

    /**
     * One value that was tried.
     *
     * @param result the figure, NaN when there is none
     * @param trouble why not, else empty
     */
    record Point(double value, double result, String trouble) {}

    /**
     * What is sought.
     *
     * @param most how many values are tried
     */
    record Question(Row row, double from, double to, String figure, double target, int most) {
        Question(Row row, double from, double to, String figure, double target) {
            this(row, from, to, figure, target, MOST);
        }

        /** Evenly spaced values; whole ones where both ends are whole and there is room. */
        List<Double> values() {
            boolean whole = from == Math.rint(from) && to == Math.rint(to) && to - from >= most - 1;
            int count = from == to ? 1 : wholeAndFew() ? (int) (to - from) + 1 : most;
            List<Double> all = new ArrayList<>();
            for (int i = 0; i < count; i++) {
                double value = count == 1 ? from : from + (to - from) * i / (count - 1);
                value = whole || isCount() ? Math.rint(value) : value;
                if (all.isEmpty() || all.get(all.size() - 1) != value) {
                    all.add(value);
                }
            }
            return all;
        }

        private boolean wholeAndFew() {
            return isCount() && to - from < most;
        }

        /** Cells and levels come in whole numbers. */
        boolean isCount() {
            return row == sprag.supervisor.vocabulary.Parameter.PACK_CELLS
                    || row == sprag.supervisor.vocabulary.Parameter.REGEN_LEVELS
                    || row == sprag.supervisor.vocabulary.Parameter.CHARGER_COUNT;
        }
    }

    /** Tries every value, and drives what was found whole. */
    static Search of(TripReport base, Question question, Runnable each, BooleanSupplier stop) {
        Search curve = curve(base, base.vehicle(), question, each, stop);
        double confirmed = Double.isNaN(curve.found) || stop.getAsBoolean()
                ? Double.NaN
                : confirm(
                        base, new Variation(base.vehicle(), question.row()).with(curve.found), question.figure(), stop);
        return new Search(curve.row, curve.figure, curve.target, curve.points, curve.followers, curve.found, confirmed);
    }

    /**
     * Tries every value on a vehicle that is similar to that of the report.
     *
     * @param each called after each value, in any thread
     */
    static Search curve(TripReport base, Vehicle vehicle, Question question, Runnable each, BooleanSupplier stop) {
        Variation variation = new Variation(vehicle, question.row());
        boolean charges = TripJson.OF_THE_CHARGE.contains(question.figure());
        ExecutorService pool = Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        List<Future<Point>> asked = new ArrayList<>();
        for (double value : question.values()) {
            asked.add(pool.submit(() -> {
                Point point = point(base, variation, question, value, charges, stop);
                each.run();
                return point;
            }));
        }
        List<Point> points = new ArrayList<>();
        try {
            for (Future<Point> one : asked) {
                points.add(one.get());
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (ExecutionException e) {
            throw new IllegalStateException("a trip failed by a mistake in the program", e.getCause());
        } finally {
            pool.shutdownNow();
        }
        return new Search(
                question.row(),
                question.figure(),
                question.target(),
                points,
                variation.followers(),
                crossing(points, question),
                Double.NaN);
    }

    private static Point point(
            TripReport base,
            Variation variation,
            Question question,
            double value,
            boolean charges,
            BooleanSupplier stop) {
        Vehicle changed;
        try {
            changed = variation.with(value);
        } catch (IllegalArgumentException contradiction) {
            return new Point(value, Double.NaN, contradiction.getMessage());
        }
        TripReport report = base.similar(changed, charges, stop);
        double result = TripJson.figures(report).get(question.figure());
        boolean well = report.trip().complete();
        return new Point(
                value,
                well ? result : Double.NaN,
                well ? "" : report.trip().drive().ended());
    }

    private static double confirm(TripReport base, Vehicle changed, String figure, BooleanSupplier stop) {
        TripReport whole =
                TripReport.of(changed, base.weather(), base.trip().drive().trace(), stop);
        return TripJson.figures(whole).get(figure);
    }

    /** The first place where the curve passes the target. */
    private static double crossing(List<Point> points, Question question) {
        double target = question.target();
        for (int i = 0; i < points.size(); i++) {
            Point to = points.get(i);
            if (to.result() == target) {
                return to.value();
            }
            Point from = i == 0 ? to : points.get(i - 1);
            if ((from.result() - target) * (to.result() - target) < 0) {
                double share = (target - from.result()) / (to.result() - from.result());
                double value = from.value() + share * (to.value() - from.value());
                return question.isCount() ? to.result() > from.result() ? Math.ceil(value) : Math.floor(value) : value;
            }
        }
        return Double.NaN;
    }
}
