package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.PinSink;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Output;

/** When a session on a bus sends: one message with two outputs, one of which stays on when it is released. */
class BusTimesTest {
    private static final long MS = 1_000_000;
    private static final BoardMap PINS = new BoardMap(
            List.of(),
            List.of(
                    new OutputPin(Output.COOLANT_PUMP, "loads.pump", PinKind.DIGITAL, false, Scale.SWITCH, 1),
                    new OutputPin(Output.HEATER_BLOWER, "loads.blower", PinKind.DIGITAL, false, Scale.SWITCH, 0)));
    private static final BusMessage LOADS = new BusMessage(
            "loads",
            0x400,
            false,
            BusMessage.SUPERVISOR,
            1,
            100,
            300,
            null,
            CheckSum.NONE,
            0,
            List.of(
                    new BusField("pump", new BitField(0, 1, false, false), 1, 0, "", Codes.NONE, 0, 0),
                    new BusField("blower", new BitField(1, 1, false, false), 1, 0, "", Codes.NONE, 1, 0)));
    private static final String SAFE = "400#01";
    private static final String BOTH = "400#03";

    private final VirtualClock clock = new VirtualClock();
    private final AdapterSim adapter = new AdapterSim(clock);
    private final MemoryPort port = new MemoryPort(adapter);
    private BoardSession session;

    @BeforeEach
    void connect() throws LinkLost {
        session = session(500, LOADS);
    }

    private BoardSession session(int kbit, BusMessage... messages) throws LinkLost {
        BusMap map = new BusMap(kbit, List.of(messages), PINS, true);
        port.open();
        BoardSession made = new BusDriver(map).talk(port, PINS, new BoardSettings(Map.of()), clock);
        made.connect(sink());
        return made;
    }

    private static PinSink sink() {
        return new PinSink() {
            @Override
            public void put(int input, long raw, long arrivedNs) {
                throw new AssertionError("nothing is read here");
            }

            @Override
            public void putUnknown(int input, long nowNs) {
                throw new AssertionError("nothing is read here");
            }
        };
    }

    private void passNs(long ns) {
        clock.waitUntil(clock.nowNs() + ns);
    }

    private List<String> sent() {
        List<String> frames = adapter.sent.stream().map(AdapterSim.Sent::frame).toList();
        adapter.sent.clear();
        return frames;
    }

    @Test
    void armed_sendsEachMessageOnceWithItsSafeValues() throws LinkLost {
        session.arm();
        assertEquals(List.of(SAFE), sent());
        assertFalse(session.drive(new long[] {1, 0}), "that is what stands there");
        assertEquals(List.of(), sent());
    }

    @Test
    void period_isOver_sameValuesAreSentAgainButNotSooner() throws LinkLost {
        session.arm();
        sent();
        passNs(100 * MS - 1);
        session.drive(new long[] {1, 0});
        assertEquals(List.of(), sent());
        passNs(1);
        assertFalse(session.drive(new long[] {1, 0}), "nothing of it is new");
        assertEquals(List.of(SAFE), sent());
    }

    @Test
    void valuesChange_areSentAtOnceButNotTwoFramesInARow() throws LinkLost {
        session.arm();
        sent();
        passNs(2 * MS - 1);
        assertFalse(session.drive(new long[] {1, 1}), "not yet sent");
        assertEquals(List.of(), sent());
        passNs(1);
        assertTrue(session.drive(new long[] {1, 1}));
        assertEquals(List.of(BOTH), sent());
        passNs(2 * MS);
        assertFalse(session.drive(new long[] {1, 1}));
        assertEquals(List.of(), sent());
    }

    @Test
    void periodIsOverAndValuesChange_isSentOnceAndIsNews() throws LinkLost {
        session.arm();
        sent();
        passNs(100 * MS);
        assertTrue(session.drive(new long[] {1, 1}));
        assertEquals(List.of(BOTH), sent());
    }

    @Test
    void released_sendsEachMessageTwiceAndOnceOnly() throws LinkLost {
        session.arm();
        passNs(100 * MS);
        session.drive(new long[] {0, 1});
        sent();
        session.release();
        assertEquals(List.of(SAFE, SAFE), sent());
        session.release();
        assertEquals(List.of(), sent(), "nothing was driven since");
    }

    /** Two released frames of at most 160 bits each (29 bits, eight bytes, stuffed) must leave the adapter first. */
    @ParameterizedTest(name = "{0} kbit/s, {1} messages")
    @CsvSource({"500, 1, 640000", "500, 2, 1280000", "10, 2, 64000000", "10, 8, 200000000"})
    void left_waitsUntilTheReleasedFramesAreOnTheBus(int kbit, int count, long ns) throws LinkLost {
        BusMessage[] messages = new BusMessage[count];
        for (int i = 0; i < count; i++) {
            messages[i] = new BusMessage(
                    "loads" + i,
                    0x400 + i,
                    false,
                    BusMessage.SUPERVISOR,
                    1,
                    100,
                    300,
                    null,
                    CheckSum.NONE,
                    0,
                    List.of());
        }
        BoardSession many = session(kbit, messages);
        many.arm();
        many.release();
        long beganNs = clock.nowNs();
        many.leave();
        assertEquals(ns, clock.nowNs() - beganNs);
        assertEquals("C", adapter.commands.get(adapter.commands.size() - 1));
    }

    @Test
    void leftWithoutAFrameSent_doesNotWait() throws LinkLost {
        long beganNs = clock.nowNs();
        session.leave();
        assertEquals(beganNs, clock.nowNs());
        assertEquals("C", adapter.commands.get(adapter.commands.size() - 1));
    }

    @Test
    void identity_isTheAdapterAndTheSpeed() throws LinkLost {
        assertEquals("adapter V1013 at 500 kbit/s", session.identity());
        adapter.fallMute();
        BoardSession mute = new BusDriver(new BusMap(250, List.of(LOADS), PINS, true))
                .talk(port, PINS, new BoardSettings(Map.of()), clock);
        assertEquals("adapter without a version at 250 kbit/s", mute.identity());
    }

    @Test
    void driver_tellsWhatItSpeaks() {
        BusMap map = new BusMap(500, List.of(LOADS), PINS, true);
        BusDriver driver = new BusDriver(map);
        assertEquals(map, driver.map());
        assertEquals("bus", driver.protocol());
        assertTrue(driver.meaning().contains("CAN"));
        assertEquals(1, driver.usualBits(PinKind.DIGITAL));
        assertEquals(16, driver.usualBits(PinKind.ANALOGUE));
        assertFalse(driver.measuresAgainstSupply());
    }
}
