package sprag.bench.drawing.draft;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import sprag.bench.review.wiring.schedule.VoltageClass;

/** The ways of wires between places: through passages where there are some, else along the loom. */
final class Ways {
    /**
     * The way of a wire.
     *
     * @param lengthM from place to place
     * @param places the places that it touches, both ends included
     * @param passages what it goes through, in order
     */
    record Way(double lengthM, List<Place> places, List<Passage> passages) {
        private Way and(Place next, Leg leg) {
            List<Place> further = new ArrayList<>(places);
            further.add(next);
            List<Passage> through = new ArrayList<>(passages);
            through.addAll(leg.passages());
            return new Way(lengthM + leg.lengthM(), further, through);
        }
    }

    /** The way between two places without one between them. */
    private record Leg(double lengthM, List<Passage> passages) {}

    private final Answers answers;

    Ways(Answers answers) {
        this.answers = answers;
    }

    /** The shortest way; the distance of the places when nothing that was measured or described joins them. */
    Way between(Place from, Place to, VoltageClass voltageClass) {
        Map<Place, Way> known = new EnumMap<>(Place.class);
        known.put(from, new Way(0, List.of(from), List.of()));
        // As often as there are places: then the longest chain has been found.
        for (int round = 0; round < Place.values().length; round++) {
            for (Place at : Place.values()) {
                for (Place next : Place.values()) {
                    if (known.containsKey(at) && at != next) {
                        Way before = known.get(at);
                        leg(at, next, voltageClass)
                                .map(leg -> before.and(next, leg))
                                .ifPresent(way -> known.merge(next, way, (a, b) -> b.lengthM() < a.lengthM() ? b : a));
                    }
                }
            }
        }
        double directM = answers.distances().getOrDefault(from.key(to), Place.DEFAULT_M);
        return known.getOrDefault(to, new Way(directM, List.of(from, to), List.of()));
    }

    /** Nothing when the places are joined by no passage for such wires and nobody has measured their distance. */
    private Optional<Leg> leg(Place a, Place b, VoltageClass voltageClass) {
        List<Passage> here = answers.passages().stream()
                .filter(p -> p.joins(a, b) && p.takes().contains(voltageClass))
                .toList();
        boolean measured = !answers.open().containsKey("places." + a.key(b));
        if (here.isEmpty() && !measured) {
            return Optional.empty();
        }
        double distanceM = answers.distances().get(a.key(b));
        Optional<Passage> chosen = here.stream().filter(p -> !p.kind().isWall()).findFirst();
        List<Passage> through = new ArrayList<>(chosen.stream().toList());
        here.stream().filter(p -> p.kind().isWall()).forEach(through::add);
        double lengthM = through.stream()
                .mapToDouble(Passage::lengthM)
                .filter(m -> !Double.isNaN(m))
                .max()
                .orElse(distanceM);
        return Optional.of(new Leg(lengthM, through));
    }
}
