package sprag.hal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LatencyMeterTest {
    private final LatencyMeter meter = new LatencyMeter();

    @Test
    void nothingRecorded_saysNever() {
        assertEquals("never", meter.summary());
        assertEquals(0, meter.percentileNs(0.5));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void percentile_isNeverBelowTheTrueOneAndAtMostASixteenthAbove(long seed) {
        Random random = new Random(seed);
        long[] all = new long[5000];
        for (int i = 0; i < all.length; i++) {
            all[i] = (long) Math.exp(random.nextDouble() * 30);
            meter.record(all[i]);
        }
        Arrays.sort(all);
        for (double share : new double[] {0.01, 0.5, 0.9, 0.99, 0.999, 1}) {
            long exact = all[(int) Math.ceil(share * all.length) - 1];
            long said = meter.percentileNs(share);
            assertTrue(said >= exact && said <= exact * 1.0625 + 1, share + ": " + said + " for " + exact);
        }
        assertEquals(all[all.length - 1], meter.maxNs());
        assertEquals(Arrays.stream(all).average().orElseThrow(), meter.meanNs(), 1e-3 * meter.meanNs());
    }

    @Test
    void extremes_findABucket() {
        meter.record(Long.MAX_VALUE);
        meter.record(-5);
        assertEquals(0, meter.percentileNs(0.5));
        assertEquals(Long.MAX_VALUE, meter.percentileNs(1));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-0.01, 1.01, Double.NaN})
    void shareOutsideZeroToOne_isRefused(double share) {
        assertThrows(IllegalArgumentException.class, () -> meter.percentileNs(share));
    }

    @Test
    void summary_isInMilliseconds() {
        for (int i = 1; i <= 100; i++) {
            meter.record(i == 100 ? 3_000_000 : i == 99 ? 2_000_000 : 1_000_000);
        }
        assertEquals("100 measured, median 1.02 ms, p99 2.03 ms, max 3.00 ms", meter.summary());
    }

    @ParameterizedTest
    @ValueSource(longs = {0, 1, 15, 16, 17, 31, 32, 33, 1023, 1024})
    void oneDuration_isEveryShareOfItself(long ns) {
        meter.record(ns);
        for (double share : new double[] {0, 0.5, 1}) {
            assertEquals(ns, meter.percentileNs(share), "share " + share);
        }
    }

    /** Below 32 ns every nanosecond has a bucket of its own. */
    @Test
    void shortDurations_areToldExactly() {
        for (int ns = 0; ns < 32; ns++) {
            meter.record(ns);
        }
        for (int ns = 0; ns < 32; ns++) {
            assertEquals(ns, meter.percentileNs((ns + 1) / 32.0));
        }
    }
}
