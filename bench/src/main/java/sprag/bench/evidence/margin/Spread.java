package sprag.bench.evidence.margin;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.stat.descriptive.rank.Percentile;
import sprag.bench.scenario.Expectation;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.ExpectationVerdict.Outcome;

/**
 * One expectation over all cars.
 *
 * @param met how many cars met it
 * @param unjudged how many it could not be judged on; none of them met it
 * @param unit what the margins are measured in
 * @param drawn margin of the car as it is drawn, NaN for none
 * @param margins the margins in that unit, of the cars that have one, the least first
 * @param worst the car that is nearest to its limit, or the furthest beyond it; -1 when no car has a margin and all met it
 * @param influences what each factor does to the margin; empty when the margin is the same on every car
 */
record Spread(
        Expectation expectation,
        Share met,
        int unjudged,
        String unit,
        double drawn,
        double[] margins,
        int worst,
        Map<Factor, Influence> influences) {

    /** An influence below this is not told in words: it may be chance. */
    private static final double TOLD = 0.1;

    /** With fewer cars the points of the sequence are related in pairs of factors: only the strongest one is told. */
    private static final int CARS_FOR_ALL = 500;

    static Spread of(Played played, int number) {
        Expectation expectation = played.scenario().expectations().get(number);
        List<ExpectationVerdict> all =
                played.cars().stream().map(car -> car.verdicts().get(number)).toList();
        ExpectationVerdict drawn = played.drawn().verdicts().get(number);
        String unit = unit(drawn, all);
        List<Integer> measured = new ArrayList<>();
        for (int car = 0; car < all.size(); car++) {
            if (all.get(car).unit().equals(unit) && !Double.isNaN(all.get(car).margin())) {
                measured.add(car);
            }
        }
        double[] margins =
                measured.stream().mapToDouble(car -> all.get(car).margin()).toArray();
        Map<Factor, Influence> influences = influences(played.fleet(), measured, margins);
        Arrays.sort(margins);
        return new Spread(
                expectation,
                new Share((int) all.stream().filter(ExpectationVerdict::passed).count(), all.size()),
                (int) all.stream().filter(v -> v.outcome() == Outcome.ERROR).count(),
                unit,
                drawn.unit().equals(unit) ? drawn.margin() : Double.NaN,
                margins,
                worst(all, unit),
                influences);
    }

    /** A time that is never reached leaves a margin in another unit; those of the cars that did are compared. */
    private static String unit(ExpectationVerdict drawn, List<ExpectationVerdict> all) {
        return drawn.passed() && !Double.isNaN(drawn.margin())
                ? drawn.unit()
                : all.stream()
                        .filter(v -> v.passed() && !Double.isNaN(v.margin()))
                        .findFirst()
                        .map(ExpectationVerdict::unit)
                        .orElse(drawn.unit());
    }

    /** Unjudged before failed before met; among equals the least margin, a failure without one in this unit first. */
    private static int worst(List<ExpectationVerdict> all, String unit) {
        Comparator<Integer> order = Comparator.comparing(
                        (Integer car) -> all.get(car).outcome(), Comparator.reverseOrder())
                .thenComparingDouble(car -> margin(all.get(car), unit));
        int worst = java.util.stream.IntStream.range(0, all.size())
                .boxed()
                .min(order)
                .orElse(-1);
        boolean says = worst >= 0 && (!all.get(worst).passed() || Double.isFinite(margin(all.get(worst), unit)));
        return says ? worst : -1;
    }

    private static double margin(ExpectationVerdict verdict, String unit) {
        boolean measured = verdict.unit().equals(unit) && !Double.isNaN(verdict.margin());
        return measured ? verdict.margin() : verdict.passed() ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
    }

    private static Map<Factor, Influence> influences(Fleet fleet, List<Integer> cars, double[] margins) {
        Map<Factor, Influence> all = new EnumMap<>(Factor.class);
        if (Arrays.stream(margins).distinct().count() > 1) {
            for (Factor factor : Factor.values()) {
                double[] place = cars.stream()
                        .mapToDouble(car -> fleet.place(car, factor))
                        .toArray();
                all.put(factor, Influence.of(place, margins));
            }
        }
        return all;
    }

    /** The margin that a share of the cars does not reach; NaN when there is none. */
    double quantile(double share) {
        if (margins.length == 0) {
            return Double.NaN;
        }
        if (share == 0 || share == 1) {
            return margins[share == 0 ? 0 : margins.length - 1];
        }
        return new Percentile().evaluate(margins, share * 100);
    }

    /** The factors that matter, the strongest first. */
    List<Factor> strongest() {
        double noise = Math.max(TOLD, 3 / Math.sqrt(margins.length));
        return influences.keySet().stream()
                .filter(factor -> influences.get(factor).index() >= noise)
                .sorted(Comparator.comparingDouble(
                        factor -> -influences.get(factor).index()))
                .limit(margins.length < CARS_FOR_ALL ? 1 : Factor.COUNT)
                .toList();
    }

    /** What matters in words. E.g. {@code the bus capacitance explains 71 % of it (less margin with more)}. */
    String why() {
        if (margins.length == 0) {
            return "";
        }
        if (influences.isEmpty()) {
            return "the same on every car";
        }
        List<Factor> strongest = strongest();
        if (strongest.isEmpty()) {
            return "no tolerance stands out";
        }
        return String.join(
                ", ",
                strongest.stream()
                        .limit(3)
                        .map(factor -> factor.words + " explains "
                                + Math.round(influences.get(factor).index() * 100) + " %"
                                + direction(influences.get(factor).rank()))
                        .toList());
    }

    private static String direction(double rank) {
        return rank <= -0.2 ? " (more of it, less margin)" : rank >= 0.2 ? " (less of it, less margin)" : "";
    }
}
