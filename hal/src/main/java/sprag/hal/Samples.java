package sprag.hal;

import java.util.Arrays;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** The newest sample of each signal and when it was taken, so that an old sample is never used as a new one. */
public final class Samples {
    private static final long NEVER = Long.MIN_VALUE;

    private final double[] value = new double[Signal.COUNT];
    private final long[] takenAtNs = new long[Signal.COUNT];

    /** Starts without any sample. */
    public Samples() {
        Arrays.fill(value, Double.NaN);
        Arrays.fill(takenAtNs, NEVER);
    }

    /** Puts a sample.
     *
     * @param signal which one
     * @param reading its value in the signal's unit
     * @param nowNs when it was taken, on the loop's monotonic time
     */
    public void put(Signal signal, double reading, long nowNs) {
        value[signal.ordinal()] = reading;
        takenAtNs[signal.ordinal()] = nowNs;
    }

    /** Puts the sample of a switch.
     *
     * @param signal which one
     * @param on its state
     * @param nowNs when it was taken, on the loop's monotonic time
     */
    public void put(Signal signal, boolean on, long nowNs) {
        put(signal, on ? 1 : 0, nowNs);
    }

    /** The newest sample, however old.
     *
     * @param signal which one
     * @return its value; NaN when there was none yet
     */
    public double get(Signal signal) {
        return value[signal.ordinal()];
    }

    /** The age of a sample.
     *
     * @param signal which one
     * @param nowNs the time now
     * @return nanoseconds; {@link Long#MAX_VALUE} when there was none yet
     */
    public long ageNs(Signal signal, long nowNs) {
        long taken = takenAtNs[signal.ordinal()];
        return taken == NEVER ? Long.MAX_VALUE : nowNs - taken;
    }

    /** Writes the readings of this tick: the newest sample where it is young enough, else NaN.
     *
     * @param readings where to write
     * @param nowNs the time now
     * @param maxAgeNs the age from which a sample counts as unknown
     */
    public void read(Readings readings, long nowNs, long maxAgeNs) {
        for (int i = 0; i < value.length; i++) {
            // A signal without any sample has the value NaN, whatever its age comes to.
            readings.set(SIGNALS[i], nowNs - takenAtNs[i] <= maxAgeNs ? value[i] : Double.NaN);
        }
    }

    private static final Signal[] SIGNALS = Signal.values();
}
