package sprag.hal.board.firmata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;
import static sprag.hal.board.BoardBench.volts;

import java.io.ByteArrayOutputStream;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;
import sprag.hal.board.PinSink;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** One session, call by call: silence counts from 100 ms, readings come every 10 ms. */
class FirmataSessionTest {
    private static final long MS = 1_000_000;
    private static final BoardMap KEY = new BoardMap(List.of(switchOn(Signal.KEY_ON, "D2")), List.of());
    private static final BoardMap PEDAL = new BoardMap(List.of(volts(Signal.PEDAL_A_V, "A0")), List.of());
    private static final BoardMap CONTACTOR = new BoardMap(List.of(), List.of(relay(Output.POSITIVE_CONTACTOR, "D8")));

    private final VirtualClock clock = new VirtualClock();
    private final BoardSim sim = new BoardSim(clock);
    private final ByteArrayOutputStream sent = new ByteArrayOutputStream();
    private final ByteArrayOutputStream before = new ByteArrayOutputStream();
    private final ByteArrayOutputStream late = new ByteArrayOutputStream();
    private final Map<Integer, Long> raws = new HashMap<>();
    private final PinSink sink = new PinSink() {
        @Override
        public void put(int input, long raw, long arrivedNs) {
            raws.put(input, raw);
        }

        @Override
        public void putUnknown(int input, long nowNs) {
            throw new AssertionError("a pin of a board is never unknown by itself");
        }
    };
    /** How long the board thinks before each byte of an answer leaves it. */
    private long thinksMs;

    /** The board behind a line that may be slow; what is in {@link #before} comes first. */
    private final MemoryPort port = new MemoryPort(new MemoryPort.FarEnd() {
        @Override
        public void take(byte[] bytes, int length) {
            sim.take(bytes, length);
        }

        @Override
        public int give(byte[] into) {
            if (before.size() > 0) {
                byte[] all = before.toByteArray();
                before.reset();
                System.arraycopy(all, 0, into, 0, all.length);
                return all.length;
            }
            int got = sim.give(into);
            if (thinksMs == 0) {
                return got;
            }
            byte[] answer = java.util.Arrays.copyOf(into, got);
            if (got > 0) {
                clock.after(thinksMs, () -> late.writeBytes(answer));
            }
            byte[] all = late.toByteArray();
            late.reset();
            System.arraycopy(all, 0, into, 0, all.length);
            return all.length;
        }
    });

    private BoardSession session(BoardMap map) throws LinkLost {
        return session(map, 57600, 10);
    }

    private BoardSession session(BoardMap map, double baud, double samplingMs) throws LinkLost {
        Map<Row, Double> settings =
                Map.of(BoardSetting.BAUD, baud, BoardSetting.SILENCE_MS, 100.0, FirmataSetting.SAMPLING_MS, samplingMs);
        port.open();
        port.spy(sent::writeBytes);
        return new FirmataDriver().talk(port, map, new BoardSettings(settings), clock);
    }

    private BoardSession connected(BoardMap map) throws LinkLost {
        BoardSession session = session(map);
        session.connect(sink);
        return session;
    }

    private void passMs(long ms) {
        clock.waitUntil(clock.nowNs() + ms * MS);
    }

    private void turns(BoardSession session, int count) throws LinkLost {
        for (int i = 0; i < count; i++) {
            passMs(1);
            session.turn(sink);
        }
    }

    private static String refusal(org.junit.jupiter.api.function.Executable what) {
        return assertThrows(LinkLost.class, what).getMessage();
    }

    // who answers

    @Test
    void boardThatAnswersSlowly_isKnownByAllThatItSays() throws LinkLost {
        thinksMs = 5;
        BoardSession session = connected(new BoardMap(KEY.inputs(), CONTACTOR.outputs()));
        assertEquals("SimFirmata 2.5, Firmata 2.5, 20 pins", session.identity());
        assertEquals(Map.of(0, 0L), raws);
        session.arm();
        session.drive(new long[] {1});
        assertEquals(1, sim.output(8));
    }

