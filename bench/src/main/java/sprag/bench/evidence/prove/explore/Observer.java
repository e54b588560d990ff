package sprag.bench.evidence.prove.explore;

/**
 * A promise over more than one step: a small machine that watches a stepper and remembers a few bits.
 *
 * @param <T> the stepper, whose fields show the step just taken
 */
public interface Observer<T> {
    /** Returned by {@link #next} when the promise is broken; the memory then starts again from 0. */
    int BROKEN = -1;

    /** A short name. */
    String name();

    /** What is wrong when it is broken. */
    String explanation();

    /** The bits of memory it needs. 1 to 16. */
    int bits();

    /**
     * Whether a step like this could make it remember or break anything while it remembers nothing. May look only at
     * what {@link Stepper#shape} tells. Returns false when {@link #next} of memory 0 is 0.
     */
    default boolean concerns(T step) {
        return true;
    }

    /** Whether a step was one in which the promise could have been broken: without such a step, it says nothing. Asked for each
     * step that it watches and that does not break it. Asks nothing of {@link Choices}.
     */
    default boolean applies(int memory, T step) {
        return memory != 0;
    }

    /**
     * Whether a memory is a count that goes on: after any step {@link #next} gives one more, or 0, and gives that for every
     * memory of which this says so.
     */
    default boolean countsOn(int memory) {
        return false;
    }

    /** Watches the step just taken. May ask {@link Choices} for more, which is then branched on too.
     *
     * @param memory what it remembered, 0 at first
     * @return what to remember, or {@link #BROKEN}
     */
    int next(int memory, T step);
}
