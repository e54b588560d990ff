package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import sprag.hal.board.BoardSession;
import sprag.hal.board.LinkLost;
import sprag.hal.board.PinSink;

/** What a session sends and takes, call by call. */
class BusDriveTest {
    private static final long[] TEN_AMPERE = {100, 1};
    private static final long[] ELEVEN_AMPERE = {110, 1};
    private static final int FIRST_REFUSALS = 20;

    private final BusBench bus = new BusBench();
    private final PinSink bank = new PinSink() {
        @Override
        public void put(int input, long raw, long arrivedNs) {}

        @Override
        public void putUnknown(int input, long nowNs) {}
    };
    private int heard;
    private BoardSession session;

    @BeforeEach
    void connect() throws LinkLost {
        bus.driver.listen((frame, sent, nowNs) -> heard += sent ? 0 : 1);
        bus.bench.port.open();
        session = bus.driver.talk(bus.bench.port, BusBench.PINS, null, bus.bench.clock);
        session.connect(bank);
        session.arm();
        bus.adapter.sent.clear();
    }

    private List<String> sent() {
        List<String> frames =
                bus.adapter.sent.stream().map(AdapterSim.Sent::frame).toList();
        bus.adapter.sent.clear();
        return frames;
    }

    @Test
    void changes_ofOneMoment_areNotSentFasterThanEachTwoMilliseconds() throws LinkLost {
        bus.bench.clock.standStillMs(2);
        session.drive(TEN_AMPERE);
        session.drive(ELEVEN_AMPERE);
        assertEquals(List.of("300#00640165"), sent());
        bus.bench.clock.standStillMs(2);
        session.drive(ELEVEN_AMPERE);
        assertEquals(List.of("300#006E016F"), sent(), "it is not forgotten");
    }

    @Test
    void sameCommandAfterARelease_isSentAtOnce() throws LinkLost {
        bus.bench.clock.standStillMs(2);
        session.drive(TEN_AMPERE);
        session.release();
        sent();
        bus.bench.clock.standStillMs(2);
        session.drive(TEN_AMPERE);
        assertEquals(List.of("300#00640165"), sent());
    }

    @Test
    void flood_takenInOneTurn_isLimited() throws LinkLost {
        for (int i = 0; i < 1000; i++) {
            bus.adapter.receive(bus.frame.begin(1, false, 0));
        }
        heard = 0;
        session.turn(bank);
        assertEquals(200, heard);
    }

    @Test
    void adapter_countsErrors_onlyBusOffLosesTheLink() throws LinkLost {
        for (String state : List.of("sw096000\r", "sp128000\r", "sa000000\r", "sx000000\r", "sb0002\r")) {
            bus.adapter.say(state);
            session.turn(bank);
        }
        bus.adapter.say("sb000256\r");
        assertTrue(assertThrows(LinkLost.class, () -> session.turn(bank))
                .getMessage()
                .contains("bus off"));
    }

    @Test
    void refusals_inARow_bothSidesOfTheLimit() throws LinkLost {
        bus.bench.clock.standStillMs(2);
        for (int i = 0; i < FIRST_REFUSALS; i++) {
            bus.adapter.say("\u0007");
        }
        session.turn(bank);
        session.drive(TEN_AMPERE); // is sent, and taken
        session.turn(bank);
        for (int i = 0; i < FIRST_REFUSALS; i++) {
            bus.adapter.say("\u0007");
        }
        session.turn(bank);
        session.drive(TEN_AMPERE);
        bus.adapter.say("\u0007");
        session.turn(bank);
        assertThrows(LinkLost.class, () -> session.drive(TEN_AMPERE));
    }

    @Test
    void bytesOfALineThatIsCutOrTooLong_areNoFrame() throws LinkLost {
        heard = 0;
        bus.adapter.say("t12\u0007t0010\r");
        session.turn(bank);
        assertEquals(1, heard, "what stood before a refusal is no part of the next line");
        bus.adapter.say("T000000018" + "00".repeat(8) + "0000" + "t0010\r");
        session.turn(bank);
        assertEquals(1, heard, "a line with a tail is no frame");
        bus.adapter.say("t0010\r");
        session.turn(bank);
        assertEquals(2, heard);
    }

    @Test
    void frameOfEachField_composed_countsAndUsesTheCodesOfTheFile() {
        Codes own = new Codes(Map.of(), List.of(2L), List.of(1L), Set.of(), -1);
        BusMessage message = new BusMessage(
                "charger",
                0x300,
                false,
                BusMessage.SUPERVISOR,
                4,
                100,
                300,
                new BitField(16, 2, false, false),
                CheckSum.SUM_8,
                3,
                List.of(
                        new BusField("enable", new BitField(0, 2, false, false), 1, 0, "", own, 1, 0),
                        new BusField("mode", new BitField(8, 8, false, false), 1, 0, "", Codes.NONE, -1, 0xA5)));
        BusEncoder encoder = new BusEncoder(new BusMap(500, List.of(message), BusBench.PINS, true));
        List<String> expected = List.of("300#02A500A7", "300#01A501A7", "300#02A502A9", "300#01A503A9", "300#02A500A7");
        for (int i = 0; i < expected.size(); i++) {
            encoder.compose(0, new long[] {0, 1 - i % 2}, bus.frame);
            assertEquals(expected.get(i), bus.frame.toString());
        }
    }

    @Test
    void notArmedAgain_released_sendsNothingMore() throws LinkLost {
        session.release();
        assertFalse(sent().isEmpty());
        session.release();
        assertEquals(List.of(), sent());
    }
}
