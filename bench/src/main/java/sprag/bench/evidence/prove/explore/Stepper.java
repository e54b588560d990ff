package sprag.bench.evidence.prove.explore;

/**
 * A machine written as one step that asks for what comes from outside.
 *
 * <p>What a step did (its outputs, what it read) stays in the stepper's own fields until the next step, where properties
 * and observers look at it.
 */
public interface Stepper {
    /** The state everything starts from. */
    long initial();

    /** How many low bits of the long a state may use; the rest is left to observers. 1 to 63. */
    int bits();

    /** The number of questions the step may ask. Keys run from 0 to this number less one. */
    int keys();

    /** How many labels the step itself may note on {@link Successors}. Labels run from 0 to this number less one. */
    default int labels() {
        return 0;
    }

    /**
     * The shape of the step just taken: whatever of it the watchers' {@code concerns} look at, as one number. Steps of
     * one shape are asked about once and remembered. Equal for steps that {@code concerns} cannot tell apart; the
     * default makes all watchers look at every step. For {@link Recalled} it also holds whatever else watchers look at, except
     * the states before and after and the questions with their answers.
     */
    default long shape() {
        return 0;
    }

    /**
     * The bit from which on its own bits hold nothing but a count, which each step sets to 0, leaves, or increases. None
     * does by default.
     */
    default int countFrom() {
        return bits();
    }

    /**
     * The least count of the state before with which this stepper would have told the watchers the same since the step just
     * taken. All of what it tells of the count must lie behind this and {@link #mostCount}.
     */
    default int leastCount() {
        return 0;
    }

    /** The greatest count with which it would have told the same. */
    default int mostCount() {
        return Integer.MAX_VALUE;
    }

    /** Takes one step.
     *
     * @param state the state before
     * @param out takes the labels of what was seen; the successor is added by the caller
     * @return the state after
     */
    long step(long state, Choices choices, Successors out);

    /**
     * What the questions mean that a step from a state asks, as one number. Equal for steppers that are recalled together, where
     * the same answers tell the watchers the same.
     */
    default long asked(long state) {
        return 0;
    }

    /**
     * Gets the step just taken ready for those who watch it. May ask {@link Choices} for more, and may note labels. Looks at
     * nothing that watchers may not look at, and changes nothing of the state after.
     */
    default void conclude() {}
}
