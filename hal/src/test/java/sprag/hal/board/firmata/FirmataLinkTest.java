package sprag.hal.board.firmata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Output;

/** What is made of a board's bytes, and the bytes that its outputs become. */
class FirmataLinkTest {
    private static final long MS = 1_000_000;
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
    private static final LineSettings LINE = new LineSettings(57600, LineSettings.Parity.NONE, 1);

    private final VirtualClock clock = new VirtualClock();
    private final ByteArrayOutputStream toHost = new ByteArrayOutputStream();
    private final ByteArrayOutputStream sent = new ByteArrayOutputStream();
    private final MemoryPort port = new MemoryPort(new MemoryPort.Speaker(toHost));
    private final FirmataLink link = new FirmataLink(port, clock);

    @BeforeEach
    void open() throws LinkLost {
        port.spy(sent::writeBytes).open();
    }

    private void hears(String hex) throws LinkLost {
        toHost.writeBytes(HEX.parseHex(hex));
        link.read();
    }

    private String sent() {
        String text = HEX.formatHex(sent.toByteArray());
        sent.reset();
        return text;
    }

    // bytes that belong to nothing

    @ParameterizedTest(name = "{2}: {0}")
    @CsvSource(delimiter = '|', textBlock = """
        F9 02 05          | 0 | a whole message
        01                | 1 | data without a command
        C0                | 1 | a command that a board does not send
        E0 E0 01 02       | 1 | begun and begun again
        E0 01 E0 01 02    | 2 | broken off after one byte of data
        E0 00 E0 01 02    | 2 | the same, and that byte is 0
        F0 F7             | 2 | a message without content
        F0 79 02 E0 01 02 | 3 | a long message broken off: its beginning and two bytes
        F0 71 80 F7       | 4 | 80 is no data: the message, 80 and the end without a beginning
        """)
    void strayBytes_areCounted(String hex, long stray, String because) throws LinkLost {
        hears(hex);
        assertEquals(stray, link.strayBytes(), because);
    }

    @ParameterizedTest(name = "{0} bytes")
    @CsvSource({"32, true", "33, false"})
    void strayBytesWithinASecond_moreThanTheLimitLoseTheLink(int count, boolean kept) throws LinkLost {
        stray(20);
        LineNoise noise = new LineNoise(link, LINE);
        noise.begin(clock.nowNs());
        stray(count);
        clock.waitUntil(clock.nowNs() + 1000 * MS);
        if (kept) {
            noise.check(clock.nowNs());
            clock.waitUntil(clock.nowNs() + 1);
            noise.check(clock.nowNs());
            stray(count);
            noise.check(clock.nowNs());
        } else {
            LinkLost lost = assertThrows(LinkLost.class, () -> noise.check(clock.nowNs()));
            assertTrue(lost.getMessage().contains("33 bytes within a second"), lost.getMessage());
        }
    }

    /** A second is not over before it is over: what came in it counts together. */
    @Test
    void strayBytes_twiceWithinOneSecond_countTogether() throws LinkLost {
        LineNoise noise = new LineNoise(link, LINE);
        noise.begin(clock.nowNs());
        stray(20);
        clock.waitUntil(clock.nowNs() + 1000 * MS);
        noise.check(clock.nowNs());
        stray(20);
        assertThrows(LinkLost.class, () -> noise.check(clock.nowNs()));
    }

    /** 57600 bit/s are 5760 bytes a second; one and a half times as many cannot come over this line. */
    @ParameterizedTest(name = "{0} bytes")
    @CsvSource({"8640, true", "8643, false"})
    void moreBytesThanTheLineCarries_areAFlood(int count, boolean kept) throws LinkLost {
        hears("E0 01 02");
        LineNoise noise = new LineNoise(link, LINE);
        noise.begin(clock.nowNs());
        for (int i = 0; i < count; i += 3) {
            hears("E0 01 02");
        }
        if (kept) {
            noise.check(clock.nowNs());
        } else {
            LinkLost lost = assertThrows(LinkLost.class, () -> noise.check(clock.nowNs()));
            assertTrue(lost.getMessage().contains("floods: 8643 bytes"), lost.getMessage());
        }
    }

