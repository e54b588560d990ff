package sprag.bench.evidence.margin;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import sprag.bench.evidence.campaign.CarFaults.Outcome;

/**
 * One fault at one moment on all cars on which it could be tried.
 *
 * @param drawn the verdict on the car as it is drawn
 * @param verdicts how many cars have each verdict
 * @param absent how many cars never come to this moment
 * @param noticed of the cars on which it showed, those on which an interlock noticed it
 * @param overMs at worst, how much longer than its budget a car was exposed; NaN when nothing noticed it
 * @param worst the car of that figure, -1 for none
 */
record FaultSpread(
        String fault,
        String moment,
        String drawn,
        Map<String, Integer> verdicts,
        int absent,
        Share noticed,
        double overMs,
        int worst) {

    /** Puts the cars beside each other, fault by fault, in the order of the drawing's runs and then of the cars'. */
    static List<FaultSpread> of(List<Outcome> drawn, List<List<Outcome>> cars) {
        Map<String, Outcome> asDrawn = new LinkedHashMap<>();
        Map<String, Map<Integer, Outcome>> all = new LinkedHashMap<>();
        for (Outcome each : drawn) {
            asDrawn.put(name(each), each);
            all.put(name(each), new LinkedHashMap<>());
        }
        for (int car = 0; car < cars.size(); car++) {
            for (Outcome each : cars.get(car)) {
                all.computeIfAbsent(name(each), key -> new LinkedHashMap<>()).put(car, each);
            }
        }
        List<FaultSpread> spreads = new ArrayList<>();
        all.forEach((name, outcomes) -> {
            if (!outcomes.isEmpty()) {
                spreads.add(spread(asDrawn.get(name), outcomes, cars.size() - outcomes.size()));
            }
        });
        return spreads;
    }

    private static String name(Outcome outcome) {
        return outcome.moment() + " " + outcome.fault();
    }

    private static FaultSpread spread(Outcome drawn, Map<Integer, Outcome> cars, int absent) {
        Map<String, Integer> verdicts = new TreeMap<>();
        int shown = 0;
        int noticed = 0;
        double overMs = Double.NaN;
        int worst = -1;
        for (Map.Entry<Integer, Outcome> each : cars.entrySet()) {
            Outcome outcome = each.getValue();
            verdicts.merge(outcome.verdict(), 1, Integer::sum);
            shown += outcome.isShown() ? 1 : 0;
            noticed += outcome.isShown() && outcome.isNoticed() ? 1 : 0;
            if (outcome.isNoticed() && !(outcome.overMs() <= overMs)) {
                overMs = outcome.overMs();
                worst = each.getKey();
            }
        }
        Outcome any = cars.values().iterator().next();
        String told = drawn == null ? "not tried" : drawn.verdict();
        return new FaultSpread(
                any.fault(), any.moment(), told, verdicts, absent, new Share(noticed, shown), overMs, worst);
    }

    /** Whether some car fares worse than the drawing: it is hurt, late, or notices nothing where the drawing does not. */
    boolean isWorseThanDrawn() {
        Set<String> worse = new TreeSet<>(verdicts.keySet());
        worse.retainAll(Set.of("harm", "late", "undetected"));
        worse.remove(drawn);
        return !drawn.equals("harm")
                && !worse.isEmpty()
                && !(drawn.equals("late") && worse.equals(Set.of("undetected")));
    }

    /** The verdicts in words, e.g. {@code 18 safe, 2 late}. */
    String counts() {
        String all = String.join(
                ", ",
                verdicts.entrySet().stream()
                        .map(e -> e.getValue() + " " + e.getKey())
                        .toList());
        return absent == 0 ? all : all + ", " + absent + " never come to this moment";
    }

    /** How many cars noticed it, and how late the worst was. */
    String words() {
        String seen = noticed.of() == 0
                ? "it shows on no car"
                : "noticed on " + noticed.count() + " of the " + noticed.of() + " cars on which it shows";
        return seen
                + (Double.isNaN(overMs)
                        ? ""
                        : ", at worst " + Math.round(Math.abs(overMs)) + " ms " + (overMs > 0 ? "after" : "before")
                                + " its budget ends (car " + worst + ")");
    }
}
