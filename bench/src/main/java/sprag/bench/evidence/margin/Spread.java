package sprag.bench.evidence.margin;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
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
 * @param influences what each factor does to the margin; empty when the margin is the same on every car that has one
 * @param misses what each factor does to whether it is met; empty when all cars meet it, none does, or the margins of all cars tell it
 */
record Spread(
        Expectation expectation,
        Share met,
        int unjudged,
        String unit,
        double drawn,
        double[] margins,
        int worst,
        Map<Factor, Influence> influences,
        Map<Factor, Influence> misses) {

    /** With fewer cars a factor that does nothing may seem to be the strongest: none is told. */
    private static final int CARS_FOR_ONE = 100;

    /** With fewer cars only the strongest one is told. */
    private static final int CARS_FOR_ALL = 500;

    /**
     * Works it out.
     *
     * @param drawn the verdict on the car as it is drawn
     * @param all the verdict on each car of the fleet
     */
    static Spread of(Fleet fleet, Expectation expectation, ExpectationVerdict drawn, List<ExpectationVerdict> all) {
        String unit = unit(drawn, all);
        List<Integer> measured = new ArrayList<>();
        for (int car = 0; car < all.size(); car++) {
            if (all.get(car).unit().equals(unit) && !Double.isNaN(all.get(car).margin())) {
                measured.add(car);
            }
        }
        double[] margins =
                measured.stream().mapToDouble(car -> all.get(car).margin()).toArray();
        Map<Factor, Influence> influences = influences(fleet, measured, margins);
        Arrays.sort(margins);
        return new Spread(
                expectation,
                new Share((int) all.stream().filter(ExpectationVerdict::passed).count(), all.size()),
                (int) all.stream().filter(v -> v.outcome() == Outcome.ERROR).count(),
                unit,
                drawn.unit().equals(unit) ? drawn.margin() : Double.NaN,
                margins,
                worst(all, unit),
                influences,
                margins.length == all.size() ? Map.of() : misses(fleet, all));
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
        int worst = IntStream.range(0, all.size()).boxed().min(order).orElse(-1);
        boolean says = worst >= 0 && (!all.get(worst).passed() || Double.isFinite(margin(all.get(worst), unit)));
        return says ? worst : -1;
    }

    private static double margin(ExpectationVerdict verdict, String unit) {
        boolean measured = verdict.unit().equals(unit) && !Double.isNaN(verdict.margin());
        return measured ? verdict.margin() : verdict.passed() ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
    }

    /** A car that never gets to what is expected has no margin: what makes it miss shows only in who does. */
    private static Map<Factor, Influence> misses(Fleet fleet, List<ExpectationVerdict> all) {
        List<Integer> cars = IntStream.range(0, all.size()).boxed().toList();
        return influences(
                fleet, cars, all.stream().mapToDouble(v -> v.passed() ? 1 : 0).toArray());
    }

    private static Map<Factor, Influence> influences(Fleet fleet, List<Integer> cars, double[] values) {
        Map<Factor, Influence> all = new EnumMap<>(Factor.class);
        if (Arrays.stream(values).distinct().count() > 1) {
            double[][] places = Arrays.stream(Factor.values())
                    .map(factor -> cars.stream()
                            .mapToDouble(car -> fleet.place(car, factor))
                            .toArray())
                    .toArray(double[][]::new);
            Influence[] found = Influence.of(places, values);
            Arrays.stream(Factor.values()).forEach(factor -> all.put(factor, found[factor.ordinal()]));
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

    /** Whether every car has a margin. */
    boolean measuresEveryCar() {
        return margins.length == met.of();
    }

    /** The factors that matter to the margin, the strongest first. */
    List<Factor> strongest() {
        return strongest(influences, margins.length);
    }

    /** The factors that matter to whether it is met, the strongest first. */
    List<Factor> strongestOfMisses() {
        return strongest(misses, met.of());
    }

    private static List<Factor> strongest(Map<Factor, Influence> influences, int cars) {
        return influences.keySet().stream()
                .filter(factor -> influences.get(factor).index() >= Influence.least(cars))
                .sorted(Comparator.comparingDouble(
                        factor -> -influences.get(factor).index()))
                .limit(cars < CARS_FOR_ONE ? 0 : cars < CARS_FOR_ALL ? 1 : Factor.COUNT)
                .toList();
    }

    /** What matters to the margin in words. E.g. {@code the bus capacitance explains 71 % of it (more of it, less margin)}. */
    String why() {
        if (margins.length == 0) {
            return "";
        }
        return influences.isEmpty()
                ? "the same on every car" + (measuresEveryCar() ? "" : " that has a margin")
                : words(influences, margins.length, "less margin");
    }

    /** What matters to whether it is met, in words; empty when the margin says it. */
    String whyMissed() {
        return misses.isEmpty() ? "" : "whether it is met: " + words(misses, met.of(), "fewer cars meet it");
    }

    private static String words(Map<Factor, Influence> influences, int cars, String less) {
        List<Factor> strongest = strongest(influences, cars);
        if (strongest.isEmpty()) {
            return cars < CARS_FOR_ONE ? cars + " cars are too few to tell what matters" : "no tolerance stands out";
        }
        return String.join(
                ", ",
                strongest.stream()
                        .limit(3)
                        .map(factor -> factor.words + " explains "
                                + Math.round(influences.get(factor).index() * 100) + " %"
                                + direction(influences.get(factor).rank(), less))
                        .toList());
    }

    private static String direction(double rank, String less) {
        return rank <= -0.2 ? " (more of it, " + less + ")" : rank >= 0.2 ? " (less of it, " + less + ")" : "";
    }
}
