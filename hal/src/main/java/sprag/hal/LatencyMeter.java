package sprag.hal;

import java.util.Locale;

/**
 * How long something took, over and over: a histogram in fixed memory whose steps are a sixteenth of their octave.
 *
 * <p>A percentile errs upwards by at most 6.25 percent, and the greatest time is exact. One thread records; others may read at any
 * time and see counts that are a moment old. Recording allocates nothing.
 */
public final class LatencyMeter {
    private static final int STEP_BITS = 4;
    private static final int STEPS = 1 << STEP_BITS;
    private static final int BUCKETS = (Long.SIZE - STEP_BITS) * STEPS;

    private final long[] count = new long[BUCKETS];
    private long total;
    private double sumNs;
    private long maxNs;

    /** Records one duration; a negative one counts as zero.
     *
     * @param durationNs how long it took
     */
    public void record(long durationNs) {
        long heldNs = Math.max(0, durationNs);
        count[bucketOf(heldNs)]++;
        total++;
        sumNs += heldNs;
        maxNs = Math.max(maxNs, heldNs);
    }

    /** How many durations were recorded.
     *
     * @return the count
     */
    public long count() {
        return total;
    }

    /** The longest duration, exact.
     *
     * @return nanoseconds, 0 when none was recorded
     */
    public long maxNs() {
        return maxNs;
    }

    /** The arithmetic mean, exact.
     *
     * @return nanoseconds, NaN when none was recorded
     */
    public double meanNs() {
        return total == 0 ? Double.NaN : sumNs / total;
    }

    /** The duration that a share of all records did not pass.
     *
     * @param share from 0 to 1, e.g. 0.5 for the median
     * @return the upper edge of the bucket in nanoseconds, never above {@link #maxNs()}; 0 when none was recorded
     * @throws IllegalArgumentException when the share is outside 0 to 1
     */
    public long percentileNs(double share) {
        if (!(share >= 0 && share <= 1)) {
            throw new IllegalArgumentException("share = " + share + " is outside 0..1");
        }
        long wanted = Math.max(1, (long) Math.ceil(share * total));
        long seen = 0;
        for (int i = 0; i < BUCKETS && total > 0; i++) {
            seen += count[i];
            if (seen >= wanted) {
                return Math.min(maxNs, upperEdgeNs(i));
            }
        }
        return maxNs;
    }

    /** One line for people: count, median, 99th percentile and greatest, in milliseconds.
     *
     * @return e.g. {@code 1200 measured, median 1.21 ms, p99 3.10 ms, max 4.02 ms}
     */
    public String summary() {
        if (total == 0) {
            return "never";
        }
        return String.format(
                Locale.ROOT,
                "%d measured, median %.2f ms, p99 %.2f ms, max %.2f ms",
                total,
                percentileNs(0.5) / 1e6,
                percentileNs(0.99) / 1e6,
                maxNs / 1e6);
    }

    private static int bucketOf(long heldNs) {
        if (heldNs < STEPS) {
            return (int) heldNs;
        }
        int octave = Long.SIZE - 1 - Long.numberOfLeadingZeros(heldNs);
        int step = (int) (heldNs >>> octave - STEP_BITS) & STEPS - 1;
        return (octave - STEP_BITS + 1) * STEPS + step;
    }

    private static long upperEdgeNs(int bucket) {
        if (bucket < STEPS) {
            return bucket;
        }
        int shift = bucket / STEPS - 1;
        return ((long) (STEPS + bucket % STEPS) + 1 << shift) - 1;
    }
}
