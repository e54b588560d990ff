package sprag.bench.evidence.prove.explore;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.evidence.prove.explore.Recollection.Likeness;

/**
 * Numbers for courses. The course of a state is all that can come of its step, whatever the world answers: every question,
 * every answer, the shape of each step and the state after it, with the count of the state left aside.
 *
 * <p>While a machine waits, one state follows another that differs in its count alone. Most of them have one course. Two
 * states get one number only when all of their courses was compared and is equal.
 *
 * <p>Shared by machines over equal steppers, in any thread.
 */
public final class Courses {
    /** Said of a state that has not been looked at. */
    static final int NEW = -1;
    /** Said of a state whose course is not kept, because it is too long or because enough are kept already. */
    static final int NOT_KEPT = -2;

    private static final int MOST_STATES = 1 << 22;
    private static final long MOST_LONGS = 1 << 24;

    private final Map<Script, Integer> number = new HashMap<>();
    private final List<long[]> written = new ArrayList<>();
    private final Shapes states = new Shapes();
    private int[] courseOf = new int[1 << 10];
    private long longs;
    private final List<BitSet> noted = new ArrayList<>();
    private final Courses before;
    private final Likeness likeness;
    private final int first;

    /** Begins with nothing. */
    public Courses() {
        this(null, null);
    }

    /** Begins with the courses of another stepper, of which nothing more may be learnt meanwhile; null for none. */
    Courses(Courses before, Likeness likeness) {
        this.before = before;
        this.likeness = likeness;
        first = before == null ? 0 : before.first + before.written.size();
    }

    /** A course, written down. */
    private record Script(long[] lines) {
        @Override
        public boolean equals(Object other) {
            return other instanceof Script script && Arrays.equals(lines, script.lines);
        }

        @Override
        public int hashCode() {
            return Arrays.hashCode(lines);
        }
    }

    /** The number of a state's course. Returns a number from 0, {@link #NEW} or {@link #NOT_KEPT}. */
    synchronized int of(long state) {
        return look(state);
    }

    private int look(long state) {
        int at = states.find(state);
        if (at >= 0) {
            return courseOf[at];
        }
        int earlier = before == null ? NEW : before.look(state);
        if (earlier < 0 || !likeness.sameStep(state, before.noted(earlier))) {
            return NEW;
        }
        keep(state, earlier);
        return earlier;
    }

    private BitSet noted(int course) {
        return course < first ? before.noted(course) : noted.get(course - first);
    }

    /** The number of the course that a state is likely to have: that of its neighbour, or what it was with the other stepper. */
    synchronized int likely(long state, long neighbour) {
        int near = neighbour == state ? NEW : look(neighbour);
        int earlier = near >= first || before == null ? NEW : before.look(state);
        return earlier < 0 ? near : earlier;
    }

    /** The course of a number, written down; empty for {@link #NEW} and {@link #NOT_KEPT}. Nobody may change it. */
    synchronized long[] lines(int course) {
        if (course < 0) {
            return new long[0];
        }
        return course < first ? before.lines(course) : written.get(course - first);
    }

    /**
     * The number of a course that is written down, with the labels noted in it. Returns it, or {@link #NOT_KEPT} when enough are
     * kept already.
     */
    synchronized int numberOf(long[] lines, int length, BitSet labels) {
        Script script = new Script(Arrays.copyOf(lines, length));
        int known = find(script);
        if (known != NEW) {
            return known;
        }
        if (longs + length > MOST_LONGS) {
            return NOT_KEPT;
        }
        longs += length;
        number.put(script, first + written.size());
        written.add(script.lines);
        noted.add(labels);
        return first + written.size() - 1;
    }

    private int find(Script script) {
        int known = number.getOrDefault(script, NEW);
        return known == NEW && before != null ? before.find(script) : known;
    }

    /** Keeps the number of a state's course, or that it is {@link #NOT_KEPT}. */
    synchronized void keep(long state, int course) {
        int at = states.size();
        if (states.find(state) >= 0) {
            return; // another thread was faster
        }
        if (at < MOST_STATES) {
            states.add(state);
            if (at == courseOf.length) {
                courseOf = Arrays.copyOf(courseOf, 2 * at);
            }
            courseOf[at] = course;
        }
    }

    /** How many different courses are kept. */
    synchronized int size() {
        return written.size();
    }
}
