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
     * default makes all watchers look at every step.
     */
    default long shape() {
        return 0;
    }

    /** Takes one step.
     *
     * @param state the state before
     * @param out takes the labels of what was seen; the successor is added by the caller
     * @return the state after
     */
    long step(long state, Choices choices, Successors out);
}
