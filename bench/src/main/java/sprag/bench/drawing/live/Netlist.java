package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Link;
import sprag.bench.drawing.live.element.Pole;
import sprag.bench.drawing.live.element.Potential;

/** A circuit with one fault, folded: nodes that always hang together are one net, ways that never conduct are gone. */
final class Netlist {
    /**
     * What is settled before combinations are tried.
     *
     * @param free controls that are tried in both positions; the others stay at rest
     * @param blown links that do not conduct: fuses that have melted
     * @param closed links that count as closed because they lead nowhere
     */
    record Setup(BitSet free, BitSet blown, BitSet closed) {}

    /**
     * All that decides what can happen. Two faults with the same shape break the same promises.
     *
     * @param nets the net of each node
     * @param free controls that are tried in both positions
     * @param ways ways with full current
     * @param loads ways with less current
     * @param poles where sources are
     */
    record Shape(List<Integer> nets, BitSet free, List<Way> ways, List<Way> loads, List<Pole> poles) {}

    /** A way with full current between two nets. */
    record Way(int a, int b, Gate gate, int link) {}

    final SwitchCircuit circuit;
    final int[] net;
    final int netCount;
    final List<Way> ways = new ArrayList<>();
    /** Ways with less current. */
    final List<Way> loads = new ArrayList<>();

    final List<Pole> poles = new ArrayList<>();
    private final Fault fault;
    private final Setup setup;
    private final int[] joined;

    Netlist(SwitchCircuit circuit, Fault fault, Setup setup) {
        this.circuit = circuit;
        this.fault = fault;
        this.setup = setup;
        joined = new int[circuit.nodes.size()];
        Arrays.setAll(joined, i -> i);
        joinWires();
        Gate[] folded = new Gate[circuit.links.size()];
        for (int l = 0; l < folded.length; l++) {
            Link link = circuit.links.get(l);
            folded[l] = gateOf(l);
            if (folded[l] == Gate.ALWAYS && link.sort() != Link.Sort.LOAD) {
                join(link.a(), link.b());
            }
        }
        net = new int[joined.length];
        Map<Integer, Integer> compact = new HashMap<>();
        for (int n = 0; n < net.length; n++) {
            net[n] = compact.computeIfAbsent(root(n), r -> compact.size());
        }
        netCount = compact.size();
        addWays(folded);
    }

    private void joinWires() {
        for (int w = 0; w < circuit.wires.size(); w++) {
            if (fault.kind() != Fault.Kind.BROKEN || fault.index() != w) {
                join(circuit.wires.get(w).a(), circuit.wires.get(w).b());
            }
        }
        circuit.joints.forEach(joint -> Arrays.stream(joint).forEach(node -> join(joint[0], node)));
        if (fault.kind() == Fault.Kind.CHAFED || fault.kind() == Fault.Kind.BRIDGED) {
            join(fault.a(), fault.b());
        }
    }

    private void addWays(Gate[] folded) {
        for (int l = 0; l < folded.length; l++) {
            Link link = circuit.links.get(l);
            boolean between = net[link.a()] != net[link.b()];
            if (folded[l] != null && between) {
                List<Way> list = link.sort() == Link.Sort.LOAD ? loads : ways;
                list.add(new Way(net[link.a()], net[link.b()], folded[l], l));
            }
        }
        for (Pole pole : circuit.poles) {
            Gate gate = fold(pole.gate());
            if (gate != null) {
                poles.add(new Pole(pole.potential(), net[pole.node()], gate));
            }
        }
    }

    /** Whether a link is neither folded away nor open for ever. */
    boolean keeps(int link) {
        Gate gate = gateOf(link);
        return gate != null && gate != Gate.ALWAYS;
    }

    /** The way of a link; both its ends may be one net. */
    Way way(int link) {
        Link each = circuit.links.get(link);
        return new Way(net[each.a()], net[each.b()], gateOf(link), link);
    }

