package sprag.hal.board.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.PinSink;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** One session, call by call: silence counts from 100 ms, a request has 50 ms and is repeated once. */
class ModbusSessionTest {
    private static final long MS = 1_000_000;
    private static final Scale COUNTS = new Scale(1, 0, 16, false);
    private static final BoardMap KEY = new BoardMap(List.of(switchOn(Signal.KEY_ON, "discrete:0")), List.of());
    private static final BoardMap OUTPUTS = new BoardMap(
            List.of(),
            List.of(
                    relay(Output.NEGATIVE_CONTACTOR, "coil:0"),
                    relay(Output.POSITIVE_CONTACTOR, "coil:1"),
                    register(Output.CHARGER_1_LIMIT_A, "holding:20"),
                    register(Output.TORQUE_REQUEST_NM, "holding:21")));
    private static final long[] SAFE = {0, 0, 0, 0};

    private final VirtualClock clock = new VirtualClock();
    private final ModuleSim sim = new ModuleSim(clock, 17);
    private final MemoryPort port = new MemoryPort(sim);
    private final Map<Integer, Long> raws = new HashMap<>();
    private final PinSink sink = new PinSink() {
        @Override
        public void put(int input, long raw, long arrivedNs) {
            raws.put(input, raw);
        }

        @Override
        public void putUnknown(int input, long nowNs) {
            throw new AssertionError("a pin of a module is never unknown by itself");
        }
    };

    private static OutputPin register(Output output, String pin) {
        return new OutputPin(output, pin, PinKind.ANALOGUE, false, COUNTS, 0);
    }

    private BoardSession session(BoardMap map, Map<Row, Double> more) throws LinkLost {
        Map<Row, Double> settings = new HashMap<>(
                Map.of(BoardSetting.BAUD, 115200.0, BoardSetting.SILENCE_MS, 100.0, ModbusSetting.UNIT_ID, 17.0));
        settings.putAll(more);
        port.open();
        return new ModbusDriver().talk(port, map, new BoardSettings(settings), clock);
    }

    private BoardSession connected(BoardMap map) throws LinkLost {
        BoardSession session = session(map, Map.of());
        session.connect(sink);
        return session;
    }

    private BoardSession armed() throws LinkLost {
        BoardSession session = connected(OUTPUTS);
        session.arm();
        assertFalse(session.drive(SAFE.clone()), "that is what stands there");
        return session;
    }

    private void passNs(long ns) {
        clock.waitUntil(clock.nowNs() + ns);
    }

    private int requestsOf(org.junit.jupiter.api.function.Executable what) {
        int before = sim.requests();
        try {
            what.execute();
        } catch (Throwable e) {
            throw new AssertionError(e);
        }
        return sim.requests() - before;
    }

    private static String refusal(org.junit.jupiter.api.function.Executable what) {
        return assertThrows(LinkLost.class, what).getMessage();
    }

    /** 22 bytes for the switch, 23 for the register, 10 bits each: 3.9 ms at 115200 Bd. */
    @Test
    void identity_isTheUnitAndTheTimeOfACycle() throws LinkLost {
        BoardMap two = new BoardMap(
                List.of(switchOn(Signal.KEY_ON, "discrete:0"), switchOn(Signal.BRAKE_PRESSED, "holding:3.1")),
                List.of());
        assertEquals(
                "Modbus unit 17, 2 reads a cycle of 4 ms on the line",
                connected(two).identity());
    }

    // what it costs

    /** 22 bytes of 10 bits at 2750 Bd are 80 ms, four fifths of the silence that is allowed. */
    @ParameterizedTest
    @CsvSource({"2750, true", "2740, false"})
    void line_mayBeFullToFourFifths(double baud, boolean enough) throws LinkLost {
        BoardSession session = session(KEY, Map.of(BoardSetting.BAUD, baud));
        if (enough) {
            session.connect(sink);
        } else {
            assertTrue(refusal(() -> session.connect(sink))
                    .startsWith(
                            "reading all inputs takes 80 ms at 2740 baud, but an input counts as silent after 100"));
        }
    }

