package sprag.bench.review.wiring.power;

import static sprag.bench.review.finding.Finding.numbersOf;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import sprag.bench.cli.Numbers;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.Fusing;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Wire;

/** Rules about both leads of a source. Part of the rules about fuses and sizes. */
final class SourceRules {
    private SourceRules() {}

    /** A box of a pack whose two leads both leave it without a fuse: a short between them is fed by that box alone. */
    static List<Hit> boxWithoutFuse(Review review) {
        List<Part> packs = review.parts(PartKind.PACK);
        List<Hit> hits = new ArrayList<>();
        for (Part pack : packs.size() > 1 ? packs : List.<Part>of()) {
            if (leaves(review, pack, "plus") && leaves(review, pack, "minus")) {
                hits.add(review.atPart(
                        pack,
                        "No fuse lies in either lead of " + pack.name() + " before it leaves its box: a short between"
                                + " the two is fed by this box alone, past the fuse of the other.",
                        Map.of()));
            }
        }
        return hits;
    }

    /** Whether a pole reaches a connector or another pack without a fuse on the way. */
    private static boolean leaves(Review review, Part pack, String pole) {
        int net = review.circuit.netOf(pack.name() + "." + pole);
        if (net < 0) {
            return false;
        }
        BitSet start = new BitSet();
        start.set(net);
        BitSet reached = review.circuit.reach(start, Sides.UNFUSED);
        return reached.intersects(
                review.circuit.nets(t -> review.circuit.part(t).kind() == PartKind.CONNECTOR
                        || review.circuit.part(t).kind() == PartKind.PACK && review.circuit.part(t) != pack));
    }

    /** Thin wires that the DC-DC converter reaches past the fuse that guards them against the battery. */
    static List<Hit> pastItsFuse(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.parts(PartKind.DCDC)) {
            int net = review.circuit.netOf(part.name() + ".out_plus");
            double givesA = wiresAt(review, part.name() + ".out_plus")
                    .mapToDouble(Wire::currentA)
                    .max()
                    .orElse(Double.NaN);
            if (net < 0 || Double.isNaN(givesA)) {
                continue;
            }
            BitSet start = new BitSet();
            start.set(net);
            Fusing fusing = new Fusing(review.circuit, start, givesA);
            // A converter that feeds what a cut-off should cut is another finding.
            Predicate<Link> uncut = Sides.FULL_POWER.and(link -> link.part().kind() != PartKind.CUT_OFF);
            BitSet both = review.circuit.reach(start, uncut);
            both.and(review.circuit.reach(review.sides.lowVoltagePoles, uncut));
            List<Wire> wires = review.schedule.wires().stream()
                    .filter(wire -> review.netOf(wire) >= 0 && both.get(review.netOf(wire)))
                    .filter(wire -> isPastItsFuse(review, fusing, givesA, wire))
                    .toList();
            for (Wire first : wires.stream().limit(1).toList()) {
                hits.add(Hit.at(
                        first,
                        "Wire " + first.id() + " carries less than the " + Numbers.text(givesA) + " A of "
                                + part.name() + ", which reaches it past the fuse that guards it against the battery:"
                                + " the wire burns first." + ProtectionRules.others(wires, first),
                        numbersOf("dcdc_a", givesA, "wires", wires.size())));
            }
        }
        return hits;
    }

    private static boolean isPastItsFuse(Review review, Fusing fusing, double givesA, Wire wire) {
        int net = review.netOf(wire);
        if (!(wire.sizeMm2() > 0) || !fusing.reaches(net) || review.sides.ground.get(net)) {
            return false;
        }
        double reachA = Math.min(givesA, fusing.limitA(net));
        boolean more = review.lowVoltageFusing.reaches(net) && reachA > review.lowVoltageFusing.limitA(net);
        return more && reachA > ProtectionRules.ampacityA(review, wire) + 0.5 && !ProtectionRules.isLead(review, wire);
    }

    private static Stream<Wire> wiresAt(Review review, String terminal) {
        return review.schedule.wires().stream()
                .filter(wire -> wire.from().equals(terminal) || wire.to().equals(terminal));
    }

    /** What leaves the 12 V battery or the converter by its thickest plus comes back by minus. */
    static List<Hit> thinReturn(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            String out = part.kind() == PartKind.DCDC ? "out_" : "";
            boolean source = part.kind() == PartKind.DCDC || part.kind() == PartKind.LV_BATTERY;
            double plusMm2 = source
                    ? sizes(review, part.name() + "." + out + "plus").max().orElse(0)
                    : 0;
            double minusMm2 =
                    source ? sizes(review, part.name() + "." + out + "minus").sum() : 0;
            if (plusMm2 > 0 && minusMm2 > 0 && minusMm2 < plusMm2) {
                hits.add(review.atPart(
                        part,
                        "The wires at " + part.name() + "." + out + "minus are thinner than those at " + part.name()
                                + "." + out + "plus, but carry the same current.",
                        numbersOf("plus_mm2", plusMm2, "minus_mm2", minusMm2)));
            }
        }
        return hits;
    }

    private static DoubleStream sizes(Review review, String terminal) {
        return wiresAt(review, terminal).mapToDouble(Wire::sizeMm2).filter(size -> size > 0);
    }
}
