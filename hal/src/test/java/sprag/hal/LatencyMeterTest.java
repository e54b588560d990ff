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
}
