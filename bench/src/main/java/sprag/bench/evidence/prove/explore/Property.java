package sprag.bench.evidence.prove.explore;

/**
 * Something that must be true of every step.
 *
 * @param <T> the stepper, whose fields show the step just taken
 */
public interface Property<T> {
    /** A short name. */
    String name();

    /** What is wrong when it does not hold. */
    String explanation();

    /**
     * Whether a step like this could break it. May look only at what {@link Stepper#shape} tells. Returns false when
     * {@link #holds} need not be asked.
     */
    default boolean concerns(T step) {
        return true;
    }

    /**
     * Judges the step just taken. May ask {@link Choices} for more, which is then branched on too. Returns false when
     * the property is broken.
     */
    boolean holds(T step);
}
