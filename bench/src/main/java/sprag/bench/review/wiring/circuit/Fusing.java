package sprag.bench.review.wiring.circuit;

import java.util.Arrays;
import java.util.BitSet;
import java.util.PriorityQueue;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * Which fuse guards each net: of all ways from a source, the one whose smallest fuse is largest decides, since a fault
 * takes every way that stays closed.
 */
public final class Fusing {
    private final DrawnCircuit circuit;
    private final double[] limitA;
    private final int[] fuse;

    /**
     * Spreads from the sources.
     *
     * @param sourceLimitA what a fuse inside the source lets through; infinite without one. It counts up to the first fuse outside.
     */
    public Fusing(DrawnCircuit circuit, BitSet sources, double sourceLimitA) {
        this.circuit = circuit;
        this.limitA = new double[circuit.netCount()];
        this.fuse = new int[circuit.netCount()];
        Arrays.fill(limitA, -1);
        Arrays.fill(fuse, -1);
        spread(sources, sourceLimitA);
    }

    private record Step(double limitA, int net) implements Comparable<Step> {
        @Override
        public int compareTo(Step other) {
            return Double.compare(other.limitA, limitA);
        }
    }

    private void spread(BitSet sources, double sourceLimitA) {
        PriorityQueue<Step> queue = new PriorityQueue<>();
        for (int n = sources.nextSetBit(0); n >= 0; n = sources.nextSetBit(n + 1)) {
            limitA[n] = sourceLimitA;
            queue.add(new Step(sourceLimitA, n));
        }
        while (!queue.isEmpty()) {
            Step step = queue.remove();
            if (step.limitA < limitA[step.net]) {
                continue;
            }
            for (int number : circuit.linksAt(step.net)) {
                Link link = circuit.links().get(number);
                if (Sides.FULL_POWER.test(link)) {
                    offer(queue, step, number, link);
                }
            }
        }
    }

    private void offer(PriorityQueue<Step> queue, Step step, int number, Link link) {
        boolean melts = link.kind() == LinkKind.FUSE;
        double ratedA = melts ? ratingA(circuit, link) : Double.POSITIVE_INFINITY;
        int next = circuit.across(number, step.net);
        // A short of one box of the pack does not go through the fuse of another: the first fuse outside decides alone.
        boolean first = melts && fuse[step.net] < 0;
        double throughA = first ? ratedA : Math.min(step.limitA, ratedA);
        if (throughA > limitA[next]) {
            limitA[next] = throughA;
            fuse[next] = first || melts && ratedA <= step.limitA ? number : fuse[step.net];
            queue.add(new Step(throughA, next));
        }
    }

    /** A fuse's rating: the list of parts, else the least that the schedule writes at its wires; 0 when nobody says. */
    public static double ratingA(DrawnCircuit circuit, Link link) {
        if (!Double.isNaN(link.part().ratedA())) {
            return link.part().ratedA();
        }
        double leastA = Double.POSITIVE_INFINITY;
        for (int terminal : new int[] {link.inTerminal(), link.outTerminal()}) {
            for (Wire wire : circuit.wiresAt(terminal)) {
                leastA = Double.isNaN(wire.fuseA()) ? leastA : Math.min(leastA, wire.fuseA());
            }
        }
        return Double.isInfinite(leastA) ? 0 : leastA;
    }

    /** Whether power gets to a net at all, resistors left aside. */
    public boolean reaches(int net) {
        return limitA[net] >= 0;
    }

    /** Whether power gets to a net without any fuse on the way. */
    public boolean isUnfused(int net) {
        return limitA[net] == Double.POSITIVE_INFINITY;
    }

    /** The rating of the fuse that guards a net (A); 0 when it is unknown. */
    public double limitA(int net) {
        return limitA[net];
    }

    /** The link of the fuse that guards a net; -1 when it lies inside the source. */
    public int fuseLink(int net) {
        return fuse[net];
    }
}
