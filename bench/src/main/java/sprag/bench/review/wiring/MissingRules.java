package sprag.bench.review.wiring;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/** Notes on what the schedule leaves open, so that a rule that could not be judged never looks like one that was kept. */
final class MissingRules {
    private MissingRules() {}

    private static final String[][] PAIRS = {
        {"in", "out"},
        {"plus", "minus"},
        {"out_plus", "out_minus"},
        {"coil_plus", "coil_minus"},
        {"aux_a", "aux_b"},
        {"pack", "load"},
        {"sense_plus", "sense_minus"},
        {"line", "neutral"},
        {"a", "b"},
        {"u", "v"},
        {"u", "w"}
    };

    /** One terminal of a pair has a wire, the other has none: a wire was forgotten. */
    static List<Hit> halfWired(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            for (String[] pair : PAIRS) {
                boolean one = review.circuit.netOf(part.name() + "." + pair[0]) >= 0;
                boolean other = review.circuit.netOf(part.name() + "." + pair[1]) >= 0;
                if (one != other && needsBoth(review, part, pair[0])) {
                    String bare = part.name() + "." + (one ? pair[1] : pair[0]);
                    hits.add(review.atPart(
                            part,
                            "Terminal " + bare + " has no wire, though the other terminal of " + part.name() + " has.",
                            Map.of()));
                }
            }
        }
        return hits;
    }

    /** A change-over contact may leave in or out bare, a switch may use its second pole alone; phases are those of a motor. */
    private static boolean needsBoth(Review review, Part part, String first) {
        if (first.equals("u")) {
            return part.kind() == PartKind.MOTOR || part.kind() == PartKind.INVERTER;
        }
        if (!first.equals("in")) {
            return true;
        }
        boolean changeOver = review.circuit.netOf(part.name() + ".rest") >= 0;
        boolean joint = part.kind().isJoint() || part.kind() == PartKind.OTHER || part.kind() == PartKind.KEY;
        return !joint && !changeOver;
    }

    static List<Hit> cells(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Wire wire : review.schedule.wires()) {
            List<String> empty = emptyCells(wire);
            if (!empty.isEmpty()) {
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " gives no " + String.join(", ", empty)
                                + ", so the rules that need it were not judged for it."));
            }
        }
        return hits;
    }

    private static List<String> emptyCells(Wire wire) {
        List<String> empty = new ArrayList<>();
        boolean traction = wire.voltageClass() == VoltageClass.TRACTION;
        boolean power = traction || wire.voltageClass() == VoltageClass.LOW_VOLTAGE;
        if (power && !(wire.sizeMm2() > 0)) {
            empty.add("size_mm2");
        }
        if (power && Double.isNaN(wire.lengthM())) {
            empty.add("length_m");
        }
        if (traction && !wire.from().isEmpty() && Double.isNaN(wire.fromPinV())) {
            empty.add("from_pin_v");
        }
        if (traction && !wire.to().isEmpty() && Double.isNaN(wire.toPinV())) {
            empty.add("to_pin_v");
        }
        return empty;
    }

    static List<Hit> ratings(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            List<String> empty = part.isListed() ? emptyRatings(review, part) : List.of();
            if (!empty.isEmpty()) {
                hits.add(review.atPart(
                        part,
                        Schedule.PARTS_FILE + " gives no " + String.join(", ", empty) + " for " + part.name()
                                + ", so the rules that need it were not judged for it.",
                        Map.of()));
            }
        }
        return hits;
    }

    private static List<String> emptyRatings(Review review, Part part) {
        List<String> empty = new ArrayList<>();
        boolean traction = false;
        boolean fuse = false;
        boolean contact = false;
        for (int number : review.circuit.linksOf(part)) {
            Link link = review.circuit.links().get(number);
            traction |= review.isTraction(review.circuit.netIn(link));
            fuse |= link.kind() == LinkKind.FUSE;
            contact |= Sides.isContact(link);
        }
        if ((fuse || contact) && traction && Double.isNaN(part.ratedV())) {
            empty.add("rated_v");
        }
        boolean drawn = part.kind().isLoad() && !part.kind().onlyMeasures();
        if ((fuse || drawn || contact && traction) && Double.isNaN(part.ratedA()) && Double.isNaN(part.breaksA())) {
            empty.add("rated_a");
        }
        if (part.kind() == PartKind.CONTACTOR && Double.isNaN(part.releaseMs())) {
            empty.add("release_ms");
        }
        return empty;
    }
}