    /** A release may wait behind a request that is repeated: three times the time-out for each repetition, at most a second. */
    @ParameterizedTest
    @CsvSource({"250, 1, 0", "251, 1, 1004", "142, 2, 0", "143, 2, 1001", "1000, 0, 0", "1001, 0, 1001"})
    void repeatedRequest_mayNotKeepAReleaseForMoreThanASecond(double timeoutMs, double retries, long tooLongMs)
            throws LinkLost {
        BoardSession session =
                session(KEY, Map.of(ModbusSetting.TIMEOUT_MS, timeoutMs, ModbusSetting.RETRIES, retries));
        if (tooLongMs == 0) {
            session.connect(sink);
        } else {
            String words = refusal(() -> session.connect(sink));
            assertTrue(words.contains("could keep a release waiting for " + tooLongMs + " ms, at most 1000"), words);
        }
    }

    // inputs

    @Test
    void inputs_areReadAGroupATurn() throws LinkLost {
        BoardMap two = new BoardMap(
                List.of(switchOn(Signal.KEY_ON, "discrete:0"), switchOn(Signal.BRAKE_PRESSED, "discrete:2")),
                List.of());
        BoardSession session = connected(two);
        sim.discrete(0, true).discrete(2, true);
        session.turn(sink);
        assertEquals(Map.of(0, 1L, 1, 0L), raws);
        session.turn(sink);
        assertEquals(Map.of(0, 1L, 1, 1L), raws);
    }

    /** The turn reads the first group only, so the second is the one that has become too old. */
    @Test
    void secondGroup_isNotReadForTooLong_isLost() throws LinkLost {
        BoardMap two = new BoardMap(
                List.of(switchOn(Signal.KEY_ON, "discrete:0"), switchOn(Signal.BRAKE_PRESSED, "discrete:2")),
                List.of());
        BoardSession session = connected(two);
        passNs(90 * MS);
        session.turn(sink);
        session.turn(sink);
        passNs(200 * MS);
        String words = refusal(() -> session.turn(sink));
        assertTrue(words.matches("an input was not read for 2(0\\d|1[0-5]) ms \\(limit 100 ms\\).*"), words);
    }

    @Test
    void oneRequestIsLost_itIsRepeatedAfterHalfATimeOutAndTheAnswerIsWatched() throws LinkLost {
        BoardSession session = session(KEY, Map.of(BoardSetting.SILENCE_MS, 1000.0));
        session.connect(sink);
        sim.drop(1).discrete(0, true);
        long beganNs = clock.nowNs();
        session.turn(sink);
        assertEquals(1, raws.get(0));
        long tookMs = (clock.nowNs() - beganNs) / MS;
        assertTrue(tookMs >= 150, "50 ms, 25 ms, and as long again for a late answer, but it took " + tookMs);
        assertTrue(tookMs <= 200, "that is what a release may wait for, but it took " + tookMs);
    }

    @Test
    void moduleIsBusyForAMoment_isAskedAgain() throws LinkLost {
        BoardSession session = session(KEY, Map.of(BoardSetting.SILENCE_MS, 1000.0));
        session.connect(sink);
        sim.exception(6).discrete(0, true);
        clock.after(10, () -> sim.exception(0));
        assertEquals(2, requestsOf(() -> session.turn(sink)));
        assertEquals(1, raws.get(0));
    }

    @ParameterizedTest(name = "exception {0}")
    @CsvSource({"5, 2", "6, 2", "4, 1", "2, 1", "1, 1"})
    void moduleRefuses_isAskedAgainOnlyWhereThatMayHelp(int code, int requests) throws LinkLost {
        BoardSession session = session(KEY, Map.of(BoardSetting.SILENCE_MS, 1000.0));
        session.connect(sink);
        sim.exception(code);
        assertEquals(requests, requestsOf(() -> {
            String words = refusal(() -> session.turn(sink));
            assertTrue(words.startsWith("unit 17 refuses reading discrete input 0: "), words);
        }));
    }

