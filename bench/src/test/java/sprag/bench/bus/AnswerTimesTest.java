package sprag.bench.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.bench.bus.AnswerTimes.Load;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CheckSum;
import sprag.hal.bus.FrameBits;

class AnswerTimesTest {
    private static List<Load> loads(double lengthMs, double... periodsMs) {
        List<Load> all = new ArrayList<>();
        for (double period : periodsMs) {
            all.add(new Load(all.size(), period, 0, lengthMs));
        }
        return all;
    }

    private static double[] worst(List<Load> loads, double bitMs) {
        AnswerTimes times = new AnswerTimes(loads, bitMs);
        return loads.stream().mapToDouble(times::worstMs).toArray();
    }

    /**
     * The example with which Davis, Burns, Bril and Lukkien (2007) refute the analysis of 1994, here from memory, the paper's own
     * table not at hand: 125 kbit/s, three messages of 125 bits, periods 2.5, 3.5 and 3.5 ms. The second instance of the third message
     * takes 3.5 ms; the first alone would say 3.0 ms, within its deadline of 3.25 ms.
     */
    @Test
    void secondInstance_takesLonger_isFound() {
        assertArrayEquals(new double[] {2, 3, 3.5}, worst(loads(1, 2.5, 3.5, 3.5), 1 / 125.0));
        assertEquals(0.9714, new AnswerTimes(loads(1, 2.5, 3.5, 3.5), 1 / 125.0).utilisation(), 1e-4);
    }

    /** Worked out apart from this code with the recurrences of that paper. */
    @Test
    void threeOwnSets_workedOutApart_areTheSame() {
        double[] ms = {10, 10, 20, 50, 100};
        assertArrayEquals(
                new double[] {.54, .81, 1.08, 1.35, 1.35},
                worst(loads(FrameBits.worst(false, 8) / 500.0, ms), 1 / 500.0));
        double c = FrameBits.worst(true, 8) / 250.0;
        List<Load> jittered =
                List.of(new Load(0, 10, 0, c), new Load(1, 20, 1, c), new Load(2, 50, 0, c), new Load(3, 100, 2, c));
        assertArrayEquals(new double[] {1.28, 2.92, 2.56, 4.56}, worst(jittered, 1 / 250.0));
        double[] slow = {5, 10, 20, 50, 100};
        assertArrayEquals(
                new double[] {2.16, 3.24, 4.32, 5.40, 5.40},
                worst(loads(FrameBits.worst(false, 8) / 125.0, slow), 1 / 125.0));
        assertEquals(
                0.4104, new AnswerTimes(loads(FrameBits.worst(false, 8) / 125.0, slow), 1 / 125.0).utilisation(), 1e-4);
    }

    private static void assertArrayEquals(double[] expected, double... found) {
        org.junit.jupiter.api.Assertions.assertArrayEquals(expected, found, 1e-9, () -> Arrays.toString(found));
    }

    @Test
    void fullBus_calculated_isInfiniteForTheLastAndStillFiniteForTheFirst() {
        double[] worst = worst(loads(1, 2, 2.2, 5), 0.002);
        assertEquals(2, worst[0], 1e-9);
        assertTrue(Double.isInfinite(worst[2]), Arrays.toString(worst));
    }

    @Test
    void arbitration_elevenBits_winOverTwentyNineThatBeginAlike() {
        BusMessage base = message(0x123, false);
        BusMessage longer = message(0x123 << 18, true);
        BusMessage before = message(0x122 << 18 | 0x3FFFF, true);
        assertTrue(AnswerTimes.urgency(base) < AnswerTimes.urgency(longer));
        assertTrue(AnswerTimes.urgency(before) < AnswerTimes.urgency(base));
        assertTrue(AnswerTimes.urgency(longer) < AnswerTimes.urgency(message(0x124, false)));
    }

    private static BusMessage message(int id, boolean extended) {
        return new BusMessage("m", id, extended, "x", 8, 10, 30, null, CheckSum.NONE, 0, List.of());
    }
}
