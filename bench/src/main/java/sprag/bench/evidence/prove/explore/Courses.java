package sprag.bench.evidence.prove.explore;

import java.util.Arrays;
import java.util.HashMap;
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

    private static final int MOST_STATES = 1 << 22;
    private static final long MOST_LONGS = 1 << 24;

    private final Map<Script, Integer> number = new HashMap<>();
    private final Shapes states = new Shapes();
    private int[] courseOf = new int[1 << 10];
    private long longs;

    /** A course, written down. */
    private record Script(long[] lines, int hash) {
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

    /** Keeps the course of a new state.
     *
     * @param lines where the course is written, null when it is too long
     * @param length how many of the lines
     * @return its number, or {@link #NOT_KEPT}
     */
    synchronized int keep(long state, long[] lines, int length) {
        int known = of(state);
        if (known != NEW) {
            return known; // another thread was faster
        }
        int course = lines == null ? NOT_KEPT : number(Arrays.copyOf(lines, length));
        int at = states.size();
        if (at < MOST_STATES) {
            states.add(state);
            if (at == courseOf.length) {
                courseOf = Arrays.copyOf(courseOf, 2 * at);
            }
            courseOf[at] = course;
        }
        return course;
    }

    private int number(long[] lines) {
        Script script = new Script(lines, Arrays.hashCode(lines));
        Integer known = number.get(script);
        if (known != null) {
            return known;
        }
        if (longs + lines.length > MOST_LONGS) {
            return NOT_KEPT;
        }
        longs += lines.length;
        number.put(script, number.size());
        return number.size() - 1;
    }

    /** How many different courses are kept. */
    synchronized int size() {
        return number.size();
    }
}
