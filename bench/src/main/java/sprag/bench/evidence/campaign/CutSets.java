package sprag.bench.evidence.campaign;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.vehicle.Vehicle;

/**
 * Which faults are enough for a hazard: the minimal cut sets of IEC 61025, read off the runs of a campaign. A set is minimal when no
 * part of it is enough by itself. Runs have one fault or two, so sets of more are not found.
 *
 * @param ofHazard the sets of each hazard that some run led to, single faults first
 */
record CutSets(Map<String, List<CutSet>> ofHazard) {
    /**
     * One set.
     *
     * @param faults one or two
     * @param moments of the day at which it led to the hazard
     */
    record CutSet(Set<String> faults, Set<String> moments) {
        /** How many faults must come together. */
        int order() {
            return faults.size();
        }

        /** The faults as the campaign names them. */
        String name() {
            return String.join(FaultOutcome.PAIR, faults);
        }
    }

    private static final Comparator<CutSet> ORDER =
            Comparator.comparingInt(CutSet::order).thenComparing(CutSet::name);

    /** Reads them off outcomes. A run leads to a hazard when a harm of it is above its limit. */
    static CutSets of(Vehicle vehicle, Collection<FaultOutcome> outcomes) {
        Map<String, Map<Set<String>, Set<String>>> enough = new TreeMap<>();
        for (FaultOutcome outcome : outcomes) {
            Set<String> faults = new TreeSet<>(Arrays.asList(outcome.fault().split(Pattern.quote(FaultOutcome.PAIR))));
            for (Harm harm : outcome.beyondLimits(vehicle)) {
                enough.computeIfAbsent(harm.hazard, h -> new HashMap<>())
                        .computeIfAbsent(faults, f -> new TreeSet<>())
                        .add(outcome.moment());
            }
        }
        Map<String, List<CutSet>> ofHazard = new TreeMap<>();
        enough.forEach((hazard, sets) -> ofHazard.put(
                hazard,
                minimal(sets.keySet()).stream()
                        .map(faults -> new CutSet(faults, sets.get(faults)))
                        .sorted(ORDER)
                        .toList()));
        return new CutSets(ofHazard);
    }

    /** Those sets that hold no other one. */
    static List<Set<String>> minimal(Collection<Set<String>> sets) {
        List<Set<String>> sorted = new ArrayList<>(new LinkedHashSet<>(sets));
        sorted.sort(Comparator.comparingInt(Set::size));
        Map<Integer, Set<Set<String>>> kept = new TreeMap<>();
        List<Set<String>> minimal = new ArrayList<>();
        for (Set<String> set : sorted) {
            if (!holdsOne(set, kept)) {
                minimal.add(set);
                kept.computeIfAbsent(set.size(), n -> new HashSet<>()).add(set);
            }
        }
        return minimal;
    }

    private static boolean holdsOne(Set<String> set, Map<Integer, Set<Set<String>>> kept) {
        return kept.entrySet().stream()
                .filter(same -> same.getKey() < set.size())
                .anyMatch(same -> same.getKey() == 1
                        ? set.stream().anyMatch(one -> same.getValue().contains(Set.of(one)))
                        : same.getValue().stream().anyMatch(set::containsAll));
    }

    /** How many sets of an order there are. */
    long count(int order) {
        return ofHazard.values().stream()
                .flatMap(List::stream)
                .filter(set -> set.order() == order)
                .map(CutSet::faults)
                .distinct()
                .count();
    }
}
