package sprag.bench.evidence.prove.explore;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

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

    private static final long[] NOTHING = {};
    private static final int MOST_STATES = 1 << 22;
    private static final long MOST_LONGS = 1 << 24;

    private final Map<Script, Integer> number = new HashMap<>();
    private final List<long[]> written = new ArrayList<>();
    private final Shapes states = new Shapes();
    private int[] courseOf = new int[1 << 10];
    private long longs;

    /** A course, written down. */
    private record Script(long[] lines, int hash) {
        static Script of(long[] lines) {
            return new Script(lines, Arrays.hashCode(lines));
        }

        @Override
        public boolean equals(Object other) {
            return other instanceof Script script && hash == script.hash && Arrays.equals(lines, script.lines);
        }

        @Override
        public int hashCode() {
            return hash;
        }
    }

    /** The number of a state's course. Returns a number from 0, {@link #NEW} or {@link #NOT_KEPT}. */
    synchronized int of(long state) {
        int known = states.find(state);
        return known < 0 ? NEW : courseOf[known];
    }

    /** The course of a number, written down; empty for {@link #NEW} and {@link #NOT_KEPT}. Nobody may change it. */
    synchronized long[] lines(int course) {
        return course < 0 ? NOTHING : written.get(course);
    }

    /** The number of a course that is written down. Returns it, or {@link #NOT_KEPT} when enough are kept already. */
    synchronized int numberOf(long[] lines, int length) {
        Script script = Script.of(Arrays.copyOf(lines, length));
        Integer known = number.get(script);
        if (known != null) {
            return known;
        }
        if (longs + length > MOST_LONGS) {
            return NOT_KEPT;
        }
        longs += length;
        number.put(script, written.size());
        written.add(script.lines);
        return written.size() - 1;
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
