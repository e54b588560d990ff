package sprag.supervisor.vocabulary;

import java.util.Arrays;

/** What the connector shows in one tick: one number a signal, reused every tick. NaN means that nobody knows. */
public final class Readings {
    /** What {@link #switchesOn()} and {@link #switchesOff()} never give. */
    public static final long NO_SWITCHES = -1;

    private final double[] value = new double[Signal.COUNT];
    /** A bit a switch that is known to be on, and one that is known to be off, so that all can be compared at once. */
    private long on;

    private long off;

    /** Starts with every reading unknown, which is the safe way round. */
    public Readings() {
        clear();
    }

    /** Makes every reading unknown. */
    public void clear() {
        Arrays.fill(value, Double.NaN);
        on = 0;
        off = 0;
    }

    /** The reading of a signal, in the signal's unit.
     *
     * @param signal which one
     * @return its value; NaN when unknown
     */
    public double get(Signal signal) {
        return value[signal.ordinal()];
    }

    /** Sets the reading of a signal.
     *
     * @param signal which one
     * @param reading its value in the signal's unit, NaN when unknown
     */
    public void set(Signal signal, double reading) {
        int i = signal.ordinal();
        double before = value[i];
        if (!signal.isSwitch()) {
            // noise changes most of them in most ticks: asking whether it did costs more than it saves; a zero keeps
            // its sign
            value[i] = before == 0 && reading == 0 ? before : reading;
        } else if (before != reading && (before == before || reading == reading)) {
            value[i] = reading;
            keep(1L << i, reading);
        }
    }

    private void keep(long bit, double reading) {
        on = reading == 1 ? on | bit : on & ~bit;
        off = reading == 0 ? off | bit : off & ~bit;
    }

    /** Sets the reading of a switch.
     *
     * @param signal which one
     * @param on its state
     */
    public void set(Signal signal, boolean on) {
        set(signal, on ? 1.0 : 0.0);
    }

    /** Whether a switch is known to be on. Half-way readings and NaN are not.
     *
     * @param signal which one
     * @return true only for exactly 1
     */
    public boolean isOn(Signal signal) {
        return value[signal.ordinal()] == 1;
    }

    /** Whether a switch is known to be off. Half-way readings and NaN are not.
     *
     * @param signal which one
     * @return true only for exactly 0
     */
    public boolean isOff(Signal signal) {
        return value[signal.ordinal()] == 0;
    }

    /** The switches that are known to be on, a bit each by their order.
     *
     * @return bits
     */
    public long switchesOn() {
        return on;
    }

    /** The switches that are known to be off, a bit each by their order.
     *
     * @return bits
     */
    public long switchesOff() {
        return off;
    }

    /** Takes over all readings of another set.
     *
     * @param other where to copy from
     */
    public void copyFrom(Readings other) {
        System.arraycopy(other.value, 0, value, 0, value.length);
        on = other.on;
        off = other.off;
    }

    /** Writes all readings into an array, in the order of the signals.
     *
     * @param into where to write
     * @param from the place of the first
     */
    public void copyTo(double[] into, int from) {
        System.arraycopy(value, 0, into, from, value.length);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Readings && Arrays.equals(value, ((Readings) other).value);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(value);
    }
}
