package sprag.bench.review.wiring;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Wire;

/** Rules about protective earth: what takes the current of a mains fault to the chassis until the fuse or breaker ends it. */
final class EarthRules {
    private EarthRules() {}

    static List<Hit> missing(Review review) {
        List<Hit> hits = new ArrayList<>();
        BitSet bonded = review.circuit.reach(review.sides.chassis, l -> l.kind() == LinkKind.SHUNT);
        for (Part part : mainsParts(review)) {
            int earth = review.circuit.netOf(part.name() + ".earth");
            String terminal = "The protective earth of " + part.name() + " (" + part.name() + ".earth)";
            if (earth < 0 || !bonded.get(earth)) {
                hits.add(review.atPart(part, terminal + " does not reach the chassis.", Map.of()));
            } else if (!reachesChassis(review, part, 0)) {
                hits.add(review.atPart(
                        part,
                        terminal + " reaches the chassis only past a terminal that is not made for it, such as the"
                                + " ground of another part.",
                        Map.of()));
            }
        }
        return hits;
    }

    static List<Hit> thin(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Part part : mainsParts(review)) {
            double lineMm2 = review.schedule.wires().stream()
                    .filter(wire -> wire.hasBothEnds() && endsAt(wire, part.name() + ".line"))
                    .mapToDouble(Wire::sizeMm2)
                    .filter(size -> size > 0)
                    .max()
                    .orElse(0);
            if (reachesChassis(review, part, 0) && !reachesChassis(review, part, lineMm2)) {
                hits.add(review.atPart(
                        part,
                        "The protective earth of " + part.name()
                                + " has a wire on its way to the chassis that is thinner" + " than its line.",
                        Map.of("line_mm2", lineMm2)));
            }
        }
        return hits;
    }

    private static List<Part> mainsParts(Review review) {
        return review.schedule.parts().values().stream()
                .filter(part -> part.kind() == PartKind.INLET || part.kind() == PartKind.CHARGER)
                .filter(part -> review.circuit.netOf(part.name() + ".line") >= 0)
                .toList();
    }

    private static boolean endsAt(Wire wire, String terminal) {
        return wire.from().equals(terminal) || wire.to().equals(terminal);
    }

    /** Whether wires of at least a size lead from a part's earth to the chassis, past nothing but joints and earth terminals. */
    private static boolean reachesChassis(Review review, Part part, double leastMm2) {
        Deque<String> open = new ArrayDeque<>(List.of(part.name() + ".earth"));
        Set<String> seen = new HashSet<>(open);
        while (!open.isEmpty()) {
            String here = open.remove();
            if (kind(review, here) == PartKind.CHASSIS) {
                return true;
            }
            for (Wire wire : passes(review, here) ? review.schedule.wires() : List.<Wire>of()) {
                boolean wide = !(wire.sizeMm2() < leastMm2) && wire.hasBothEnds();
                String from = place(review, wire.from());
                String to = place(review, wire.to());
                if (wide && from.equals(here) && seen.add(to)) {
                    open.add(to);
                }
                if (wide && to.equals(here) && seen.add(from)) {
                    open.add(from);
                }
            }
        }
        return false;
    }

    private static boolean passes(Review review, String terminal) {
        String pin = Wire.pinOf(terminal);
        boolean joint = kind(review, terminal).isJoint();
        return joint || pin.startsWith("earth") || pin.startsWith("chassis");
    }

    private static PartKind kind(Review review, String terminal) {
        Part part = review.schedule.parts().get(Wire.partOf(terminal));
        return part == null ? PartKind.OTHER : part.kind();
    }

    /** All terminals of a splice are one place. */
    private static String place(Review review, String terminal) {
        boolean splice = !terminal.isEmpty() && kind(review, terminal) == PartKind.SPLICE;
        return splice ? Wire.partOf(terminal) : terminal;
    }
}
