package sprag.bench.review.wiring;

import static sprag.bench.cli.Numbers.text;
import static sprag.bench.review.finding.Finding.numbersOf;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.Part.Duty;
import sprag.bench.review.wiring.schedule.Part.Suppression;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Wire;

/** Rules about parts in the wrong place, the wrong way round, or used for what they are not made for. */
final class PlacementRules {
    private static final Set<PartKind> CARRY = EnumSet.of(
            PartKind.INLET,
            PartKind.CONNECTOR,
            PartKind.CONTACTOR,
            PartKind.RELAY,
            PartKind.CUT_OFF,
            PartKind.SHUNT,
            PartKind.CURRENT_SENSOR,
            PartKind.SWITCH,
            PartKind.KEY);
    /** With these a coil works one way round only: a diode conducts, an economiser is destroyed. */
    private static final Set<Suppression> POLARISED =
            EnumSet.of(Suppression.DIODE, Suppression.ZENER, Suppression.BUILT_IN);

    private static final Set<PartKind> MAINS_PARTS = EnumSet.of(PartKind.INLET, PartKind.CHARGER);

    private PlacementRules() {}

    static List<Hit> currentReversed(Review review) {
        BitSet poles = (BitSet) review.sides.plusPoles.clone();
        poles.or(review.sides.minusPoles);
        List<Hit> hits = new ArrayList<>();
        for (PartKind kind : List.of(PartKind.SHUNT, PartKind.CURRENT_SENSOR)) {
            for (Part part : review.parts(kind)) {
                int pack = review.circuit.netOf(part.name() + ".pack");
                int load = review.circuit.netOf(part.name() + ".load");
                BitSet before = review.circuit.reach(
                        poles, Sides.FULL_POWER.and(l -> l.part() != part && !Sides.isContactor(l)));
                if (pack >= 0 && load >= 0 && before.get(load) && !before.get(pack)) {
                    hits.add(review.atPart(
                            part,
                            "Terminal " + part.name() + ".load faces the pack and " + part.name()
                                    + ".pack the loads: current out of the pack is measured as current into it.",
                            Map.of()));
                }
            }
        }
        return hits;
    }

