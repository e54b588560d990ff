package sprag.bench.loop.trace;

import java.util.Arrays;

/** Everything that is known about one tick. One frame is reused for a whole run: copy what must last. */
public final class Frame {
    /** Time since the start of the run. */
    public long timeMs;
    /** One number a column, in the order of {@link Channels#all()}; NaN is a reading that nobody knows. */
    public final double[] value;
    /** The state, an index into {@link Channels#states()}. */
    public int state;
    /** Why the state was entered, in words. */
    public String why = "";
    /** Which interlocks act, in the order of {@link Channels#interlocks()}. */
    public final boolean[] acting;

    /** Makes room. */
    public Frame(int columns, int interlocks) {
        value = new double[columns];
        acting = new boolean[interlocks];
        Arrays.fill(value, Double.NaN);
    }

    /** A copy that lasts. */
    public Frame copy() {
        Frame copy = new Frame(value.length, acting.length);
        copy.copyFrom(this);
        return copy;
    }

    /** Takes over another frame of the same shape. */
    public void copyFrom(Frame other) {
        timeMs = other.timeMs;
        state = other.state;
        why = other.why;
        System.arraycopy(other.value, 0, value, 0, value.length);
        System.arraycopy(other.acting, 0, acting, 0, acting.length);
    }

    /** The time in the unit people use. Returns seconds since the start of the run. */
    public double timeS() {
        return timeMs / 1000.0;
    }
}