    /** The gate of a link under this fault; null when it never conducts. */
    private Gate gateOf(int link) {
        boolean faulty = fault.index() == link;
        if (setup.blown().get(link) || faulty && fault.kind() == Fault.Kind.STUCK_OPEN) {
            return null;
        }
        if (setup.closed().get(link) || faulty && fault.kind() == Fault.Kind.STUCK_CLOSED) {
            return Gate.ALWAYS;
        }
        return fold(circuit.links.get(link).gate());
    }

    private Gate fold(Gate gate) {
        if (gate.control() == Gate.NONE || setup.free().get(gate.control())) {
            return gate.control() == Gate.NONE && gate.consumer() == Gate.NONE ? Gate.ALWAYS : gate;
        }
        if (!gate.opens()) {
            return null;
        }
        return gate.consumer() == Gate.NONE
                ? Gate.ALWAYS
                : new Gate(Gate.NONE, false, gate.consumer(), gate.releases());
    }

    private void join(int a, int b) {
        joined[root(a)] = root(b);
    }

    private int root(int node) {
        int at = node;
        while (joined[at] != at) {
            joined[at] = joined[joined[at]];
            at = joined[at];
        }
        return at;
    }

    /** The shape of this circuit. */
    Shape shape() {
        return new Shape(Arrays.stream(net).boxed().toList(), setup.free(), ways, loads, poles);
    }

    /** For each net the first and the last potential that can reach it when every way conducts. */
    void boundPotentials(int[] first, int[] last) {
        Arrays.fill(first, Potential.COUNT);
        Arrays.fill(last, Gate.NONE);
        for (Pole pole : poles) {
            first[pole.node()] = Math.min(first[pole.node()], pole.potential().ordinal());
            last[pole.node()] = Math.max(last[pole.node()], pole.potential().ordinal());
        }
        boolean more = true;
        while (more) {
            more = false;
            for (List<Way> list : List.of(ways, loads)) {
                for (Way way : list) {
                    int least = Math.min(first[way.a()], first[way.b()]);
                    int most = Math.max(last[way.a()], last[way.b()]);
                    more |= first[way.a()] + first[way.b()] > 2 * least || last[way.a()] + last[way.b()] < 2 * most;
                    first[way.a()] = least;
                    first[way.b()] = least;
                    last[way.a()] = most;
                    last[way.b()] = most;
                }
            }
        }
    }

    /** Whether two nodes always hang together. */
    boolean joins(int a, int b) {
        return net[a] == net[b];
    }

    /**
     * Links to nets at which nothing else hangs. No current goes through them to anywhere, so that their position changes
     * nothing but the voltage of that end. Ways that lead only to such ends are found too.
     */
    BitSet deadEnds() {
        int[] degree = new int[netCount];
        for (Way load : loads) {
            degree[load.a()] += 2;
            degree[load.b()] += 2;
        }
        poles.forEach(pole -> degree[pole.node()] += 2);
        circuit.chainEnds.forEach(end -> degree[net[end]] += 2);
        circuit.wakes.forEach(terminal -> degree[net[terminal]] += 2);
        for (Consumer consumer : circuit.consumers) {
            degree[net[consumer.a()]] += 2;
            degree[net[consumer.b()]] += 2;
        }
        for (Way way : ways) {
            degree[way.a()]++;
            degree[way.b()]++;
        }
        BitSet dead = new BitSet();
        boolean more = true;
        while (more) {
            more = false;
            for (Way way : ways) {
                if (!dead.get(way.link()) && (degree[way.a()] == 1 || degree[way.b()] == 1)) {
                    dead.set(way.link());
                    degree[way.a()]--;
                    degree[way.b()]--;
                    more = true;
                }
            }
        }
        return dead;
    }

    /** The controls that ways outside some links depend on. */
    BitSet controlsBeside(BitSet links) {
        BitSet used = new BitSet();
        for (Way way : ways) {
            if (!links.get(way.link()) && way.gate().control() != Gate.NONE) {
                used.set(way.gate().control());
            }
        }
        for (Pole pole : poles) {
            if (pole.gate().control() != Gate.NONE) {
                used.set(pole.gate().control());
            }
        }
        return used;
    }
}
