package sprag.bench.evidence.prove.explore;

import java.util.function.Predicate;

/**
 * A bounded response: an answer must come within a number of steps after a cause.
 *
 * <p>The step that shows the cause is step 0 and may already show the answer. While one cause waits for its answer,
 * further causes do not start the count again.
 *
 * @param explanation what is wrong when the answer does not come
 * @param steps how many steps after the cause the answer may come at the latest, 0 to 32,766
 * @param cause what starts the count
 */
public record Within<T>(String name, String explanation, int steps, Predicate<T> cause, Predicate<T> answer)
        implements Observer<T> {
    private static final int MOST_STEPS = (1 << 15) - 2;

    /** Checks the number of steps. */
    public Within {
        if (steps < 0 || steps > MOST_STEPS) {
            throw new IllegalArgumentException(name + ": " + steps + " steps is outside 0.." + MOST_STEPS);
        }
    }

    @Override
    public int bits() {
        return Math.max(1, Integer.SIZE - Integer.numberOfLeadingZeros(steps));
    }

    @Override
    public boolean countsOn(int memory) {
        return memory > 0 && memory < steps;
    }

    /** The memory is the number of steps for which the answer has been awaited; 0 when none is. */
    @Override
    public int next(int memory, T step) {
        boolean awaited = memory > 0 || cause.test(step);
        if (!awaited || answer.test(step)) {
            return 0;
        }
        return memory == steps ? BROKEN : memory + 1;
    }
}
