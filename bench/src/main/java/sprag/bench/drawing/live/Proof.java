package sprag.bench.drawing.live;

import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;

/** Tries every combination of outputs and switches on a circuit with one fault or none. */
final class Proof {
    /**
     * How a promise is broken.
     *
     * @param combination which controls are set; as few as can be
     * @param greatest whether it takes a coil that held itself, or current through another load
     */
    record Break(BitSet combination, boolean greatest) {}

    /**
     * What came of it.
     *
     * @param breaks the broken promises
     * @param combinations how many positions of all controls that covers
     * @param tried how many had to be told apart
     * @param blown fuses that a short blew before the promises were judged
     */
    record Result(Map<LivePromise, Break> breaks, double combinations, long tried, BitSet blown) {}

    /** More positions than this would take longer than anybody waits. */
    static final int MOST_CONTROLS = 24;

    private static final long NONE_FOUND = -1;
    private static final int LANE_BITS = 6;
    /** Bit i of a lane's number, for all 64 lanes. */
    private static final long[] PATTERN = {
        0xAAAAAAAAAAAAAAAAL,
        0xCCCCCCCCCCCCCCCCL,
        0xF0F0F0F0F0F0F0F0L,
        0xFF00FF00FF00FF00L,
        0xFFFF0000FFFF0000L,
        0xFFFFFFFF00000000L
    };

    private final SwitchCircuit circuit;
    private final View view;
    private final BitSet all = new BitSet();
    private final Map<Netlist.Shape, Map<LivePromise, Break>> known;

    Proof(SwitchCircuit circuit) {
        this(circuit, new ConcurrentHashMap<>());
    }

    /** A proof that knows what others found: many faults leave the same circuit.
     *
     * @param known what was found for each circuit so far; may be shared by threads
     */
    Proof(SwitchCircuit circuit, Map<Netlist.Shape, Map<LivePromise, Break>> known) {
        this.circuit = circuit;
        this.known = known;
        view = new View(circuit);
        for (int c = 0; c < circuit.controls.size(); c++) {
            all.set(c, circuit.controls.get(c).kind() != Control.Kind.FUSE);
        }
    }

    View view() {
        return view;
    }

    /** How many controls have to be tried in both positions. */
    int controlsToTry() {
        return tried(setup(Fault.NOTHING, new BitSet())).length;
    }

    /** How many ways have to be followed for all combinations, 64 of them at once. */
    double steps() {
        Netlist.Setup setup = setup(Fault.NOTHING, new BitSet());
        Netlist netlist = new Netlist(circuit, Fault.NOTHING, setup);
        double words = Math.max(1, Math.pow(2, tried(setup).length - LANE_BITS));
        return 2 * words * (netlist.ways.size() + netlist.loads.size());
    }

    private Netlist.Setup setup(Fault fault, BitSet blown) {
        BitSet rings = FuseRings.possible(circuit, fault, blown);
        Netlist whole = new Netlist(circuit, fault, new Netlist.Setup(with(rings), blown, new BitSet()));
        BitSet dead = whole.deadEnds();
        BitSet free = whole.controlsBeside(dead);
        free.or(rings);
        Arrays.stream(view.premises()).forEach(free::set);
        return new Netlist.Setup(free, blown, dead);
    }

    /** All controls that are tried, and fuses that may have a way round them: those must not be folded away. */
    private BitSet with(BitSet rings) {
        BitSet both = (BitSet) all.clone();
        both.or(rings);
        return both;
    }

    /** The controls that are tried in both positions; fuses stay whole. */
    private int[] tried(Netlist.Setup setup) {
        return setup.free().stream().filter(all::get).toArray();
    }

    /** Tries all combinations. A short blows the weakest fuse on its way first, and everything is tried again without it. */
    Result of(Fault fault) {
        BitSet blown = new BitSet();
        while (true) {
            Result result = run(fault, setup(fault, blown));
            Break shorted =
                    fault.kind() == Fault.Kind.NOTHING ? null : result.breaks().get(LivePromise.NO_SHORT);
            int fuse = shorted == null ? Gate.NONE : new Tracer(circuit, fault, blown).fuseOfShort(shorted);
            if (fuse == Gate.NONE) {
                return result;
            }
            blown.set(fuse);
        }
    }

    /** Tries all combinations without leaving out those that cannot matter; for comparison. */
    Result ofEverything() {
        BitSet rings = FuseRings.possible(circuit, Fault.NOTHING, new BitSet());
        return run(Fault.NOTHING, new Netlist.Setup(with(rings), new BitSet(), new BitSet()));
    }

    private Result run(Fault fault, Netlist.Setup setup) {
        Netlist netlist = new Netlist(circuit, fault, setup);
        Map<LivePromise, Break> breaks = known.get(netlist.shape());
        if (breaks == null) {
            breaks = breaks(netlist, tried(setup));
            known.put(netlist.shape(), breaks);
        }
        double combinations = Math.pow(2, all.cardinality());
        BitSet blown = (BitSet) setup.blown().clone();
        return new Result(breaks, combinations, 1L << tried(setup).length, blown);
    }

    private Map<LivePromise, Break> breaks(Netlist netlist, int... free) {
        Flow flow = new Flow(netlist);
        int high = Math.max(0, free.length - LANE_BITS);
        long valid = free.length >= LANE_BITS ? -1 : (1L << (1 << free.length)) - 1;
        // The number of a combination: bit i says how the i-th free control stands. Fewer bits are nearer to rest.
        Search search = new Search();
        Arrays.stream(view.keys()).forEach(key -> flow.controls()[key] = -1);
        for (long word = 0; word < 1L << high; word++) {
            for (int i = 0; i < free.length; i++) {
                flow.controls()[free[i]] = i < LANE_BITS ? PATTERN[i] : (word >>> (i - LANE_BITS) & 1) == 0 ? 0 : -1;
            }
            for (boolean greatest : new boolean[] {false, true}) {
                flow.solve(greatest);
                judge(flow, word << LANE_BITS, valid, search, greatest);
            }
        }
        Map<LivePromise, Break> breaks = new EnumMap<>(LivePromise.class);
        for (LivePromise promise : LivePromise.values()) {
            int p = promise.ordinal();
            if (search.nearest[p] != NONE_FOUND) {
                BitSet set = new BitSet();
                BitSet.valueOf(new long[] {search.nearest[p]}).stream().forEach(i -> set.set(free[i]));
                breaks.put(promise, new Break(set, search.greatest[p]));
            }
        }
        return breaks;
    }

    /** For each promise the combination nearest to rest that breaks it. */
    private static final class Search {
        private final long[] nearest = new long[LivePromise.values().length];
        private final boolean[] greatest = new boolean[nearest.length];

        Search() {
            Arrays.fill(nearest, NONE_FOUND);
        }

        void found(int promise, long combination, boolean byGreatest) {
            if (nearest[promise] == NONE_FOUND || Long.bitCount(combination) < Long.bitCount(nearest[promise])) {
                nearest[promise] = combination;
                greatest[promise] = byGreatest;
            }
        }
    }

    private void judge(Flow flow, long first, long valid, Search search, boolean greatest) {
        view.at(flow);
        // What two sources against each other do to the rest, no circuit of switches can tell: a fuse decides.
        long judged = valid & ~flow.shorted();
        for (LivePromise promise : LivePromise.values()) {
            long broken = promise.judge.broken(view) & (promise == LivePromise.NO_SHORT ? valid : judged);
            while (broken != 0) {
                search.found(promise.ordinal(), first | Long.numberOfTrailingZeros(broken), greatest);
                broken &= broken - 1;
            }
        }
    }
}
