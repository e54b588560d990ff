package sprag.bench.review.wiring.power;

import static sprag.bench.cli.Numbers.text;
import static sprag.bench.review.finding.Finding.numbersOf;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;
import sprag.bench.review.formula.Ampacity;
import sprag.bench.review.formula.Conductor;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.circuit.Feed;
import sprag.bench.review.wiring.circuit.Fusing;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Wire;

/** Rules about fuses and what they guard, and about conductors and what they carry. */
public final class ProtectionRules {
    /** A lead from a battery to its first fuse (m): 72 inches in a sheath, ABYC E-11. */
    static final double BATTERY_LEAD_M = 1.83;
    /** A lead from a junction to a branch's fuse (m): 7 inches, ABYC E-11. */
    static final double BRANCH_LEAD_M = 0.18;

    /** As many other wires of one cause are named. */
    private static final int MOST_NAMED = 8;

    private ProtectionRules() {}

    /** What a fuse guards: the pack against the plus side, the 12 V battery against its own. */
    private static Fusing fusing(Review review, int net) {
        return review.plusFusing.reaches(net) ? review.plusFusing : review.lowVoltageFusing;
    }

    private static Feed feed(Review review, int net) {
        return review.plusFusing.reaches(net) ? review.plusFeed : review.lowVoltageFeed;
    }

    private static boolean isFed(Review review, int net) {
        boolean ground = review.sides.ground.get(net);
        return !ground && (review.plusFusing.reaches(net) || review.lowVoltageFusing.reaches(net));
    }

    static double ampacityA(Review review, Wire wire) {
        boolean traction = review.isTraction(review.netOf(wire));
        RuleLimits limits = review.limits;
        return Ampacity.ampacityA(
                wire.sizeMm2(), insulationC(review, wire), limits.ambientC(), traction ? limits.bundled() : 1);
    }

    private static double insulationC(Review review, Wire wire) {
        boolean traction = review.isTraction(review.netOf(wire));
        return traction ? review.limits.insulationC() : review.limits.thinInsulationC();
    }

    /** There and back, with the greatest resistance of a flexible conductor, as warm as the current makes it. */
    private static double dropV(Review review, Wire wire) {
        double conductorC = Conductor.conductorC(
                wire.currentA() / ampacityA(review, wire), insulationC(review, wire), review.limits.ambientC());
        return wire.currentA()
                * Conductor.greatestOhm(Conductor.Strands.CLASS_5, wire.sizeMm2(), 2 * wire.lengthM(), conductorC);
    }

