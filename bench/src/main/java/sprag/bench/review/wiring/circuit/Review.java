package sprag.bench.review.wiring.circuit;

import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/** One schedule under review: its circuit, its regions, and what the vehicle asks of it. */
public final class Review {
    public final Schedule schedule;
    public final DrawnCircuit circuit;
    public final Sides sides;
    public final RuleLimits limits;
    /** How power spreads from the pack's plus, and from its minus. */
    public final Feed plusFeed;

    public final Feed minusFeed;
    /** How power spreads from the low-voltage sources. */
    public final Feed lowVoltageFeed;
    /** Which fuse guards each net against the pack, on the plus side. */
    public final Fusing plusFusing;

    public final Fusing minusFusing;
    /** Which fuse guards each net against the 12 V battery. */
    public final Fusing lowVoltageFusing;

    private final Map<PartKind, List<Part>> byKind;

    public Review(Schedule schedule, RuleLimits limits) {
        byKind = schedule.parts().values().stream().collect(Collectors.groupingBy(Part::kind));
        this.schedule = schedule;
        this.limits = limits;
        circuit = new DrawnCircuit(schedule);
        sides = new Sides(circuit);
        plusFeed = new Feed(circuit, sides.plusPoles, Sides.FULL_POWER, "plus");
        minusFeed = new Feed(circuit, sides.minusPoles, Sides.FULL_POWER, "minus");
        lowVoltageFeed = new Feed(circuit, sides.lowVoltageSources, Sides.FULL_POWER, "plus");
        double insideA = fuseInsideA();
        plusFusing = new Fusing(circuit, sides.plusPoles, insideA);
        minusFusing = new Fusing(circuit, sides.minusPoles, insideA);
        lowVoltageFusing = new Fusing(circuit, sides.lowVoltagePoles, Double.POSITIVE_INFINITY);
    }

    /** The smallest fuse between packs in series; infinite without one. */
    private double fuseInsideA() {
        return fuseInside().map(link -> Fusing.ratingA(circuit, link)).orElse(Double.POSITIVE_INFINITY);
    }

    /** The smallest fuse between packs in series. */
    public Optional<Link> fuseInside() {
        return circuit.links().stream()
                .filter(l -> l.kind() == LinkKind.FUSE && sides.middle.get(circuit.netIn(l)))
                .min(Comparator.comparingDouble(l -> Fusing.ratingA(circuit, l)));
    }

    /** Where to look for something about a terminal: the first wire on it. */
    public Hit atTerminal(int terminal, String sentence, Map<String, Double> numbers) {
        Wire wire = circuit.wiresAt(terminal).get(0);
        return new Hit(circuit.terminal(terminal), Schedule.WIRES_FILE, wire.line(), sentence, numbers);
    }

    /** Where to look for something about a part: its row in the list, else its first wire. */
    public Hit atPart(Part part, String sentence, Map<String, Double> numbers) {
        List<Integer> terminals = circuit.terminalsOf(part);
        if (part.isListed() || terminals.isEmpty()) {
            return new Hit(part.name(), Schedule.PARTS_FILE, part.line(), sentence, numbers);
        }
        int line = circuit.wiresAt(terminals.get(0)).get(0).line();
        return new Hit(part.name(), Schedule.WIRES_FILE, line, sentence, numbers);
    }

    /** The net of one of the supervisor's terminals; -1 when no wire has it. */
    public int supervisorNet(String pin) {
        for (Part supervisor : parts(PartKind.SUPERVISOR)) {
            int net = circuit.netOf(supervisor.name() + "." + pin);
            if (net >= 0) {
                return net;
            }
        }
        return -1;
    }

    /** The line of the first wire at a terminal; 0 when there is none. */
    public int lineOf(String terminal) {
        return schedule.wires().stream()
                .filter(wire -> wire.from().equals(terminal) || wire.to().equals(terminal))
                .mapToInt(Wire::line)
                .findFirst()
                .orElse(0);
    }

    /** Whether a net belongs to the traction side, by what it is joined to. */
    public boolean isTraction(int net) {
        return sides.plusSide.get(net) || sides.minusSide.get(net) || sides.middle.get(net);
    }

    /** The net of a wire. */
    public int netOf(Wire wire) {
        return circuit.netOf(wire);
    }

    /** The names of parts in a row, for a sentence. */
    public static String names(List<Part> parts) {
        return parts.stream().map(Part::name).distinct().collect(Collectors.joining(", "));
    }

    /** A region of one net. */
    public static BitSet only(int net) {
        BitSet region = new BitSet();
        if (net >= 0) {
            region.set(net);
        }
        return region;
    }

    /** The parts of a kind, in the order of the list. */
    public List<Part> parts(PartKind kind) {
        return byKind.getOrDefault(kind, List.of());
    }
}