    static List<Hit> serviceSwitchOnBus(Review review) {
        BitSet poles = (BitSet) review.sides.plusPoles.clone();
        poles.or(review.sides.minusPoles);
        BitSet packSide = review.circuit.reach(poles, Sides.FULL_POWER.and(l -> !Sides.isContactor(l)));
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.parts(PartKind.CUT_OFF)) {
            boolean beyond = review.circuit.linksOf(part).stream()
                    .map(review.circuit.links()::get)
                    .anyMatch(l -> Sides.isContact(l)
                            && review.isTraction(review.circuit.netIn(l))
                            && !review.sides.middle.get(review.circuit.netIn(l))
                            && !packSide.get(review.circuit.netIn(l))
                            && !packSide.get(review.circuit.netOut(l)));
            if (beyond) {
                hits.add(review.atPart(
                        part,
                        part.name()
                                + " lies on the bus side of the contactors: with it open, everything on the pack side"
                                + " stays live.",
                        numbersOf("pack_v", review.limits.packMaxV())));
            }
        }
        return hits;
    }

    static List<Hit> sharedConnector(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.parts(PartKind.CONNECTOR)) {
            int traction = 0;
            int other = 0;
            for (int t : review.circuit.terminalsOf(part)) {
                boolean isTraction = review.isTraction(review.circuit.netOf(t));
                traction += isTraction ? 1 : 0;
                other += isTraction ? 0 : 1;
            }
            if (traction > 0 && other > 0) {
                hits.add(review.atPart(
                        part,
                        "Connector " + part.name() + " has " + traction + " traction terminals and " + other
                                + " of other circuits: give each side its own connector.",
                        numbersOf("traction_terminals", traction, "other_terminals", other)));
            }
        }
        return hits;
    }

    static List<Hit> unknownTerminal(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            Part part = review.circuit.part(t);
            if (!part.kind().hasTerminal(review.circuit.pin(t))) {
                hits.add(review.atTerminal(
                        t,
                        "Terminal " + review.circuit.terminal(t) + " is none that a part of the kind "
                                + part.kind().word() + " has (" + part.kind().terminals
                                + "): no rule can follow what is wired to it.",
                        Map.of()));
            }
        }
        return hits;
    }

    static List<Hit> overloaded(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            if (!CARRY.contains(part.kind()) || Double.isNaN(part.ratedA())) {
                continue;
            }
            for (int t : review.circuit.terminalsOf(part)) {
                String pin = review.circuit.pin(t);
                double mostA = review.circuit.wiresAt(t).stream()
                        .mapToDouble(Wire::currentA)
                        .filter(a -> !Double.isNaN(a))
                        .max()
                        .orElse(0);
                if (!pin.startsWith("coil") && !pin.startsWith("sense") && mostA > part.ratedA()) {
                    hits.add(review.atPart(
                            part,
                            "A wire at " + review.circuit.terminal(t) + " is to carry " + text(mostA, "A") + ", but "
                                    + part.name() + " is rated for " + text(part.ratedA(), "A") + ".",
                            numbersOf("current_a", mostA, "rated_a", part.ratedA())));
                    break;
                }
            }
        }
        return hits;
    }

    static List<Hit> mainsCrossed(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            String pin = review.circuit.pin(t);
            boolean live = pin.equals("line") || pin.equals("neutral");
            if (!live || !MAINS_PARTS.contains(review.circuit.part(t).kind())) {
                continue;
            }
            int net = review.circuit.netOf(t);
            String wrong = review.sides.ground.get(net) || isOn(review, net, "earth")
                    ? "the chassis or the protective earth"
                    : review.sides.lowVoltageSide.get(net)
                            ? "the 12 V supply"
                            : review.isTraction(net) ? "the traction side" : "";
            if (!wrong.isEmpty()) {
                hits.add(review.atTerminal(
                        t, "Terminal " + review.circuit.terminal(t) + " is joined to " + wrong + ".", Map.of()));
            } else if (pin.equals("line") && isOn(review, net, "neutral")) {
                hits.add(review.atTerminal(
                        t,
                        "Terminal " + review.circuit.terminal(t) + " is joined to a terminal for the neutral.",
                        Map.of()));
            }
        }
        return hits;
    }

    private static boolean isOn(Review review, int net, String pin) {
        return MAINS_PARTS.stream()
                .anyMatch(kind -> review.circuit.nets(kind, pin).get(net));
    }

    /** The blower must run whenever the supervisor asks, or the heater's element glows in standing air. */
    static List<Hit> blowerInterrupted(Review review) {
        int command = review.supervisorNet("heater_blower");
        List<Hit> hits = new ArrayList<>();
        for (Part blower : review.parts(PartKind.LOAD)) {
            boolean commanded = command >= 0
                    && review.circuit.terminalsOf(blower).stream().anyMatch(t -> review.circuit.netOf(t) == command);
            if (commanded || blower.name().contains("blower")) {
                interrupting(review, blower, review.sides.lowVoltageSources, ".plus", hits);
                interrupting(review, blower, review.sides.ground, ".minus", hits);
            }
        }
        return hits;
    }

    private static void interrupting(Review review, Part blower, BitSet from, String pin, List<Hit> hits) {
        int net = review.circuit.netOf(blower.name() + pin);
        if (net < 0) {
            return;
        }
        for (Part part : review.circuit.way(from, net, Sides.FULL_POWER)) {
            if (part.kind() == PartKind.SWITCH || part.kind() == PartKind.TIMER) {
                hits.add(review.atPart(
                        part,
                        "The contact of " + part.name() + " lies in series with " + blower.name()
                                + ": it can stop the blower while the heater's element is on.",
                        Map.of()));
            }
        }
    }

    static List<Hit> contactBridged(Review review) {
        int[] region = review.circuit.regions(Sides.FIXED);
        List<Hit> hits = new ArrayList<>();
        for (Link link : review.circuit.links()) {
            // A contact that must hold off on its own is judged by the rule of contacts in parallel.
            boolean contact = link.kind() == LinkKind.CONTACT && link.part().effectiveDuty() != Duty.HOLDS_OFF;
            boolean other = link.kind() == LinkKind.FUSE || link.kind() == LinkKind.SHUNT;
            int in = review.circuit.netIn(link);
            int out = review.circuit.netOut(link);
            if (contact && region[in] == region[out] || other && in == out) {
                hits.add(review.atPart(
                        link.part(),
                        (contact ? "The contact of " : "") + link.part().name() + " from "
                                + review.circuit.terminal(link.inTerminal()) + " to "
                                + review.circuit.terminal(link.outTerminal())
                                + " is bridged: "
                                + (contact
                                        ? "opening it opens nothing."
                                        : link.kind() == LinkKind.FUSE ? "it guards nothing." : "it measures nothing."),
                        Map.of()));
            }
        }
        return hits;
    }

    static List<Hit> coilReversed(Review review) {
        BitSet supply = review.circuit.reach(review.sides.lowVoltageSources, Sides.FULL_POWER);
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            int plus = review.circuit.netOf(part.name() + ".coil_plus");
            int minus = review.circuit.netOf(part.name() + ".coil_minus");
            if (!part.kind().hasCoil() || plus < 0 || minus < 0 || !POLARISED.contains(part.suppression())) {
                continue;
            }
            boolean fromMinus = supply.get(minus) && !supply.get(plus);
            boolean intoPlus = review.sides.ground.get(plus) && !review.sides.ground.get(minus);
            if (fromMinus || intoPlus) {
                hits.add(review.atPart(
                        part,
                        "The coil of " + part.name() + " is fed at coil_minus, but its suppression ("
                                + part.suppression().word() + ") works one way round only.",
                        Map.of()));
            }
        }
        return hits;
    }

    /** One finding for each kind of pair: a crossing makes every other terminal of the bus wrong as well. */
    static List<Hit> pairCrossed(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (TwistedPair pair : TwistedPair.values()) {
            BitSet one = netsOf(review, pair.one());
            BitSet other = netsOf(review, pair.other());
            one.and(other);
            int net = one.nextSetBit(0);
            if (net >= 0) {
                Wire wire = review.schedule.wires().stream()
                        .filter(w -> w.hasBothEnds() && review.netOf(w) == net)
                        .filter(w -> pair.crosses(w.from(), w.to()))
                        .findFirst()
                        .orElseGet(() -> review.schedule.wires().stream()
                                .filter(w -> review.netOf(w) == net)
                                .findFirst()
                                .orElseThrow());
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " belongs to a net that joins terminals " + pair.one()
                                + " with terminals " + pair.other() + ": the pair is crossed."));
            }
        }
        return hits;
    }

    private static BitSet netsOf(Review review, String pin) {
        return review.circuit.nets(t -> !review.circuit.part(t).kind().isJoint()
                && review.circuit.pin(t).equals(pin));
    }
}
