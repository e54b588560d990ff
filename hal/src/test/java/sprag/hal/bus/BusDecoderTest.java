package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.board.PinSink;
import sprag.hal.bus.BusDecoder.Verdict;

/** Hazard H14: which frames count, and what is unknown when none does. */
class BusDecoderTest {
    private static final int MONITOR = 0;
    private static final int VOLTAGE = 0;
    private static final int PERMIT = 1;
    private static final long PERIOD_NS = 20_000_000;
    private static final double UNKNOWN = Double.NaN;

    private final BusDecoder decoder = new BusDecoder(BusBench.MAP);
    private final Map<Integer, Double> pins = new HashMap<>();
    private final PinSink sink = new PinSink() {
        @Override
        public void put(int input, long raw, long arrivedNs) {
            pins.put(input, (double) raw);
        }

        @Override
        public void putUnknown(int input, long nowNs) {
            pins.put(input, UNKNOWN);
        }
    };
    private final CanFrame frame = new CanFrame();
    private long nowNs;
    private long count;

    private CanFrame monitor(int length, int permit) {
        frame.begin(BusBench.MONITOR, false, length);
        new BitField(0, 16, false, false).put(frame.data(), 960);
        new BitField(16, 2, false, false).put(frame.data(), permit);
        new BitField(48, 4, false, false).put(frame.data(), count++);
        BusEncoder.finish(BusBench.MAP.messages().get(MONITOR), frame);
        return frame;
    }

    private Verdict accept() {
        return decoder.accept(frame, nowNs, sink);
    }

