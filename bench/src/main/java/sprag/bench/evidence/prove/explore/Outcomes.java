package sprag.bench.evidence.prove.explore;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * What came of each course with each set of memories, with certain watchers. For one machine at a time, and for machines with
 * equal watchers over steppers whose courses are numbered together.
 */
final class Outcomes {
    private static final long MOST_LONGS = 1 << 24;

    private final Outcomes before;
    private final Shapes numbers = new Shapes();
    private final List<Outcome> known = new ArrayList<>();
    private long longs;

    /** Begins with what others have found. They may not learn any more meanwhile. Null for nothing. */
    Outcomes(Outcomes before) {
        this.before = before;
    }

    /** What came of one course with one set of memories, for a range of counts.
     *
     * @param next the successors, with the least counts
     * @param counting which counts go on in each of them, one bit each
     * @param different the first branch to each different successor
     * @param events what was noted
     * @param branch the first branch at which each of these was noted
     * @param other the outcome for other counts, null for none
     */
    record Outcome(
            long[] next,
            byte[] counting,
            int[] different,
            BitSet events,
            int[] branch,
            int least,
            int most,
            Outcome other) {
        static Outcome of(long[] next, byte[] counting, Successors seen, int least, int most) {
            BitSet events = seen.noted();
            int[] branch = events.stream().map(seen::branchOf).toArray();
            return new Outcome(next, counting, different(next, counting), events, branch, least, most, null);
        }

        private static int[] different(long[] next, byte[] counting) {
            int[] different = new int[next.length];
            int count = 0;
            for (int i = 0; i < next.length; i++) {
                int same = 0;
                while (same < count && (next[different[same]] != next[i] || counting[different[same]] != counting[i])) {
                    same++;
                }
                if (same == count) {
                    different[count++] = i;
                }
            }
            return Arrays.copyOf(different, count);
        }

        private Outcome beside(Outcome first) {
            return new Outcome(next, counting, different, events, branch, least, most, first);
        }

        void tell(long[] sum, Successors out) {
            if (out.wantsEveryBranch()) {
                for (int i = 0; i < next.length; i++) {
                    out.add(next[i] + sum[counting[i]]);
                }
            } else {
                for (int i : different) {
                    out.add(next[i] + sum[counting[i]]);
                }
                out.leaveOut(next.length - different.length);
            }
            if (out.looksFor(events)) {
                int i = 0;
                for (int event = events.nextSetBit(0); event >= 0; event = events.nextSetBit(event + 1)) {
                    out.noteAt(event, branch[i++]);
                }
            }
        }
    }

    /** What came of a course with memories, both in one number, with this count. Null when that is not known. */
    Outcome find(long which, int count) {
        Outcome earlier = before == null ? null : before.find(which, count);
        if (earlier != null) {
            return earlier;
        }
        int at = numbers.find(which);
        for (Outcome each = at < 0 ? null : known.get(at); each != null; each = each.other) {
            if (each.least <= count && count <= each.most) {
                return each;
            }
        }
        return null;
    }

    /** Keeps an outcome, unless enough are kept already. */
    void keep(long which, Outcome outcome) {
        longs += outcome.next.length;
        if (longs > MOST_LONGS) {
            return;
        }
        int at = numbers.find(which);
        if (at < 0) {
            numbers.add(which);
            known.add(outcome);
        } else {
            known.set(at, outcome.beside(known.get(at)));
        }
    }
}
