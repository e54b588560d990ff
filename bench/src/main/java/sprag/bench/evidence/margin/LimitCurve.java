package sprag.bench.evidence.margin;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.IntConsumer;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import sprag.bench.cli.Cores;
import sprag.bench.cli.Numbers;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Unit;

/**
 * What other values of a limit would do: false alarms on sound cars against the time to notice a fault.
 *
 * @param present the value of the vehicle's file
 * @param aside the cars that do not get through the scenario with any value, and not because of the limit: they are left out
 * @param points one for each value that was tried, in rising order
 */
record LimitCurve(Limit limit, double present, int aside, List<Point> points) {
    /**
     * One value.
     *
     * @param alarms the cars that give a false alarm
     * @param noticed the broken cars on which the fault was noticed
     * @param medianMs the time to notice it, of those
     * @param worstMs the same on the slowest of those
     */
    record Point(double value, Share alarms, Share noticed, double medianMs, double worstMs) {}

    private record Trial(double alarmMs, double noticedMs) {}

    /** Tries every value on every car.
     *
     * @param done told how many values are done
     */
    static LimitCurve of(Limit limit, Scenario scenario, Fleet fleet, IntConsumer done, BooleanSupplier stop) {
        List<Double> values = limit.values(fleet.vehicle());
        List<List<Trial>> tried = new ArrayList<>();
        for (double value : values) {
            Vehicle drawing = fleet.vehicle().with(limit.parameter, value);
            List<Trial> trials = Cores.each(
                    fleet.size(),
                    car -> trial(limit, scenario, drawing.withCar(fleet.rows(car)), fleet.seed(car)),
                    n -> {},
                    stop);
            if (trials.size() < fleet.size()) {
                break;
            }
            tried.add(trials);
            done.accept(tried.size());
        }
        List<Integer> fit = IntStream.range(0, fleet.size())
                .filter(car -> tried.stream().anyMatch(trials -> trials.get(car).alarmMs() != LimitTrial.HINDERED))
                .boxed()
                .toList();
        List<Point> points = IntStream.range(0, tried.size())
                .mapToObj(i ->
                        point(values.get(i), fit.stream().map(tried.get(i)::get).toList()))
                .toList();
        return new LimitCurve(
                limit, fleet.vehicle().get(limit.parameter), tried.isEmpty() ? 0 : fleet.size() - fit.size(), points);
    }

    private static Trial trial(Limit limit, Scenario scenario, Vehicle car, long seed) {
        return new Trial(
                LimitTrial.play(limit, scenario, car, seed, false), LimitTrial.play(limit, scenario, car, seed, true));
    }

    /** A car that gives a false alarm notices nothing: it did not wait for the fault. */
    private static Point point(double value, List<Trial> trials) {
        double[] noticed = trials.stream()
                .filter(t -> t.alarmMs() == LimitTrial.NEVER && t.noticedMs() < LimitTrial.NEVER)
                .mapToDouble(Trial::noticedMs)
                .sorted()
                .toArray();
        int alarms = (int)
                trials.stream().filter(t -> t.alarmMs() < LimitTrial.NEVER).count();
        return new Point(
                value,
                new Share(alarms, trials.size()),
                new Share(noticed.length, trials.size()),
                noticed.length == 0 ? Double.NaN : noticed[noticed.length / 2],
                noticed.length == 0 ? Double.NaN : noticed[noticed.length - 1]);
    }

    /** The value with its unit. */
    String text(double value) {
        return Numbers.text(value, Numbers.symbol(limit.parameter.unit()));
    }

    /** The point of the present value; null when it was not reached. */
    Point now() {
        return points.stream().filter(p -> p.value() == present).findFirst().orElse(null);
    }

    /** Whether there were cars on which the present value could be judged. */
    private boolean isJudged() {
        return now() != null && now().alarms().of() > 0;
    }

    /** Whether the present value was judged, and no sound car gave a false alarm. */
    boolean isQuiet() {
        return isJudged() && now().alarms().count() == 0;
    }

    /** How far the present value is from its edges, in words. */
    String words() {
        Point now = now();
        if (now == null) {
            return "interrupted";
        }
        if (!isJudged()) {
            return "no car gets through the scenario with any value: margin without --limits tells why";
        }
        String alarms = now.alarms().count() == 0
                ? "no false alarm"
                : now.alarms().count() + " of " + now.alarms().of() + " sound cars give a false alarm";
        return (aside == 0 ? "" : aside + " cars do not get through with any value and are left out; ")
                + alarms
                + edge(
                        "; false alarms begin",
                        p -> p.alarms().count() > 0,
                        now.alarms().count() > 0) + "; " + notice(now)
                + edge("; some are missed", LimitCurve::missed, missed(now));
    }

    private static boolean missed(Point point) {
        return point.noticed().count() + point.alarms().count() < point.alarms().of();
    }

    private String notice(Point now) {
        if (now.noticed().count() == 0) {
            return limit.fault + " is not noticed by it";
        }
        return limit.fault + " is noticed on " + now.noticed().count() + " of "
                + now.noticed().of() + " cars, in " + Numbers.text(now.medianMs(), "ms") + ", at worst in "
                + Numbers.text(now.worstMs(), "ms");
    }

    /** The nearest value below and above at which something becomes so that is not so now. */
    private String edge(String words, Predicate<Point> is, boolean already) {
        if (already) {
            return "";
        }
        List<String> edges = new ArrayList<>();
        points.stream()
                .filter(p -> p.value() < present && is.test(p))
                .reduce((a, b) -> b)
                .ifPresent(p -> edges.add("at " + text(p.value()) + " (" + percent(p) + " % below)"));
        points.stream()
                .filter(p -> p.value() > present && is.test(p))
                .findFirst()
                .ifPresent(p -> edges.add("at " + text(p.value()) + " (" + percent(p) + " % above)"));
        return edges.isEmpty() ? "" : words + " " + String.join(" and ", edges);
    }

    private long percent(Point point) {
        return Math.round(100 * Math.abs(point.value() / present - 1));
    }

    /** The least value without a false alarm, or the greatest where false alarms lie above; NaN when there is none. */
    double quickest() {
        double[] clean = points.stream()
                .filter(p -> p.alarms().count() == 0 && !missed(p))
                .mapToDouble(Point::value)
                .toArray();
        return clean.length == 0 ? Double.NaN : Arrays.stream(clean).min().orElseThrow();
    }

    /** What is proposed, in words; empty when the present value is already the quickest that was clean, or none was. */
    String proposal() {
        double quickest = quickest();
        boolean time = limit.parameter.unit() == Unit.MILLISECOND;
        if (!isJudged()) {
            return "";
        }
        if (Double.isNaN(quickest)) {
            return "no value that was tried is clean on every car";
        }
        Point now = now();
        boolean clean = now.alarms().count() == 0 && !missed(now);
        return clean && (quickest >= present || !time)
                ? ""
                : "the least value that was clean on every car is " + text(quickest);
    }
}
