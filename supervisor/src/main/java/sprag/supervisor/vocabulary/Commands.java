package sprag.supervisor.vocabulary;

import java.util.Arrays;

/** What the supervisor asks for in one tick: one number an output, reused every tick. All zero is all released. */
public final class Commands {
    private final double[] value = new double[Output.COUNT];

    /** Starts with everything released. */
    public Commands() {}

    /** Releases everything. */
    public void release() {
        Arrays.fill(value, 0);
    }

    /** What is asked of an output, in the output's unit.
     *
     * @param output which one
     * @return its value, never NaN
     */
    public double get(Output output) {
        return value[output.ordinal()];
    }

    /** Asks an output for a value. A NaN is taken as 0, so that no later stage can see one.
     *
     * @param output which one
     * @param request its value in the output's unit
     */
    public void set(Output output, double request) {
        value[output.ordinal()] = request == request ? request : 0;
    }

    /** Switches an output.
     *
     * @param output which one
     * @param on what is asked
     */
    public void set(Output output, boolean on) {
        value[output.ordinal()] = on ? 1 : 0;
    }

    /** Whether an output is asked to be on.
     *
     * @param output which one
     * @return true when not zero
     */
    public boolean isOn(Output output) {
        return value[output.ordinal()] != 0;
    }

    /** Takes over all commands of another set.
     *
     * @param other where to copy from
     */
    public void copyFrom(Commands other) {
        System.arraycopy(other.value, 0, value, 0, value.length);
    }

    /** Writes all requests into an array, in the order of the outputs.
     *
     * @param into where to write
     * @param from the place of the first
     */
    public void copyTo(double[] into, int from) {
        System.arraycopy(value, 0, into, from, value.length);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Commands && Arrays.equals(value, ((Commands) other).value);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(value);
    }
}
