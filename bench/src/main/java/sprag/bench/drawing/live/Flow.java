package sprag.bench.drawing.live;

import java.util.Arrays;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Pole;
import sprag.bench.drawing.live.element.Potential;

/**
 * What every net is joined to, for 64 combinations at once: each bit of a long is one combination.
 *
 * <p>Two answers bracket the truth. The least one starts with every coil released and lets a coil pull only when its two ends
 * surely differ. The greatest one starts with every coil pulled, and lets a coil hold when current may reach it through
 * another load. What holds itself, and what a way through a lamp may hold, differ between the two.
 */
final class Flow {
    private static final int KINDS = Potential.COUNT;
    private static final int PLUS = Potential.PACK_PLUS.ordinal();
    private static final int MIDDLE = Potential.PACK_MIDDLE.ordinal();
    private static final int MINUS = Potential.PACK_MINUS.ordinal();
    private static final int LAST_OF_PACK = MINUS;
    private static final int LINE = Potential.LINE.ordinal();
    private static final int NEUTRAL = Potential.NEUTRAL.ordinal();
    private static final int LOW = Potential.LOW_VOLTAGE.ordinal();
    private static final int FIVE = Potential.SENSOR.ordinal();
    private static final int GROUND = Potential.GROUND.ordinal();

    final Netlist netlist;
    /** Joined by full current: one long for each net and potential, net by net. */
    final long[] hard;
    /** Joined at least through a load. */
    final long[] soft;
    /** Works, by consumer. */
    final long[] fed;
    /** Whether every coil was released to begin with. */
    private boolean fromRest;

    /** Combinations in which coils go on pulling and releasing each other. */
    long unsettled;

    /** The ways of the net list as arrays: they are walked many thousand times. */
    private final Netlist.Way[] ways;

    private final Netlist.Way[] loads;
    /** For each net the first and the last potential that can reach it at all: no other is looked for there. */
    private final int[] first;

    private final int[] last;
    private final long[] controls;
    private final long[] before;
    private final long[] restless;
    private final long[] wayMask;
    private final long[] held;
    private final long[] heldByPack;

    Flow(Netlist netlist) {
        this.netlist = netlist;
        hard = new long[netlist.netCount * KINDS];
        soft = new long[netlist.netCount * KINDS];
        fed = new long[netlist.circuit.consumers.size()];
        before = new long[fed.length];
        restless = new long[fed.length];
        ways = netlist.ways.toArray(new Netlist.Way[0]);
        loads = netlist.loads.toArray(new Netlist.Way[0]);
        wayMask = new long[ways.length];
        first = new int[netlist.netCount];
        last = new int[netlist.netCount];
        netlist.boundPotentials(first, last);
        held = new long[netlist.netCount];
        heldByPack = new long[netlist.netCount];
        controls = new long[netlist.circuit.controls.size()];
    }

    /** The position of each control in each of the 64 combinations. */
    long[] controls() {
        return controls;
    }

    /** Settles the circuit. */
    void solve(boolean greatest) {
        Arrays.fill(fed, greatest ? -1 : 0);
        fromRest = !greatest;
        settle(greatest);
    }

    /** All combinations when every coil was released to begin with, none otherwise. */
    long fromRest() {
        return fromRest ? -1 : 0;
    }

    /** Settles the circuit from the coils as they stand in one combination, so that what holds itself goes on holding. */
    void follow(int lane) {
        for (int c = 0; c < fed.length; c++) {
            fed[c] = -(fed[c] >>> lane & 1);
        }
        settle(false);
    }

    /** Makes one combination remember what another one did. */
    void carryOver(int from, int to) {
        for (int c = 0; c < fed.length; c++) {
            fed[c] = fed[c] & ~(1L << to) | (fed[c] >>> from & 1) << to;
        }
    }

    /** Whether a consumer goes on changing in a combination that never settles. */
    boolean isRestless(int consumer, int lane) {
        return ((unsettled & restless[consumer]) >>> lane & 1) != 0;
    }

    private void settle(boolean greatest) {
        for (int round = 0; round <= fed.length + 2; round++) {
            step(greatest);
            if (unsettled == 0) {
                break;
            }
        }
        if (unsettled != 0) {
            findCircles(greatest);
        }
        if (!greatest) {
            spreadThroughLoads();
        }
    }

    /** One round: currents by the coils as they stand, and then the coils by the currents. */
    private void step(boolean greatest) {
        System.arraycopy(fed, 0, before, 0, fed.length);
        spread();
        if (greatest) {
            spreadThroughLoads();
        }
        feed(greatest);
        unsettled = 0;
        for (int c = 0; c < fed.length; c++) {
            unsettled |= fed[c] ^ before[c];
        }
    }

    /** Whoever still moves after as many rounds as there are coils goes on for ever. */
    private void findCircles(boolean greatest) {
        Arrays.fill(restless, 0);
        long ever = unsettled;
        for (int round = 0; round <= fed.length; round++) {
            step(greatest);
            for (int c = 0; c < fed.length; c++) {
                restless[c] |= fed[c] ^ before[c];
            }
        }
        unsettled = ever;
    }

    private void spread() {
        Arrays.fill(hard, 0);
        for (Pole pole : netlist.poles) {
            hard[pole.node() * KINDS + pole.potential().ordinal()] |=
                    pole.gate().mask(controls, fed);
        }
        for (int w = 0; w < wayMask.length; w++) {
            wayMask[w] = ways[w].gate().mask(controls, fed);
        }
        boolean onwards = true;
        while (evenAll(hard, onwards)) {
            onwards = !onwards;
        }
    }

