package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Watch;

/** The facts of a running vehicle, written once a tick by the conditioner. */
public final class TickFacts extends Facts {
    private final byte[] value = new byte[Fact.COUNT];
    /** One bit a fact that is not zero, so that a whole watch can be passed over with a few operations. */
    private long lowBits;

    private long highBits;

    /** Sets a fact.
     *
     * @param fact which one
     * @param newValue 0 or 1, or the index of its label
     */
    public void set(Fact fact, int newValue) {
        int i = fact.ordinal();
        if (value[i] != newValue) {
            change(i, newValue);
        }
    }

    private void change(int i, int newValue) {
        value[i] = (byte) newValue;
        long bit = 1L << (i & 63);
        if (i < 64) {
            lowBits = newValue != 0 ? lowBits | bit : lowBits & ~bit;
        } else {
            highBits = newValue != 0 ? highBits | bit : highBits & ~bit;
        }
    }

    /** Sets a yes-or-no fact.
     *
     * @param fact which one
     * @param holds whether it is true
     */
    public void set(Fact fact, boolean holds) {
        set(fact, holds ? 1 : 0);
    }

    @Override
    public int value(Fact fact) {
        return value[fact.ordinal()];
    }

    @Override
    public int firstActive(Watch watch) {
        return watch.isQuiet(lowBits, highBits) ? -1 : watch.firstActive(value);
    }
}