    @ParameterizedTest(name = "without the answer to {0}")
    @CsvSource(delimiter = '|', textBlock = """
        79 | who its firmware is
        6B | which pins it has
        69 | which pins are analogue channels
        """)
    void boardThatLeavesAQuestionOpen_isToldWithTheQuestion(String query, String question) throws LinkLost {
        byte asked = (byte) Integer.parseInt(query, 16);
        port.refuse(text -> {
            if (text.indexOf((char) asked) >= 0) {
                sim.freeze(true);
            }
            return false;
        });
        String words = refusal(() -> session(KEY).connect(sink));
        assertEquals("the board on memory speaks Firmata 2.5 but did not say " + question + " within 2000 ms", words);
    }

    @Test
    void boardOfAnotherMajorVersion_isRefused() throws LinkLost {
        sim.freeze(true);
        before.writeBytes(HexFormat.of().parseHex("F90005"));
        long beganNs = clock.nowNs();
        assertEquals(
                "the board speaks Firmata 0.5; this driver speaks 2.x",
                refusal(() -> session(KEY).connect(sink)));
        assertEquals(beganNs, clock.nowNs(), "and is not asked again");
    }

    /** Since 2.4 a port is answered when it is asked for; a channel always came by itself. */
    @Test
    void olderFirmware_isEnoughWhereNoSwitchIsRead() throws LinkLost {
        sim.version(3);
        connected(PEDAL);
        assertEquals(Map.of(0, 0L), raws);
        assertTrue(refusal(() -> session(KEY).connect(sink)).contains("digital inputs need 2.4"));
    }

    @Test
    void firmwareOfVersionFour_isEnoughForSwitches() throws LinkLost {
        sim.version(4);
        connected(KEY);
        assertEquals(Map.of(0, 0L), raws);
    }

    /** A byte that belongs to nothing is common while a board starts; it counts from the connection on. */
    @Test
    void noiseBeforeTheBoardAnswers_isForgiven() throws LinkLost {
        before.writeBytes(new byte[40]);
        BoardSession session = connected(KEY);
        turns(session, 20);
        before.writeBytes(new byte[33]);
        assertTrue(refusal(() -> turns(session, 1)).contains("the line garbles: 33 bytes"));
    }

    /** One switch every 10 ms is up to 300 bytes a second; a line may be full to four fifths. */
    @ParameterizedTest
    @CsvSource({"3750, true", "3740, false"})
    void lineMayBeFullToFourFifths(double baud, boolean enough) throws LinkLost {
        BoardSession session = session(KEY, baud, 10);
        if (enough) {
            session.connect(sink);
        } else {
            assertEquals(
                    "1 inputs every 10 ms are up to 300 bytes a second, the line carries 374; make firmata.sampling_ms"
                            + " longer, or the line faster",
                    refusal(() -> session.connect(sink)));
        }
    }

    // what is read

    @Test
    void onlyInputOfTheMap_isNotReported_isNamed() throws LinkLost {
        sim.ignorePorts();
        assertEquals(
                "the board accepted the map but sends nothing for key_on on D2 within 1000 ms",
                refusal(() -> session(KEY).connect(sink)));
    }

    @Test
    void portsWithInputsOnly_areAskedFor() throws LinkLost {
        BoardSession session = connected(
                new BoardMap(List.of(switchOn(Signal.KEY_ON, "D2"), switchOn(Signal.BRAKE_PRESSED, "D16")), List.of()));
        sent.reset();
        turns(session, 10);
        assertEquals("d001d201", HexFormat.of().formatHex(sent.toByteArray()), "once in 10 ms");
        turns(session, 1);
        assertEquals("d001d201d001d201", HexFormat.of().formatHex(sent.toByteArray()));
    }

    /** After a pause of this program it is unknown how old the bytes are that wait in the system. */
    @ParameterizedTest(name = "{0} ms")
    @CsvSource({"50, 1", "51, 0"})
    void programPausesForMoreThanHalfTheSilence_whatWaitsIsNotTaken(long pauseMs, long seen) throws LinkLost {
        BoardSession session = connected(KEY);
        turns(session, 10);
        sim.level(2, true);
        passMs(pauseMs);
        session.turn(sink);
        assertEquals(seen, raws.get(0));
        turns(session, 11);
        assertEquals(1, raws.get(0), "a fresh one is");
    }

    /** The pause must not count as the board's silence, and must not give a dead board more than half of its time. */
    @Test
    void programPausesAndTheBoardIsDead_isLostHalfTheSilenceLater() throws LinkLost {
        BoardSession session = connected(KEY);
        sim.freeze(true);
        passMs(300);
        session.turn(sink);
        turns(session, 50);
        assertEquals(
                "key_on on D2 has been silent for 101 ms (limit 100 ms); check the cable and the board",
                refusal(() -> turns(session, 1)));
    }

