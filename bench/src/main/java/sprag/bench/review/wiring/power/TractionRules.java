package sprag.bench.review.wiring.power;

import static sprag.bench.cli.Numbers.text;
import static sprag.bench.review.finding.Finding.numbersOf;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
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

/** Rules about the traction side: what it may touch, what must switch it, where its parts sit. */
public final class TractionRules {
    private static final Set<PartKind> SWITCHED =
            Set.of(PartKind.INVERTER, PartKind.DCDC, PartKind.CHARGER, PartKind.HEATER, PartKind.LOAD);
    private static final Predicate<Link> CLOSED_ALWAYS = Sides.FULL_POWER.and(link ->
            !Sides.isContactor(link) && !(Sides.isContact(link) && link.part().kind() == PartKind.RELAY));

    private TractionRules() {}

    public static List<Hit> noPack(Review review) {
        if (!review.sides.plusPoles.isEmpty() && !review.sides.minusPoles.isEmpty()) {
            return List.of();
        }
        String sentence =
                "No terminal pack.plus and pack.minus of a part of the kind pack is wired, so where the traction"
                        + " voltage goes cannot be followed.";
        return List.of(new Hit("pack", Schedule.WIRES_FILE, 0, sentence, Map.of()));
    }

    public static List<Hit> pinRating(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Wire wire : review.schedule.wires()) {
            int net = review.netOf(wire);
            if (wire.voltageClass() == VoltageClass.TRACTION || review.isTraction(net)) {
                pinRating(review, wire, wire.from(), wire.fromPinV(), hits);
                pinRating(review, wire, wire.to(), wire.toPinV(), hits);
            }
        }
        return hits;
    }

    private static void pinRating(Review review, Wire wire, String terminal, double ratedV, List<Hit> hits) {
        double packV = review.limits.packMaxV();
        if (ratedV < packV) {
            String sentence = "Net " + wire.net() + " can carry " + text(packV, "V") + ", but terminal " + terminal
                    + " is rated for " + text(ratedV, "V") + ".";
            hits.add(new Hit(
                    terminal,
                    Schedule.WIRES_FILE,
                    wire.line(),
                    sentence,
                    numbersOf("net_v", packV, "terminal_rated_v", ratedV)));
        }
    }

    public static List<Hit> wrongClass(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Wire wire : review.schedule.wires()) {
            boolean traction = review.isTraction(review.netOf(wire));
            boolean lowVoltage = review.sides.lowVoltageSide.get(review.netOf(wire));
            if (traction && wire.voltageClass() != VoltageClass.TRACTION) {
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " (net " + wire.net()
                                + ") is joined to the traction pack, yet the schedule" + " calls it "
                                + wire.voltageClass().word + ".",
                        numbersOf("net_v", review.limits.packMaxV())));
            } else if (!traction && lowVoltage && wire.voltageClass() == VoltageClass.TRACTION) {
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " (net " + wire.net() + ") is called traction, yet it is joined to the"
                                + " low-voltage supply and not to the pack."));
            }
        }
        return hits;
    }

    public static List<Hit> shorted(Review review) {
        BitSet both = (BitSet) review.sides.plusSide.clone();
        both.and(review.sides.minusSide);
        if (both.isEmpty()) {
            return List.of();
        }
        int net = both.nextSetBit(0);
        Wire wire = review.schedule.wires().stream()
                .filter(w -> review.netOf(w) == net)
                .findFirst()
                .orElseThrow();
        List<Part> way = review.circuit.way(review.sides.plusPoles, review.sides.minusPoles.nextSetBit(0), Sides.POWER);
        String through = way.isEmpty() ? "directly" : "through " + Review.names(way) + " and no load";
        boolean resistor = way.stream().anyMatch(part -> part.kind() == PartKind.RESISTOR);
        String meant =
                resistor ? " A resistor that discharges the bus is a part of the kind load, with plus and minus." : "";
        return List.of(Hit.at(
                wire,
                "The pack's plus and minus are joined " + through + "; net " + wire.net() + " belongs to both."
                        + meant));
    }

    public static List<Hit> polarity(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            Part part = review.circuit.part(t);
            if (!part.kind().isLoad()) {
                continue;
            }
            int net = review.circuit.netOf(t);
            boolean plusPin = review.circuit.pin(t).equals("plus");
            boolean minusPin = review.circuit.pin(t).equals("minus");
            boolean onPlus = review.sides.plusSide.get(net);
            boolean onMinus = review.sides.minusSide.get(net);
            if (onPlus != onMinus && (plusPin && onMinus || minusPin && onPlus)) {
                hits.add(review.atTerminal(
                        t,
                        "Terminal " + review.circuit.terminal(t) + " is wired to the pack's "
                                + (onPlus ? "plus" : "minus") + ": the polarity is reversed.",
                        numbersOf("pack_v", review.limits.packMaxV())));
            }
        }
        return hits;
    }

    public static List<Hit> notOrange(Review review) {
        if (!review.limits.isDangerous()) {
            return List.of();
        }
        List<Hit> hits = new ArrayList<>();
        for (Wire wire : review.schedule.wires()) {
            boolean traction = wire.voltageClass() == VoltageClass.TRACTION || review.isTraction(review.netOf(wire));
            if (traction && !wire.colour().contains("orange")) {
                String colour = wire.colour().isEmpty() ? "without a colour in the schedule" : wire.colour();
                hits.add(Hit.at(
                        wire,
                        "Traction wire " + wire.id() + " is " + colour + "; at " + text(review.limits.packMaxV(), "V")
                                + " its covering must be orange.",
                        numbersOf("net_v", review.limits.packMaxV())));
            }
        }
        return hits;
    }

    public static List<Hit> poleNotSwitched(Review review) {
        List<Hit> hits = new ArrayList<>();
        BitSet plusLive = review.circuit.reach(review.sides.plusPoles, CLOSED_ALWAYS);
        BitSet minusLive = review.circuit.reach(review.sides.minusPoles, CLOSED_ALWAYS);
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            Part part = review.circuit.part(t);
            String pin = review.circuit.pin(t);
            boolean live = pin.equals("plus") && plusLive.get(review.circuit.netOf(t))
                    || pin.equals("minus") && minusLive.get(review.circuit.netOf(t));
            if (live && SWITCHED.contains(part.kind()) && !mayStayOnPack(review, part.kind())) {
                hits.add(review.atTerminal(
                        t,
                        "Terminal " + review.circuit.terminal(t) + " stays joined to the pack's " + pin
                                + " with every contactor open.",
                        numbersOf("pack_v", review.limits.packMaxV())));
            }
        }
        return hits;
    }

    private static boolean mayStayOnPack(Review review, PartKind kind) {
        return kind == PartKind.CHARGER && !review.limits.chargerOnBus()
                || kind == PartKind.DCDC && !review.limits.dcdcOnBus();
    }

    public static List<Hit> wrongSide(Review review) {
        // A relay of its own does not move a part to the bus: only the contactors separate the two.
        Predicate<Link> besideContactors = Sides.FULL_POWER.and(link -> !Sides.isContactor(link));
        BitSet onPack = review.circuit.reach(review.sides.plusPoles, besideContactors);
        BitSet minusOnPack = review.circuit.reach(review.sides.minusPoles, besideContactors);
        // Without a contactor in the negative line both sides are one there.
        boolean twoPoles = !minusOnPack.intersects(review.circuit.nets(PartKind.INVERTER, "minus"));
        List<Hit> hits = new ArrayList<>();
        for (PartKind kind : List.of(PartKind.CHARGER, PartKind.DCDC)) {
            boolean saidOnBus = kind == PartKind.CHARGER ? review.limits.chargerOnBus() : review.limits.dcdcOnBus();
            String key = kind == PartKind.CHARGER ? "charger.side" : "dcdc.side";
            for (Part part : review.parts(kind)) {
                int plus = review.circuit.netOf(part.name() + ".plus");
                int minus = review.circuit.netOf(part.name() + ".minus");
                boolean plusAstray = plus >= 0 && review.sides.plusSide.get(plus) && onPack.get(plus) == saidOnBus;
                boolean minusAstray = twoPoles
                        && minus >= 0
                        && review.sides.minusSide.get(minus)
                        && minusOnPack.get(minus) == saidOnBus;
                if (plusAstray || minusAstray) {
                    hits.add(review.atPart(
                            part,
                            "The vehicle's file says " + key + " = \"" + (saidOnBus ? "bus-side" : "pack-side")
                                    + "\", but " + part.name() + (plusAstray ? "" : ".minus") + " is wired to the "
                                    + (saidOnBus ? "pack side" : "bus side") + " of the "
                                    + (plusAstray ? "main" : "negative") + " contactor.",
                            Map.of()));
                }
            }
        }
        boolean parted = twoPoles && !onPack.intersects(review.circuit.nets(PartKind.INVERTER, "plus"));
        List<Part> across = new ArrayList<>(review.parts(PartKind.HEATER));
        across.addAll(review.parts(PartKind.ISOLATION_MONITOR));
        for (Part part : parted ? across : List.<Part>of()) {
            int plus = review.circuit.netOf(part.name() + ".plus");
            int minus = review.circuit.netOf(part.name() + ".minus");
            if (plus >= 0 && minus >= 0 && onPack.get(plus) != minusOnPack.get(minus)) {
                hits.add(review.atPart(
                        part,
                        "One pole of " + part.name() + " lies on the pack side and the other on the bus side: it stays"
                                + " live with one of the main contactors open.",
                        Map.of()));
            }
        }
        return hits;
    }

    public static List<Hit> beforeShunt(Review review) {
        boolean measured = !review.parts(PartKind.SHUNT).isEmpty()
                || !review.parts(PartKind.CURRENT_SENSOR).isEmpty();
        if (!measured) {
            return List.of();
        }
        Predicate<Link> unmeasured = Sides.FULL_POWER.and(link -> link.kind() != LinkKind.SHUNT);
        BitSet plus = review.circuit.reach(review.sides.plusPoles, unmeasured);
        BitSet minus = review.circuit.reach(review.sides.minusPoles, unmeasured);
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            int plusNet = review.circuit.netOf(part.name() + ".plus");
            int minusNet = review.circuit.netOf(part.name() + ".minus");
            boolean both = plusNet >= 0 && minusNet >= 0 && plus.get(plusNet) && minus.get(minusNet);
            if (both && part.kind().isLoad() && !part.kind().onlyMeasures()) {
                hits.add(review.atPart(
                        part,
                        part.name() + " is wired to the battery side of the current measurement: its current is never"
                                + " counted, and the state of charge drifts.",
                        Double.isNaN(part.ratedA()) ? Map.of() : numbersOf("uncounted_a", part.ratedA())));
            }
        }
        return hits;
    }
}