    private void stray(int count) throws LinkLost {
        hears("01 ".repeat(count).strip());
    }

    // what a board says of itself

    @Test
    void nothingSaid_nothingIsKnown() {
        assertEquals(-1, link.modeOf(0));
        assertEquals(-1, link.modeOf(127));
        assertNull(link.firmware());
        assertEquals("", link.said());
        assertEquals("", link.firstBytes());
    }

    @Test
    void firstBytes_areTheFirstEightInWhateverPartsTheyCome() throws LinkLost {
        hears("24 47");
        assertEquals("24 47", link.firstBytes());
        hears("50 0D 0A 24 47 50 0D 0A");
        assertEquals("24 47 50 0D 0A 24 47 50", link.firstBytes());
        assertEquals(10, link.bytesSeen());
    }

    @Test
    void modeOfAPin_isTheLastOneThatWasSaid() throws LinkLost {
        hears("F0 6E 08 01 00 F7");
        hears("F0 6E 7F 03 F7");
        hears("F0 6E 09 F7");
        assertEquals(1, link.modeOf(8));
        assertEquals(3, link.modeOf(127), "also without the value that a pin has");
        assertEquals(-1, link.modeOf(9), "a pin without a mode says nothing");
        link.forgetMode(8);
        assertEquals(-1, link.modeOf(8));
    }

    @Test
    void text_isPrintableWhateverTheBoardSends() throws LinkLost {
        hears("F0 71 41 00 20 00 1F 00 7E 00 7F 00 00 01 41 01 42 F7");
        assertEquals("A .~...", link.said());
        hears("F0 79 02 05 F7");
        assertEquals(" 2.5", link.firmware(), "a board without a name has a version");
    }

    @Test
    void firmwareWithoutAVersion_isNoAnswer() throws LinkLost {
        hears("F0 79 02 F7");
        assertNull(link.firmware());
    }

    /** A board that talks without end must not hold the thread: 16 times a buffer of 1024 bytes. */
    @Test
    void boardTalksWithoutEnd_oneLookEnds() throws LinkLost {
        byte[] message = HEX.parseHex("E0 01 02");
        for (int i = 0; i < 10_000; i++) {
            toHost.writeBytes(message);
        }
        link.read();
        assertEquals(16 * 1024, link.bytesSeen());
    }

    @Test
    void answerComesWithinTheTime_isWaitedForNoLonger() throws LinkLost {
        clock.after(5, () -> toHost.writeBytes(HEX.parseHex("F9 02 05")));
        long beganNs = clock.nowNs();
        assertTrue(link.await(() -> link.major() == 2, 10 * MS));
        assertEquals(5 * MS, clock.nowNs() - beganNs);
        assertEquals(5, link.minor());
        assertEquals(clock.nowNs(), link.arrivedNs());
        assertFalse(link.await(() -> false, 10 * MS));
        assertEquals(15 * MS, clock.nowNs() - beganNs);
    }

    @Test
    void answerIsThereAlready_isTakenWithoutAWait() throws LinkLost {
        toHost.writeBytes(HEX.parseHex("F9 02 05"));
        long beganNs = clock.nowNs();
        assertTrue(link.await(() -> link.major() == 2, 10 * MS));
        assertEquals(beganNs, clock.nowNs());
    }

    // outputs

    private static OutputPin pin(Output output, String name, PinKind kind, double safe) {
        return new OutputPin(output, name, kind, false, new Scale(1, 0, kind.twoState ? 1 : 8, false), safe);
    }

