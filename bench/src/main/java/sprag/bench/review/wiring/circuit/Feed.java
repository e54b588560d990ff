package sprag.bench.review.wiring.circuit;

import java.util.Arrays;
import java.util.BitSet;
import java.util.function.Predicate;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;

/**
 * How power spreads from some sources: which links are the only way to what lies behind them, and what draws there.
 *
 * <p>One walk finds all bridges (Tarjan, 1974) and, behind each, the sum of what the loads draw. A link that is not a
 * bridge can be by-passed: opening it opens nothing.
 */
public final class Feed {
    private final DrawnCircuit circuit;
    private final Predicate<Link> passes;
    private final String loadPin;
    private final int[] entered;
    private final int[] lowest;
    private final int[] byLink;
    private final int[] nextLink;
    private final double[] drawnA;
    private final int[] loads;
    private final boolean[] bridge;
    private final double[] behindA;
    private final int[] loadsBehind;
    private int clock;

    /** Walks from the sources; they count as one. Loads are counted by the terminal that faces the source. */
    public Feed(DrawnCircuit circuit, BitSet sources, Predicate<Link> passes, String loadPin) {
        this.circuit = circuit;
        this.passes = passes;
        this.loadPin = loadPin;
        int nets = circuit.netCount();
        entered = new int[nets];
        lowest = new int[nets];
        byLink = new int[nets];
        nextLink = new int[nets];
        drawnA = new double[nets];
        loads = new int[nets];
        int links = circuit.links().size();
        bridge = new boolean[links];
        behindA = new double[links];
        loadsBehind = new int[links];
        Arrays.fill(byLink, -1);
        countLoads();
        // The sources hang together, so all are entered first and share one number.
        clock = 1;
        for (int n = sources.nextSetBit(0); n >= 0; n = sources.nextSetBit(n + 1)) {
            entered[n] = 1;
            lowest[n] = 1;
        }
        for (int n = sources.nextSetBit(0); n >= 0; n = sources.nextSetBit(n + 1)) {
            walk(n);
        }
    }

    private void countLoads() {
        for (int t = 0; t < circuit.terminalCount(); t++) {
            Part part = circuit.part(t);
            if (part.kind().isLoad() && circuit.pin(t).equals(loadPin)) {
                loads[circuit.netOf(t)]++;
                // A charger gives; it does not draw.
                boolean draws = part.kind() != PartKind.CHARGER && !Double.isNaN(part.ratedA());
                drawnA[circuit.netOf(t)] += draws ? part.ratedA() : 0;
            }
        }
    }

    private void walk(int start) {
        int[] stack = new int[circuit.netCount() + 1];
        int depth = 0;
        stack[0] = start;
        while (depth >= 0) {
            int net = stack[depth];
            int[] links = circuit.linksAt(net);
            if (nextLink[net] < links.length) {
                int link = links[nextLink[net]++];
                if (link != byLink[net] && passes.test(circuit.links().get(link))) {
                    int other = circuit.across(link, net);
                    if (entered[other] == 0) {
                        entered[other] = ++clock;
                        lowest[other] = clock;
                        byLink[other] = link;
                        stack[++depth] = other;
                    } else {
                        lowest[net] = Math.min(lowest[net], entered[other]);
                    }
                }
            } else {
                depth--;
                if (depth >= 0) {
                    close(net, stack[depth]);
                }
            }
        }
    }

    private void close(int net, int parent) {
        int link = byLink[net];
        lowest[parent] = Math.min(lowest[parent], lowest[net]);
        bridge[link] = lowest[net] > entered[parent];
        behindA[link] = drawnA[net];
        loadsBehind[link] = loads[net];
        drawnA[parent] += drawnA[net];
        loads[parent] += loads[net];
    }

    /** Whether power gets to a net at all. */
    public boolean reaches(int net) {
        return entered[net] > 0;
    }

    /** Whether a link is the only way to what lies behind it. */
    public boolean isBridge(int link) {
        return bridge[link];
    }

    /** What the loads behind a bridge draw together (A). */
    public double behindA(int link) {
        return behindA[link];
    }

    /** How many loads lie behind a bridge. */
    public int loadsBehind(int link) {
        return loadsBehind[link];
    }
}