    /** Once along all ways, in one order and then in the other: current finds its way in fewer rounds. */
    private boolean evenAll(long[] reach, boolean onwards) {
        boolean more = false;
        int end = wayMask.length - 1;
        for (int i = 0; i <= end; i++) {
            int w = onwards ? i : end - i;
            more |= wayMask[w] != 0 && even(reach, ways[w], wayMask[w]);
        }
        return more;
    }

    /**
     * Through a load a potential reaches only what nothing holds firmly. The pack touches no other circuit, so that what holds a net on
     * the 12 V side does not hold it against the pack.
     */
    private void spreadThroughLoads() {
        System.arraycopy(hard, 0, soft, 0, hard.length);
        for (int net = 0; net < held.length; net++) {
            heldByPack[net] = hard[net * KINDS + PLUS] | hard[net * KINDS + MIDDLE] | hard[net * KINDS + MINUS];
            held[net] = heldByOthers(net);
        }
        boolean onwards = true;
        while (liftAll() | evenAll(soft, onwards)) {
            onwards = !onwards;
        }
    }

    private boolean liftAll() {
        boolean more = false;
        for (Netlist.Way load : loads) {
            more |= lift(load.a(), load.b());
            more |= lift(load.b(), load.a());
        }
        return more;
    }

    private boolean even(long[] reach, Netlist.Way way, long mask) {
        int a = way.a() * KINDS;
        int b = way.b() * KINDS;
        int end = last[way.a()];
        long changed = 0;
        for (int p = first[way.a()]; p <= end; p++) {
            long differ = (reach[a + p] ^ reach[b + p]) & mask;
            reach[a + p] |= differ;
            reach[b + p] |= differ;
            changed |= differ;
        }
        return changed != 0;
    }

    private boolean lift(int from, int to) {
        int begin = first[to];
        int end = last[to];
        boolean packWanted = begin <= LAST_OF_PACK && heldByPack[to] != -1;
        boolean othersWanted = end > LAST_OF_PACK && held[to] != -1;
        if (!packWanted && !othersWanted) {
            return false;
        }
        long changed = 0;
        for (int p = begin; p <= end; p++) {
            long free = p <= LAST_OF_PACK ? ~heldByPack[to] : ~held[to];
            long gain = soft[from * KINDS + p] & free & ~soft[to * KINDS + p];
            soft[to * KINDS + p] |= gain;
            changed |= gain;
        }
        return changed != 0;
    }

    private long heldByOthers(int net) {
        long any = 0;
        for (int p = LAST_OF_PACK + 1; p < KINDS; p++) {
            any |= hard[net * KINDS + p];
        }
        return any;
    }

    private void feed(boolean greatest) {
        long[] reach = greatest ? soft : hard;
        long chain = chain();
        for (int c = 0; c < fed.length; c++) {
            Consumer each = netlist.circuit.consumers.get(c);
            int a = netlist.net[each.a()] * KINDS;
            int b = netlist.net[each.b()] * KINDS;
            int plus = each.kind().plus;
            int minus = each.kind().minus;
            long works = netlist.net[each.a()] == netlist.net[each.b()]
                    ? 0
                    : reach[a + plus] & reach[b + minus] | reach[a + minus] & reach[b + plus];
            fed[c] = each.kind() == Consumer.Kind.TRACTION ? works & chain : works;
        }
    }

    /** Where the packs of a string hang together. */
    long chain() {
        long whole = -1;
        for (int end : netlist.circuit.chainEnds) {
            whole &= hard(end, Potential.PACK_MIDDLE);
        }
        return whole;
    }

    long hard(int node, Potential potential) {
        return hard[netlist.net[node] * KINDS + potential.ordinal()];
    }

    long soft(int node, Potential potential) {
        return soft[netlist.net[node] * KINDS + potential.ordinal()];
    }

    /** Where two sources stand against each other on some net without a load between. */
    long shorted() {
        long found = 0;
        for (int net = 0; net < netlist.netCount; net++) {
            found |= shortedAt(net);
        }
        return found;
    }

    long shortedAt(int net) {
        int n = net * KINDS;
        long plus = hard[n + PLUS];
        long middle = hard[n + MIDDLE];
        long minus = hard[n + MINUS];
        long low = hard[n + LOW];
        long five = hard[n + FIVE];
        long ground = hard[n + GROUND];
        long pack = plus & minus | minus & middle;
        return (pack == 0 ? 0 : pack & chain())
                | plus & middle
                | low & (ground | five)
                | five & ground
                | hard[n + LINE] & hard[n + NEUTRAL];
    }

    /** Where a source other than ground is joined to a net. */
    long liveAt(int net) {
        long live = 0;
        for (int p = 0; p < GROUND; p++) {
            live |= hard[net * KINDS + p];
        }
        return live;
    }

    /** Where some net is joined to the traction side and to something else, if only through a load. */
    long mixed() {
        long found = 0;
        for (int net = 0; net < netlist.netCount; net++) {
            found |= mixedAt(net);
        }
        return found;
    }

    long mixedAt(int net) {
        int n = net * KINDS;
        long traction = soft[n + PLUS] | soft[n + MIDDLE] | soft[n + MINUS];
        long mains = soft[n + LINE] | soft[n + NEUTRAL];
        long low = soft[n + LOW] | soft[n + FIVE] | soft[n + GROUND];
        return traction & (mains | low) | mains & low;
    }
}
