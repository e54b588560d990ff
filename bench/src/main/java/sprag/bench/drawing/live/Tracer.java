package sprag.bench.drawing.live;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Link;
import sprag.bench.drawing.live.element.Pole;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.Wire;

/** Follows current through wires and parts in one combination, to say which way it takes. */
final class Tracer {
    /** A step from one node to the next. */
    private record Step(int from, int to, String words, int link) {}

    private final SwitchCircuit circuit;
    private final Fault fault;
    private final BitSet blown;
    private Flow flow;
    private List<List<Step>> steps;
    private long lane = 1;

    Tracer(SwitchCircuit circuit, Fault fault, BitSet blown) {
        this.circuit = circuit;
        this.fault = fault;
        this.blown = blown;
    }

    /** Settles one combination; its result is in bit 0. */
    Flow settle(Proof.Break broken) {
        BitSet free = new BitSet();
        free.set(0, circuit.controls.size());
        flow = new Flow(new Netlist(circuit, fault, new Netlist.Setup(free, blown, new BitSet())));
        Arrays.fill(flow.controls(), 0);
        broken.combination().stream().forEach(c -> flow.controls()[c] = -1);
        flow.solve(broken.greatest());
        steps = steps();
        return flow;
    }

    /** Takes over a circuit that is settled already.
     *
     * @param only which combination, one bit
     */
    void look(Flow settled, long only) {
        flow = settled;
        lane = only;
        steps = steps();
    }

    int fuseOfShort(Proof.Break broken) {
        settle(broken);
        return fuseOfShort();
    }

    /** The weakest fuse on the way of a short; {@link Gate#NONE} when no fuse lies in it. */
    int fuseOfShort() {
        for (Potential potential : Potential.values()) {
            List<Step> way = shortFrom(potential);
            int weakest = Gate.NONE;
            for (Step step : way) {
                boolean fuse = step.link() != Gate.NONE
                        && circuit.links.get(step.link()).sort() == Link.Sort.FUSE;
                if (fuse && (weakest == Gate.NONE || ratingA(step.link()) < ratingA(weakest))) {
                    weakest = step.link();
                }
            }
            if (weakest != Gate.NONE) {
                return weakest;
            }
        }
        return Gate.NONE;
    }

    private double ratingA(int link) {
        double rated = circuit.links.get(link).ratingA();
        return Double.isNaN(rated) ? Double.MAX_VALUE : rated;
    }

    /** The way of a short, wire by wire; empty when there is none. */
    List<String> shortWay(Proof.Break broken) {
        settle(broken);
        for (Potential potential : Potential.values()) {
            List<Step> way = shortFrom(potential);
            if (!way.isEmpty()) {
                return words(way);
            }
        }
        return List.of();
    }

    private List<Step> shortFrom(Potential potential) {
        for (Pole pole : circuit.poles) {
            boolean there = pole.potential() == potential
                    && (pole.gate().mask(flow.controls(), flow.fed) & lane) != 0
                    && (flow.shortedAt(flow.netlist.net[pole.node()]) & lane) != 0;
            if (there) {
                for (Pole other : circuit.poles) {
                    if (other.potential() != potential) {
                        List<Step> way = way(pole.node(), other.node());
                        if (!way.isEmpty()) {
                            return way;
                        }
                    }
                }
            }
        }
        return List.of();
    }

    /** The way from the source of a potential to a node; empty when there is none. */
    List<String> wayTo(Potential potential, int node) {
        for (Pole pole : circuit.poles) {
            if (pole.potential() == potential && (pole.gate().mask(flow.controls(), flow.fed) & lane) != 0) {
                List<Step> way = way(pole.node(), node);
                if (!way.isEmpty()) {
                    return words(way);
                }
            }
        }
        return List.of();
    }

    /** The way from one end of a link to the other without it. */
    List<String> wayRound(int link) {
        return words(way(circuit.links.get(link).a(), circuit.links.get(link).b(), link));
    }

    private static List<String> words(List<Step> way) {
        List<String> words = new ArrayList<>();
        for (Step step : way) {
            if (words.isEmpty() || !words.get(words.size() - 1).equals(step.words())) {
                words.add(step.words());
            }
        }
        return words;
    }

    private List<Step> way(int from, int to) {
        return way(from, to, Gate.NONE - 1);
    }

    private List<Step> way(int from, int to, int without) {
        Step[] by = new Step[circuit.nodes.size()];
        Deque<Integer> queue = new ArrayDeque<>();
        queue.add(from);
        while (!queue.isEmpty() && by[to] == null) {
            for (Step step : steps.get(queue.remove())) {
                if (by[step.to()] == null && step.to() != from && step.link() != without) {
                    by[step.to()] = step;
                    queue.add(step.to());
                }
            }
        }
        List<Step> way = new ArrayList<>();
        for (int at = to; by[at] != null; at = by[at].from()) {
            way.add(0, by[at]);
        }
        return way;
    }

    private List<List<Step>> steps() {
        List<List<Step>> steps = new ArrayList<>();
        circuit.nodes.forEach(n -> steps.add(new ArrayList<>()));
        for (int w = 0; w < circuit.wires.size(); w++) {
            if (fault.kind() != Fault.Kind.BROKEN || fault.index() != w) {
                SwitchCircuit.Conductor wire = circuit.wires.get(w);
                both(steps, new Step(wire.a(), wire.b(), wire.wire().id(), Gate.NONE));
            }
        }
        for (int[] joint : circuit.joints) {
            String part = Wire.partOf(circuit.nodes.get(joint[0]).name());
            for (int i = 1; i < joint.length; i++) {
                both(steps, new Step(joint[0], joint[i], part, Gate.NONE));
            }
        }
        if (fault.kind() == Fault.Kind.CHAFED || fault.kind() == Fault.Kind.BRIDGED) {
            both(steps, new Step(fault.a(), fault.b(), fault.words(), Gate.NONE));
        }
        for (int l = 0; l < circuit.links.size(); l++) {
            Link link = circuit.links.get(l);
            boolean stuck = fault.index() == l && fault.kind() == Fault.Kind.STUCK_CLOSED;
            boolean never = blown.get(l) || fault.index() == l && fault.kind() == Fault.Kind.STUCK_OPEN;
            boolean conducts = stuck || !never && (link.gate().mask(flow.controls(), flow.fed) & lane) != 0;
            if (conducts && link.sort() != Link.Sort.LOAD) {
                both(steps, new Step(link.a(), link.b(), link.part(), l));
            }
        }
        return steps;
    }

    private static void both(List<List<Step>> steps, Step step) {
        steps.get(step.from()).add(step);
        steps.get(step.to()).add(new Step(step.to(), step.from(), step.words(), step.link()));
    }
}