    private Verdict next(long afterNs) {
        nowNs += afterNs;
        monitor(8, 1);
        return accept();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        120 | false | 8 | false | TAKEN        | as in the file
        120 | false | 7 | false | WRONG_LENGTH | a byte too few
        120 | true  | 8 | false | FOREIGN      | 29 bits: another identifier
        121 | false | 8 | false | FOREIGN      | not in the file
        120 | false | 8 | true  | WRONG_LENGTH | a question, not an answer
        300 | false | 4 | false | OURS         | what only the supervisor sends
        """)
    void frame_ofSomeKind_countsOrNot(
            String id, boolean extended, int length, boolean remote, Verdict verdict, String because) {
        byte[] data = monitor(8, 1).data().clone();
        frame.begin(Integer.parseInt(id, 16), extended, length);
        System.arraycopy(data, 0, frame.data(), 0, 8);
        if (remote) {
            frame.asRemote();
            System.arraycopy(data, 0, frame.data(), 0, 8);
        }
        assertEquals(verdict, accept(), because);
        assertEquals(verdict == Verdict.TAKEN, pins.containsKey(VOLTAGE), because);
    }

    /** The message of the inverter has two bytes and no check sum. */
    @ParameterizedTest
    @CsvSource({"1, WRONG_LENGTH", "2, TAKEN", "3, WRONG_LENGTH", "8, WRONG_LENGTH"})
    void frame_withoutCheckSum_countsWithItsLengthOnly(int length, Verdict verdict) {
        frame.begin(BusBench.INVERTER, true, length);
        assertEquals(verdict, accept());
    }

    @ParameterizedTest
    @CsvSource({"0, 0, off", "1, 1, on", "2, NaN, an error", "3, NaN, not available"})
    void switchOfTwoBits_count_isOnOffOrUnknown(int permit, double expected, String because) {
        monitor(8, permit);
        accept();
        assertEquals(expected, pins.get(PERMIT), because);
    }

    @Test
    void countThatMeansNothing_received_isUnknown() {
        BusField open = new BusField("ready", new BitField(0, 2, false, false), 1, 0, "", Codes.NONE, 2, 0);
        BusMessage message = new BusMessage(
                "inverter", 0x90, false, "inverter", 1, 50, 150, null, CheckSum.NONE, 0, java.util.List.of(open));
        BusDecoder other = new BusDecoder(new BusMap(500, java.util.List.of(message), BusBench.PINS, true));
        frame.begin(0x90, false, 1).data()[0] = 3;
        assertEquals(Verdict.TAKEN, other.accept(frame, 0, sink));
        assertEquals(UNKNOWN, pins.get(2), "the file says 1 for on and 0 for off, nothing of 3");
    }

    @Test
    void counter_movesStandsAndJumps_standingIsLeftOutAndJumpsAreCounted() {
        assertEquals(Verdict.TAKEN, next(PERIOD_NS));
        count--;
        assertEquals(Verdict.STUCK_COUNTER, next(PERIOD_NS));
        assertEquals(0, decoder.missed(MONITOR));
        count += 3;
        assertEquals(Verdict.TAKEN, next(PERIOD_NS));
        assertEquals(3, decoder.missed(MONITOR));
        count = 16;
        next(PERIOD_NS);
        assertEquals(Verdict.STUCK_COUNTER, repeated(), "16 is 0 in four bits");
    }

    private Verdict repeated() {
        count--;
        return next(PERIOD_NS);
    }

    @Test
    void connectedAnew_sameCounterAsBefore_isTaken() {
        assertEquals(Verdict.TAKEN, next(PERIOD_NS));
        decoder.startAnew(nowNs);
        assertEquals(Verdict.TAKEN, repeated());
        decoder.startAnew(nowNs);
        assertTrue(decoder.isLate(MONITOR, nowNs + 60_000_001), "it has not come since");
        count = 0;
        assertEquals(Verdict.TAKEN, next(PERIOD_NS), "also when the first one counts 0");
    }

    @Test
    void timeOut_bothSides_knownThenUnknown() {
        next(PERIOD_NS);
        decoder.checkAges(nowNs + 60_000_000, sink);
        assertEquals(960, pins.get(VOLTAGE));
        assertFalse(decoder.isLate(MONITOR, nowNs + 60_000_000));
        decoder.checkAges(nowNs + 60_000_001, sink);
        assertEquals(UNKNOWN, pins.get(VOLTAGE));
        assertEquals(UNKNOWN, pins.get(PERMIT));
        next(PERIOD_NS);
        assertEquals(960, pins.get(VOLTAGE), "one good frame ends it");
    }

    @Test
    void tooOften_aboveOneAndAHalfTimes_isUnknownForTheNextTenPeriodsToo_thenKnown() {
        for (int i = 0; i < 15; i++) {
            assertEquals(Verdict.TAKEN, next(i == 0 ? 0 : PERIOD_NS / 2), "frame " + i);
        }
        assertEquals(Verdict.TOO_OFTEN, next(PERIOD_NS / 2), "the sixteenth in ten periods");
        assertEquals(UNKNOWN, pins.get(VOLTAGE));
        nowNs = 10 * PERIOD_NS - PERIOD_NS;
        for (int i = 0; i < 10; i++) {
            assertEquals(Verdict.TOO_OFTEN, next(PERIOD_NS), "judged over the ten periods before");
        }
        assertEquals(Verdict.TAKEN, next(PERIOD_NS), "ten periods were in order");
        assertEquals(960, pins.get(VOLTAGE));
    }

    @Test
    void silence_isOfAllThatAreHeard_notOfWhatIsSent() {
        decoder.startAnew(0);
        assertFalse(decoder.isSilent(150_000_000), "the inverter has 150 ms");
        assertTrue(decoder.isSilent(150_000_001));
        nowNs = 150_000_001;
        next(0);
        assertFalse(decoder.isSilent(nowNs), "one speaks");
        BusMap sendsOnly = new BusMap(500, BusBench.MAP.messages().subList(2, 3), BusBench.PINS, true);
        assertFalse(new BusDecoder(sendsOnly).isSilent(1_000_000_000_000L), "nobody is expected");
    }

    @Test
    void fifteenInTenPeriods_areNotTooMany_alsoForTheWindowAfterThem() {
        for (int i = 0; i < 15; i++) {
            next(i == 0 ? 0 : PERIOD_NS * 2 / 3);
        }
        nowNs = 10 * PERIOD_NS;
        assertEquals(Verdict.TAKEN, next(0));
        assertEquals(16, decoder.count(MONITOR, Verdict.TAKEN));
        assertEquals(0, decoder.count(MONITOR, Verdict.TOO_OFTEN));
    }

    @Test
    void connectedAnew_tooOftenBefore_isForgottenAndCountedFromThen() {
        for (int i = 0; i < 16; i++) {
            next(i == 0 ? 0 : PERIOD_NS / 4);
        }
        assertEquals(1, decoder.count(MONITOR, Verdict.TOO_OFTEN));
        decoder.startAnew(nowNs);
        for (int i = 0; i < 15; i++) {
            assertEquals(Verdict.TAKEN, next(i == 0 ? 0 : PERIOD_NS / 2), "frame " + i);
        }
        assertEquals(Verdict.TOO_OFTEN, next(PERIOD_NS / 2), "the sixteenth in ten periods from then");
    }
}