    @Test
    void boardFreezes_isKeptForTheSilenceThatIsAllowed() throws LinkLost {
        BoardSession session = connected(KEY);
        turns(session, 1);
        sim.freeze(true);
        turns(session, 99);
        String words = refusal(() -> turns(session, 5));
        assertTrue(words.startsWith("key_on on D2 has been silent for 101 ms (limit 100 ms)"), words);
    }

    // a board that has outputs only

    @ParameterizedTest(name = "pin in mode {0}")
    @CsvSource({"0", "1"})
    void outputsOnly_boardIsAskedAndAnswersWhateverModeThePinIsIn(byte mode) throws LinkLost {
        sim.take(new byte[] {(byte) 0xF4, 8, mode}, 3);
        BoardSession session = connected(CONTACTOR);
        turns(session, 500);
        sim.freeze(true);
        int[] turned = {0};
        String words = refusal(() -> {
            while (true) {
                turns(session, 1);
                turned[0]++;
            }
        });
        assertEquals("the board has not answered for 101 ms (limit 100 ms); check the cable and the board", words);
        assertTrue(turned[0] >= 75, "it answered at most a quarter of that before: " + turned[0]);
    }

    @Test
    void outputsOnly_boardIsAskedFourTimesInTheSilenceThatIsAllowed() throws LinkLost {
        BoardSession session = connected(CONTACTOR);
        turns(session, 1);
        sent.reset();
        turns(session, 24);
        assertEquals("", HexFormat.of().formatHex(sent.toByteArray()));
        turns(session, 1);
        assertEquals("f06d08f7", HexFormat.of().formatHex(sent.toByteArray()));
    }

    // outputs

    @Test
    void pinLeftOn_isReleasedByTheConnectionItself() throws LinkLost {
        sim.take(new byte[] {(byte) 0x91, 3, 0}, 3);
        connected(CONTACTOR);
        assertEquals(0, sim.output(8));
        assertEquals(0, sim.output(9), "in the same message: the board was left by another program");
    }

    @Test
    void pinThatIsAnInput_isNotWrittenByTheConnection() throws LinkLost {
        sim.take(new byte[] {(byte) 0xF4, 8, 0}, 3);
        BoardSession session = connected(CONTACTOR);
        turns(session, 1);
        sent.reset();
        session.release();
        assertEquals("", HexFormat.of().formatHex(sent.toByteArray()));
    }

    @Test
    void driven_isOnTheLineAtOnceAndNewsOnlyWhenItChanges() throws LinkLost {
        BoardSession session = connected(CONTACTOR);
        session.arm();
        assertTrue(session.drive(new long[] {1}));
        assertEquals(1, sim.output(8));
        assertFalse(session.drive(new long[] {1}));
        session.release();
        assertEquals(0, sim.output(8));
    }

    @Test
    void armed_boardNoLongerAnswers_anOldAnswerIsNotTaken() throws LinkLost {
        BoardSession session = connected(CONTACTOR);
        sim.deafen();
        assertEquals("the board does not say which mode pin 8 is in after it was told mode 1", refusal(session::arm));
    }

    @Test
    void connected_boardDoesNotSayItsModes_isRefused() throws LinkLost {
        port.refuse(text -> {
            if (text.indexOf((char) 0x6D) >= 0) {
                sim.deafen();
            }
            return false;
        });
        assertEquals(
                "the board does not say which mode pin 8 is in",
                refusal(() -> session(CONTACTOR).connect(sink)));
    }

    @Test
    void armed_boardDoesNotTakeTheMode_itsOwnWordsAreTold() throws LinkLost {
        sim.take(new byte[] {(byte) 0xF4, 8, 0}, 3);
        BoardSession session = connected(CONTACTOR);
        sim.ignoreModes();
        String plain = refusal(session::arm);
        assertEquals("pin D8 for positive_contactor was told to be a digital output but says it is in mode 0", plain);
        before.writeBytes(HexFormat.of().parseHex("F0714E006F00F7"));
        assertEquals(plain + "; the board says: No", refusal(session::arm));
    }
}