    public static List<Hit> branchWithoutFuse(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            int net = review.circuit.netOf(t);
            if (!takesPower(review, t)
                    || !isFed(review, net)
                    || !fusing(review, net).isUnfused(net)) {
                continue;
            }
            if (fuseBehind(review, t).isEmpty()) {
                hits.add(review.atTerminal(
                        t,
                        "No fuse lies between the " + (review.isTraction(net) ? "pack" : "12 V battery") + " and "
                                + review.circuit.terminal(t) + ".",
                        Map.of()));
            }
        }
        hits.addAll(SourceRules.boxWithoutFuse(review));
        Map<String, Double> thickestA = thickestA(review);
        for (Wire wire : review.schedule.wires()) {
            int net = review.netOf(wire);
            if (isBranchOnSharedFuse(review, wire, net, thickestA)) {
                double ratedA = fusing(review, net).limitA(net);
                double ampacityA = ampacityA(review, wire);
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " (" + text(wire.sizeMm2(), "mm²") + ") carries at most "
                                + text(ampacityA, "A") + ", but the only fuse before it is the shared "
                                + fuseName(review, net) + " of " + text(ratedA, "A") + ": give the branch its own.",
                        numbersOf("fuse_a", ratedA, "ampacity_a", ampacityA)));
            }
        }
        return hits;
    }

    private static boolean takesPower(Review review, int terminal) {
        PartKind kind = review.circuit.part(terminal).kind();
        String pin = review.circuit.pin(terminal);
        boolean load = kind.isLoad() && pin.equals("plus");
        boolean logic = pin.equals("supply") || pin.equals("output_supply");
        return load || logic || kind.hasCoil() && pin.equals("coil_plus");
    }

    /** A fuse that the load's own current reaches only after the load: smaller than the one before it, or on a stub. */
    private static List<Part> fuseBehind(Review review, int terminal) {
        Part part = review.circuit.part(terminal);
        int net = review.circuit.netOf(terminal);
        int back = review.circuit.netOf(part.name() + ".minus");
        List<Part> found = new ArrayList<>();
        if (back >= 0 && review.minusFusing.reaches(back)) {
            int link = review.minusFusing.fuseLink(back);
            if (link >= 0
                    && review.minusFusing.limitA(back) < fusing(review, net).limitA(net)) {
                found.add(review.circuit.links().get(link).part());
            }
        }
        for (int number : review.circuit.linksAt(net)) {
            Link link = review.circuit.links().get(number);
            // On the way of the power the fuse would be before the load: then the net would not be unfused.
            boolean stub = fusing(review, net).isUnfused(net)
                    && feed(review, net).isBridge(number)
                    && feed(review, net).loadsBehind(number) == 0;
            if (link.kind() == LinkKind.FUSE && stub && review.circuit.linksAt(net).length == 1) {
                found.add(link.part());
            }
        }
        return found;
    }

    public static List<Hit> fuseAfterLoad(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            int net = review.circuit.netOf(t);
            if (!takesPower(review, t) || !isFed(review, net)) {
                continue;
            }
            List<Part> behind = fuseBehind(review, t);
            if (!behind.isEmpty()) {
                hits.add(review.atPart(
                        behind.get(0),
                        "Fuse " + behind.get(0).name() + " comes after "
                                + review.circuit.part(t).name()
                                + ", not before it: a fault in the cable to it is not interrupted.",
                        Map.of()));
            }
        }
        return hits;
    }

    public static List<Hit> farFromSource(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Wire wire : review.schedule.wires()) {
            int net = review.netOf(wire);
            boolean unfused = isFed(review, net) && fusing(review, net).isUnfused(net);
            if (unfused && wire.lengthM() > BATTERY_LEAD_M) {
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " runs " + text(wire.lengthM(), "m") + " before the first fuse; "
                                + text(BATTERY_LEAD_M, "m") + " is the most for a sheathed lead.",
                        numbersOf("length_m", wire.lengthM(), "limit_m", BATTERY_LEAD_M)));
            }
        }
        return hits;
    }

    /** The rating that decides for a wire: the fuse in the circuit, or a larger one that the drawing writes beside it. */
    private static double guardA(Review review, Wire wire, int net) {
        double foundA = fusing(review, net).limitA(net);
        return Double.isNaN(wire.fuseA()) ? foundA : Math.max(foundA, wire.fuseA());
    }

    private static boolean isTooBig(Review review, Wire wire, int net) {
        if (Double.isNaN(wire.sizeMm2()) || wire.sizeMm2() == 0 || !isFed(review, net)) {
            return false;
        }
        Fusing fusing = fusing(review, net);
        double guardA = guardA(review, wire, net);
        return !fusing.isUnfused(net) && !isLead(review, wire) && guardA > ampacityA(review, wire) + 0.5;
    }

    /** Common practice: a short lead is guarded against overload by the fuse, or the resistor, at its end. */
    static boolean isLead(Review review, Wire wire) {
        return wire.lengthM() <= BRANCH_LEAD_M
                && (touches(review, wire, part -> part.kind() == PartKind.FUSE || part.kind() == PartKind.RESISTOR)
                        || touches(review, wire, part -> PrechargeRules.isPrecharge(review, part)));
    }

    private static boolean touches(Review review, Wire wire, Predicate<Part> test) {
        return wire.hasBothEnds()
                && (test.test(review.schedule.parts().get(Wire.partOf(wire.from())))
                        || test.test(review.schedule.parts().get(Wire.partOf(wire.to()))));
    }

    /** What the thickest conductor behind each fuse carries (A): a fuse too large for it too is itself the mistake. */
    private static Map<String, Double> thickestA(Review review) {
        Map<String, Double> thickestA = new HashMap<>();
        for (Wire wire : review.schedule.wires()) {
            int net = review.netOf(wire);
            if (wire.sizeMm2() > 0 && isFed(review, net) && !fusing(review, net).isUnfused(net)) {
                thickestA.merge(fuseName(review, net), ampacityA(review, wire), Math::max);
            }
        }
        return thickestA;
    }

    /** A conductor of less than half the fuse, which also feeds thicker ones and other loads: a branch without its own fuse. */
    private static boolean isBranchOnSharedFuse(Review review, Wire wire, int net, Map<String, Double> thickestA) {
        if (!isTooBig(review, wire, net)) {
            return false;
        }
        int link = fusing(review, net).fuseLink(net);
        boolean shared = link < 0 || feed(review, net).loadsBehind(link) > 1;
        double ampacityA = ampacityA(review, wire);
        return shared
                && fusing(review, net).limitA(net) > 2 * ampacityA
                && thickestA.getOrDefault(fuseName(review, net), 0.0) > 2 * ampacityA;
    }

    public static List<Hit> fuseAboveConductor(Review review) {
        Map<String, Double> thickestA = thickestA(review);
        Map<String, List<Wire>> byFuse = new LinkedHashMap<>();
        for (Wire wire : review.schedule.wires()) {
            int net = review.netOf(wire);
            if (isTooBig(review, wire, net) && !isBranchOnSharedFuse(review, wire, net, thickestA)) {
                String cause = fuseName(review, net) + " is " + text(guardA(review, wire, net), "A");
                byFuse.computeIfAbsent(cause, c -> new ArrayList<>()).add(wire);
            }
        }
        List<Hit> hits = SourceRules.pastItsFuse(review);
        byFuse.forEach((cause, wires) -> {
            Wire thinnest = wires.stream()
                    .min(Comparator.comparingDouble(wire -> ampacityA(review, wire)))
                    .orElseThrow();
            int net = review.netOf(thinnest);
            double ampacityA = ampacityA(review, thinnest);
            String sentence = "Wire " + thinnest.id() + " (" + text(thinnest.sizeMm2(), "mm²") + ") carries at most "
                    + text(ampacityA, "A") + ", but its fuse " + cause + ": the wire burns first."
                    + twin(review, thinnest)
                    + others(wires, thinnest);
            Map<String, Double> numbers =
                    numbersOf("fuse_a", guardA(review, thinnest, net), "ampacity_a", ampacityA, "wires", wires.size());
            hits.add(grouped(review, thinnest, wires, sentence, numbers));
        });
        return hits;
    }

    /** Says that a second wire between the same terminals does not help; empty without one. */
    private static String twin(Review review, Wire wire) {
        return review.schedule.wires().stream()
                .filter(w -> w != wire && w.hasBothEnds())
                .filter(w -> w.from().equals(wire.from()) && w.to().equals(wire.to())
                        || w.from().equals(wire.to()) && w.to().equals(wire.from()))
                .findFirst()
                .map(w -> " " + w.id() + " beside it does not help: once it is broken or loose, nobody notices, and "
                        + wire.id() + " carries everything.")
                .orElse("");
    }

    /** The other wires of one cause, for the end of a sentence. */
    static String others(List<Wire> wires, Wire named) {
        List<String> ids =
                wires.stream().filter(wire -> wire != named).map(Wire::id).toList();
        String more = ids.size() > MOST_NAMED ? " and " + (ids.size() - MOST_NAMED) + " more" : "";
        String names = String.join(", ", ids.subList(0, Math.min(MOST_NAMED, ids.size())));
        return ids.isEmpty() ? "" : " The same holds for " + names + more + ".";
    }

    /** One finding for all wires of one cause. Its place counts them, so that an acceptance does not cover a wire added later. */
    private static Hit grouped(
            Review review, Wire named, List<Wire> wires, String sentence, Map<String, Double> numbers) {
        int net = review.netOf(named);
        Part fuse = wires.size() == 1 || fusing(review, net).isUnfused(net) ? null : fuseOf(review, net);
        if (fuse == null) {
            return Hit.at(named, sentence, numbers);
        }
        Hit atFuse = review.atPart(fuse, sentence, numbers);
        String where = atFuse.where() + " (" + wires.size() + " wires)";
        return new Hit(where, atFuse.file(), atFuse.line(), sentence, numbers);
    }

    /** The fuse that guards a net, also one between packs in series; null when no part of the schedule does. */
    private static Part fuseOf(Review review, int net) {
        int link = fusing(review, net).fuseLink(net);
        return link >= 0
                ? review.circuit.links().get(link).part()
                : review.fuseInside().map(Link::part).orElse(null);
    }

    private static String fuseName(Review review, int net) {
        Part fuse = fuseOf(review, net);
        return fuse == null ? "the fuse inside the pack" : fuse.name();
    }

    public static List<Hit> fuseDiffers(Review review) {
        Map<String, List<Wire>> byCause = new LinkedHashMap<>();
        for (Wire wire : review.schedule.wires()) {
            int net = review.netOf(wire);
            double foundA = isFed(review, net) ? fusing(review, net).limitA(net) : Double.NaN;
            // 0: a fuse lies before it whose rating nobody gives.
            boolean agrees = foundA == 0
                    || Double.isNaN(wire.fuseA())
                    || Double.isNaN(foundA)
                    || Math.abs(foundA - wire.fuseA()) < 0.01;
            if (!agrees && !leadsToSuchAFuse(review, wire)) {
                String cause = fusing(review, net).isUnfused(net)
                        ? "no fuse lies before it in the circuit."
                        : "the fuse before it in the circuit is " + fuseName(review, net) + " of " + text(foundA, "A")
                                + ".";
                String key = "a fuse of " + text(wire.fuseA(), "A") + " beside wire %s, but " + cause;
                byCause.computeIfAbsent(key, c -> new ArrayList<>()).add(wire);
            }
        }
        List<Hit> hits = new ArrayList<>();
        byCause.forEach((cause, wires) -> {
            Wire first = wires.get(0);
            double foundA = fusing(review, review.netOf(first)).limitA(review.netOf(first));
            String sentence =
                    "The schedule writes " + String.format(Locale.ROOT, cause, first.id()) + others(wires, first);
            Map<String, Double> numbers = Double.isInfinite(foundA)
                    ? numbersOf("written_a", first.fuseA(), "wires", wires.size())
                    : numbersOf("written_a", first.fuseA(), "found_a", foundA, "wires", wires.size());
            hits.add(grouped(review, first, wires, sentence, numbers));
        });
        return hits;
    }

    /** A lead up to a fuse may name the fuse that it leads to, or be all that is known of it. */
    private static boolean leadsToSuchAFuse(Review review, Wire wire) {
        for (String end : List.of(wire.from(), wire.to())) {
            Part part = review.schedule.parts().get(Wire.partOf(end));
            boolean fuse = part != null && part.kind() == PartKind.FUSE;
            if (fuse && (Double.isNaN(part.ratedA()) || Math.abs(part.ratedA() - wire.fuseA()) < 0.01)) {
                return true;
            }
        }
        return false;
    }

    public static List<Hit> fuseVoltage(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Link link : review.circuit.links()) {
            boolean traction = review.isTraction(review.circuit.netIn(link));
            double ratedV = link.part().ratedV();
            if (link.kind() == LinkKind.FUSE && traction && ratedV < review.limits.packMaxV()) {
                hits.add(review.atPart(
                        link.part(),
                        "Fuse " + link.part().name() + " is rated for " + text(ratedV, "V") + " d.c., less than the "
                                + text(review.limits.packMaxV(), "V") + " of a full pack: it can melt and keep arcing.",
                        numbersOf("rated_v", ratedV, "pack_v", review.limits.packMaxV())));
            }
        }
        return hits;
    }

    public static List<Hit> overloadedFuse(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int i = 0; i < review.circuit.links().size(); i++) {
            Link link = review.circuit.links().get(i);
            if (link.kind() != LinkKind.FUSE || Double.isNaN(link.part().ratedA())) {
                continue;
            }
            Feed feed = feed(review, review.circuit.netIn(link));
            double drawnA = feed.isBridge(i) ? feed.behindA(i) : 0;
            if (drawnA > link.part().ratedA()) {
                hits.add(review.atPart(
                        link.part(),
                        "The loads behind fuse " + link.part().name() + " draw " + text(drawnA, "A")
                                + ", more than its " + text(link.part().ratedA(), "A") + ".",
                        numbersOf("drawn_a", drawnA, "fuse_a", link.part().ratedA())));
            }
        }
        return hits;
    }

    public static List<Hit> conductorTooSmall(Review review) {
        List<Hit> hits = SourceRules.thinReturn(review);
        for (Wire wire : review.schedule.wires()) {
            if (wire.sizeMm2() > 0 && wire.currentA() > ampacityA(review, wire) + 0.5) {
                double ampacityA = ampacityA(review, wire);
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " is to carry " + text(wire.currentA(), "A") + ", but "
                                + text(wire.sizeMm2(), "mm²") + " stands " + text(ampacityA, "A") + " in air of "
                                + text(review.limits.ambientC(), "°C") + ".",
                        numbersOf("current_a", wire.currentA(), "ampacity_a", ampacityA)));
            }
        }
        return hits;
    }

    public static List<Hit> voltageDrop(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Wire wire : review.schedule.wires()) {
            if (!(wire.sizeMm2() > 0) || !(wire.currentA() > 0) || !(wire.lengthM() > 0)) {
                continue;
            }
            boolean traction = review.isTraction(review.netOf(wire));
            double supplyV = traction ? review.limits.packMaxV() : review.limits.lowVoltageV();
            double dropV = dropV(review, wire);
            double allowedV = review.limits.dropShare() * supplyV;
            if (dropV > allowedV) {
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " loses " + text(dropV, "V") + " at " + text(wire.currentA(), "A")
                                + " there and back, more than the " + text(allowedV, "V") + " allowed.",
                        numbersOf("drop_v", dropV, "allowed_v", allowedV)));
            }
        }
        return hits;
    }
}
