package sprag.supervisor;

import java.util.Arrays;

/** What the connector shows in one tick: one number a signal, reused every tick. NaN means that nobody knows. */
public final class Readings {
    private final double[] value = new double[Signal.COUNT];

    /** Starts with every reading unknown, which is the safe way round. */
    public Readings() {
        clear();
    }

    /** Makes every reading unknown. */
    public void clear() {
        Arrays.fill(value, Double.NaN);
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
        value[signal.ordinal()] = reading;
    }

    /** Sets the reading of a switch.
     *
     * @param signal which one
     * @param on its state
     */
    public void set(Signal signal, boolean on) {
        value[signal.ordinal()] = on ? 1 : 0;
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

    /** Takes over all readings of another set.
     *
     * @param other where to copy from
     */
    public void copyFrom(Readings other) {
        System.arraycopy(other.value, 0, value, 0, value.length);
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