    /** Pins 8, 10 and 16 are relays of ports 1 and 2, pin 9 has PWM. */
    private FirmataOutputs outputs() throws LinkLost {
        byte[] capability = new byte[24 * 5];
        byte[] mapping = new byte[24];
        Arrays.fill(mapping, (byte) 0x7F);
        for (int i = 0; i < 24; i++) {
            System.arraycopy(new byte[] {1, 1, 3, 8, 0x7F}, 0, capability, 5 * i, 5);
        }
        return new FirmataOutputs(
                link,
                List.of(
                        pin(Output.POSITIVE_CONTACTOR, "8", PinKind.DIGITAL, 0),
                        pin(Output.COOLANT_PUMP, "10", PinKind.DIGITAL, 1),
                        pin(Output.RADIATOR_FAN_DUTY, "9", PinKind.PWM, 5),
                        pin(Output.BUZZER, "16", PinKind.DIGITAL, 0)),
                new FirmataPins(capability, mapping));
    }

    private String driven(FirmataOutputs outputs, long nowNs, boolean changed, long... raw) throws LinkLost {
        assertEquals(changed, outputs.drive(raw, nowNs, 100));
        link.send();
        return sent();
    }

    private FirmataOutputs made() throws LinkLost {
        FirmataOutputs outputs = outputs();
        outputs.makeAll();
        link.send();
        return outputs;
    }

    @Test
    void made_everyPinGetsItsModeAndItsSafeValueWithNothingBetween() throws LinkLost {
        made();
        assertEquals("F4 08 01 F4 0A 01 F4 09 03 F4 10 01 E9 05 00 91 04 00 92 00 00", sent());
    }

    @Test
    void driven_onlyWhatChangesIsSentAndRelaysOfAPortTogether() throws LinkLost {
        FirmataOutputs outputs = made();
        assertFalse(driven(outputs, 1000, false, 0, 1, 5, 0).isEmpty(), "the first time everything");
        assertEquals("", driven(outputs, 1001, false, 0, 1, 5, 0));
        assertEquals("91 05 00", driven(outputs, 1002, true, 1, 1, 5, 0));
        assertEquals("E9 07 00", driven(outputs, 1003, true, 1, 1, 7, 0));
        assertEquals("91 01 00 92 01 00", driven(outputs, 1004, true, 1, 0, 7, 1));
    }

    @Test
    void unchanged_isSentAgainAfterItsTimeAndNotSooner() throws LinkLost {
        FirmataOutputs outputs = made();
        driven(outputs, 1000, false, 0, 1, 5, 0);
        assertEquals("", driven(outputs, 1100, false, 0, 1, 5, 0));
        assertEquals("E9 05 00 91 04 00 92 00 00", driven(outputs, 1101, false, 0, 1, 5, 0));
        assertEquals("", driven(outputs, 1102, false, 0, 1, 5, 0));
    }

    /** A pin that is no output yet is not touched by a release. */
    @Test
    void released_onlyWhatIsDrivenIsWritten() throws LinkLost {
        FirmataOutputs outputs = outputs();
        outputs.release();
        link.send();
        assertEquals("", sent());
        outputs.setDriven(1, true);
        outputs.release();
        link.send();
        assertEquals("91 04 00", sent());
    }

    // the writer's limits

    @ParameterizedTest(name = "pin {0}, {1} counts")
    @CsvSource({
        "15, 16383, EF 7F 7F",
        "15, 16384, F0 6F 0F 00 00 01 F7",
        "16, 1, F0 6F 10 01 F7",
        "16, 127, F0 6F 10 7F F7",
        "16, 128, F0 6F 10 00 01 F7"
    })
    void analogueValue_takesTheFormThatHasRoom(int pin, long value, String hex) throws LinkLost {
        link.writer().analogue(pin, value);
        link.send();
        assertEquals(hex, sent());
        link.send();
        assertEquals("", sent(), "once only");
    }

    @Test
    void port_isTwoBytesOfSevenBits() throws LinkLost {
        link.writer().digitalPort(15, 0xFF);
        link.send();
        assertEquals("9F 7F 01", sent());
    }

    @Test
    void nothingToSay_nothingIsWritten() throws LinkLost {
        int[] writes = {0};
        port.spy(bytes -> writes[0]++);
        link.send();
        assertEquals(0, writes[0]);
    }
}
