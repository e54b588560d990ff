package sprag.bench.drawing.live;

import java.util.Arrays;
import java.util.BitSet;
import java.util.function.ToLongFunction;
import java.util.stream.IntStream;
import sprag.bench.drawing.live.element.Link;

/** Ways round a fuse: what it guards stays live when it has blown, because another fuse feeds it backwards, or none at all. */
final class FuseRings {
    private final Netlist netlist;
    private final Netlist.Way[] fuses;

    FuseRings(Netlist netlist) {
        this.netlist = netlist;
        fuses = IntStream.range(0, netlist.circuit.links.size())
                .filter(l -> netlist.circuit.links.get(l).sort() == Link.Sort.FUSE && netlist.keeps(l))
                .mapToObj(netlist::way)
                .toArray(Netlist.Way[]::new);
    }

    /** The controls of fuses with a way round them while every contact is closed. No other fuse has one in any combination. */
    static BitSet possible(SwitchCircuit circuit, Fault fault, BitSet blown) {
        BitSet all = new BitSet();
        all.set(0, circuit.controls.size());
        FuseRings rings = new FuseRings(new Netlist(circuit, fault, new Netlist.Setup(all, blown, new BitSet())));
        BitSet possible = new BitSet();
        Arrays.stream(rings.fuses)
                .filter(fuse -> rings.round(fuse, -1, way -> -1) != 0)
                .forEach(fuse -> possible.set(fuse.gate().control()));
        return possible;
    }

    /** Where some fuse that a source reaches has a way round it. */
    long bypassed(Flow flow) {
        long found = 0;
        for (Netlist.Way fuse : fuses) {
            found |= bypassed(flow, fuse);
        }
        return found;
    }

    /** The links of the fuses that have a way round them in the first combination. */
    int[] bypassedFirst(Flow flow) {
        return Arrays.stream(fuses)
                .filter(fuse -> (bypassed(flow, fuse) & 1) != 0)
                .mapToInt(Netlist.Way::link)
                .toArray();
    }

    private long bypassed(Flow flow, Netlist.Way fuse) {
        return round(fuse, flow.liveAt(fuse.a()), way -> way.gate().mask(flow.controls(), flow.fed));
    }

    /** Where the far end of a fuse is reached from its near end by ways that are not its own. */
    private long round(Netlist.Way fuse, long from, ToLongFunction<Netlist.Way> conducts) {
        long[] reached = new long[netlist.netCount];
        reached[fuse.a()] = from;
        boolean more = from != 0;
        while (more) {
            more = false;
            for (Netlist.Way way : netlist.ways) {
                long differ = way.gate().control() == fuse.gate().control()
                        ? 0
                        : (reached[way.a()] ^ reached[way.b()]) & conducts.applyAsLong(way);
                reached[way.a()] |= differ;
                reached[way.b()] |= differ;
                more |= differ != 0;
            }
        }
        return reached[fuse.b()];
    }
}
