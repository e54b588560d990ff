package sprag.bench.review.wiring.power;

import static sprag.bench.review.finding.Finding.numbersOf;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;

/**
 * Rules about the way that charges the bus before the main contactor closes.
 *
 * <pre>
 *   pack + --+------ main contactor ------+-- bus
 *            |                            |
 *            +-- relay --- resistor ------+
 * </pre>
 */
public final class PrechargeRules {
    private PrechargeRules() {}

    private static List<Link> resistors(Review review) {
        return review.circuit.links().stream()
                .filter(l -> l.kind() == LinkKind.RESISTOR
                        && (review.isTraction(review.circuit.netIn(l)) || review.isTraction(review.circuit.netOut(l))))
                .toList();
    }

    /** Everything joined to some nets while every contactor and every way through a resistor is open. */
    private static BitSet joinedTo(Review review, BitSet nets) {
        return review.circuit.reach(
                nets, Sides.FULL_POWER.and(l -> !Sides.isContactor(l) && !isPrechargeRelay(review, l)));
    }

    /** A relay whose contact ends at a precharge resistor. */
    private static boolean isPrechargeRelay(Review review, Link link) {
        if (!Sides.isContact(link) || link.part().kind() == PartKind.CONTACTOR) {
            return false;
        }
        return touchesResistor(review, review.circuit.netIn(link))
                || touchesResistor(review, review.circuit.netOut(link));
    }

    /** Whether a relay's contact ends at a precharge resistor. */
    public static boolean isPrecharge(Review review, Part part) {
        return review.circuit.linksOf(part).stream()
                .map(review.circuit.links()::get)
                .anyMatch(link -> isPrechargeRelay(review, link) && review.isTraction(review.circuit.netIn(link)));
    }

    private static boolean touchesResistor(Review review, int net) {
        for (int number : review.circuit.linksAt(net)) {
            if (review.circuit.links().get(number).kind() == LinkKind.RESISTOR) {
                return true;
            }
        }
        return false;
    }

    public static List<Hit> wrongSide(Review review) {
        BitSet[] pack = {joinedTo(review, review.sides.plusPoles), joinedTo(review, review.sides.minusPoles)};
        BitSet[] bus = {
            joinedTo(review, review.circuit.nets(PartKind.INVERTER, "plus")),
            joinedTo(review, review.circuit.nets(PartKind.INVERTER, "minus"))
        };
        if (bus[0].isEmpty() || bus[1].isEmpty()) {
            return List.of();
        }
        List<Hit> hits = new ArrayList<>();
        for (Link resistor : resistors(review)) {
            BitSet ends = ends(review, resistor);
            boolean bridgesPlus = ends.intersects(pack[0]) && ends.intersects(bus[0]);
            boolean bridgesMinus = ends.intersects(pack[1]) && ends.intersects(bus[1]);
            if (bridgesPlus) {
                continue;
            }
            if (bridgesMinus) {
                String sentence = "The precharge way through " + resistor.part().name()
                        + " bridges the negative contactor, but the supervisor closes that contactor first and"
                        + " precharges around the positive one: the bus would be charged through a main contact.";
                hits.add(review.atPart(resistor.part(), sentence, Map.of()));
                continue;
            }
            boolean onPack = ends.intersects(pack[0]) || ends.intersects(pack[1]);
            boolean onBus = ends.intersects(bus[0]) || ends.intersects(bus[1]);
            String where = onPack && onBus
                    ? "on one pole of the pack and the other pole of the bus"
                    : onPack ? "on the pack side" : onBus ? "on the bus side" : "on neither the pack nor the bus";
            hits.add(review.atPart(
                    resistor.part(),
                    "The precharge way through " + resistor.part().name() + " begins and ends " + where
                            + " of the main contactor: the bus is not charged through it.",
                    Map.of()));
        }
        return hits;
    }

    /** The two ends of the precharge way: from the resistor out through its relay, contactors held open. */
    private static BitSet ends(Review review, Link resistor) {
        BitSet ends = Review.only(review.circuit.netIn(resistor));
        ends.set(review.circuit.netOut(resistor));
        return review.circuit.reach(ends, Sides.FULL_POWER.and(l -> isPrechargeRelay(review, l)));
    }

    public static List<Hit> withoutRelay(Review review) {
        List<Hit> hits = new ArrayList<>();
        // A cut-off in the way stays closed while nobody pulls it: it is no relay.
        Predicate<Link> noContact =
                Sides.POWER.and(l -> !Sides.isContact(l) || l.part().kind() == PartKind.CUT_OFF);
        BitSet pack = review.circuit.reach(review.sides.plusPoles, noContact);
        BitSet minus = review.circuit.reach(review.sides.minusPoles, noContact);
        BitSet beyond = review.circuit.nets(PartKind.INVERTER, "plus");
        beyond.or(review.circuit.nets(PartKind.INVERTER, "minus"));
        for (Link resistor : resistors(review)) {
            int in = review.circuit.netIn(resistor);
            int out = review.circuit.netOut(resistor);
            boolean live = pack.get(in) && pack.get(out) || minus.get(in) && minus.get(out);
            if (live && (beyond.intersects(pack) || beyond.intersects(minus))) {
                hits.add(review.atPart(
                        resistor.part(),
                        resistor.part().name()
                                + " joins the pack to the bus without a relay: the bus is live whenever the"
                                + " pack is.",
                        numbersOf("pack_v", review.limits.packMaxV())));
            }
        }
        return hits;
    }

    public static List<Hit> withoutResistor(Review review) {
        List<Hit> hits = new ArrayList<>();
        boolean hasResistor = !resistors(review).isEmpty();
        for (Part part : review.schedule.parts().values()) {
            if (part.kind() == PartKind.RELAY && part.name().contains("precharge")) {
                for (int number : review.circuit.linksOf(part)) {
                    Link link = review.circuit.links().get(number);
                    if (link.kind() == LinkKind.CONTACT && !isPrechargeRelay(review, link)) {
                        hits.add(review.atPart(
                                part,
                                "The contact of " + part.name() + " has no resistor in series"
                                        + (hasResistor ? "" : " (the schedule has none on the traction side)")
                                        + ": closing it onto an empty bus is a short circuit for a moment.",
                                numbersOf("pack_v", review.limits.packMaxV())));
                    }
                }
            }
        }
        return hits;
    }
}