    // a module that has outputs only

    @Test
    void outputsOnly_moduleIsAskedWhenHalfTheSilenceIsOver() throws LinkLost {
        BoardSession session = connected(OUTPUTS);
        passNs(50 * MS);
        assertEquals(0, requestsOf(() -> session.turn(sink)));
        passNs(1);
        assertEquals(1, requestsOf(() -> session.turn(sink)));
        assertEquals(0, requestsOf(() -> session.turn(sink)), "that was an answer");
        sim.silent(true);
        passNs(51 * MS);
        assertTrue(refusal(() -> session.turn(sink)).startsWith("unit 17 on memory gave no good reply"));
    }

    // outputs

    @ParameterizedTest(name = "without function {0}")
    @ValueSource(ints = {0, 5, 6, 15, 16})
    void armed_whatAnotherMasterSwitchedOnIsReleasedFirst(int function) throws LinkLost {
        sim.lacks(function);
        BoardSession session = connected(OUTPUTS);
        sim.coil(1, true).holding(20, 7);
        session.arm();
        assertFalse(sim.coil(1));
        assertEquals(0, sim.holding(20));
    }

    @Test
    void driven_onlyTheGroupThatChangesIsWritten() throws LinkLost {
        BoardSession session = armed();
        assertEquals(1, requestsOf(() -> assertTrue(session.drive(new long[] {0, 1, 0, 0}))));
        assertTrue(sim.coil(1));
        assertEquals(1, requestsOf(() -> assertTrue(session.drive(new long[] {0, 1, 0, 9}))));
        assertEquals(9, sim.holding(21));
        assertEquals(2, requestsOf(() -> assertTrue(session.drive(new long[] {1, 1, 8, 9}))));
        assertEquals(0, requestsOf(() -> assertFalse(session.drive(new long[] {1, 1, 8, 9}))));
    }

    @Test
    void unchanged_isWrittenAgainAfterItsTimeAndNotSooner() throws LinkLost {
        BoardSession session = armed();
        passNs(200 * MS);
        assertEquals(0, requestsOf(() -> assertFalse(session.drive(SAFE.clone()))));
        passNs(1);
        assertEquals(2, requestsOf(() -> assertFalse(session.drive(SAFE.clone()))));
        assertEquals(0, requestsOf(() -> assertFalse(session.drive(SAFE.clone()))));
    }

    /** The other function is tried in the same call: the values stand there when it returns. */
    @ParameterizedTest(name = "without function {0}")
    @ValueSource(ints = {5, 6, 15, 16})
    void moduleLacksAFunction_valuesStandAtTheirAddressesAtOnce(int function) throws LinkLost {
        sim.lacks(function);
        BoardSession session = armed();
        session.drive(new long[] {0, 1, 300, 301});
        assertFalse(sim.coil(0));
        assertTrue(sim.coil(1));
        assertEquals(300, sim.holding(20));
        assertEquals(301, sim.holding(21));
        session.release();
        assertFalse(sim.coil(1));
        assertEquals(0, sim.holding(21));
    }

    @Test
    void moduleLacksAFunction_isToldOnceAndThenTheOtherIsUsed() throws LinkLost {
        sim.lacks(15);
        BoardSession session = armed();
        assertEquals(2, requestsOf(() -> session.drive(new long[] {0, 1, 0, 0})), "one for each coil");
    }

    @Test
    void watchdogRegister_mayBeTheFirst() throws LinkLost {
        BoardSession session =
                session(KEY, Map.of(ModbusSetting.WATCHDOG_REGISTER, 0.0, ModbusSetting.WATCHDOG_VALUE, 5.0));
        session.connect(sink);
        assertEquals(5, sim.holding(0));
    }
}
