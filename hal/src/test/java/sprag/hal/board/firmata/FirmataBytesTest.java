package sprag.hal.board.firmata;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;

/**
 * The bytes on the line, against those that an independent client's tests state.
 *
 * <p>Source: firmata/firmata.js (MIT licence), commit 4a3b86b46bedf5d238e19ff9aed08742cc607114,
 * packages/firmata.js/test/unit/firmata.test.js; message layout: firmata/protocol, protocol.md, commit 7908873.
 */
class FirmataBytesTest {
    private final List<String> heard = new ArrayList<>();
    private final FirmataParser parser = new FirmataParser(new FirmataListener() {
        @Override
        public void version(int major, int minor) {
            heard.add("version " + major + "." + minor);
        }

        @Override
        public void analogue(int channel, int value) {
            heard.add("A" + channel + " = " + value);
        }

        @Override
        public void digital(int port, int bits) {
            heard.add("port " + port + " = " + Integer.toBinaryString(bits));
        }

        @Override
        public void sysex(int command, byte[] data) {
            heard.add(Integer.toHexString(command) + " " + HexFormat.of().formatHex(data));
        }
    });

    @ParameterizedTest(name = "{2}: {0}")
    @CsvSource(delimiter = '|', textBlock = """
        F9 02 03                | version 2.3      | version 2.3 report
        E1 7F 07                | A1 = 1023        | A1 = 1023: 127 + 7 * 128
        E0 34 01                | A0 = 180         | 52 + 128 = 180
        90 04 00                | port 0 = 100     | pin 2 high
        90 00 00                | port 0 = 0       | pin 2 low
        91 05 00                | port 1 = 101     | pins 8 and 10
        90 00 01                | port 0 = 10000000| pin 7 is the first bit of the second byte
        F0 6E 02 00 00 08 F7    | 6e 02000008      | pin 2 state 1024
        F0 6C 00 01 01 01 7F F7 | 6c 000101017f    | capability item of one pin
        """)
    void aMessage_isHeardAsWritten(String hex, String expected, String because) {
        feed(hex);
        assertEquals(List.of(expected), heard, because);
        assertEquals(0, parser.strayBytes());
    }

    @Test
    @DisplayName("F0 79 02 03 53 00 74 00 ...: the firmware report of a stock board")
    void firmwareReport_givesNameAndVersion() throws LinkLost {
        VirtualClock clock = new VirtualClock();
        byte[] report = HexFormat.ofDelimiter(" ")
                .parseHex("F0 79 02 03 53 00 74 00 61 00 6E 00 64 00 61 00 72 00 64 00 46 00 69 00 72 00 6D 00 61 00 74"
                        + " 00 61 00 F7");
        FirmataLink link = link(clock, report);
        link.read();
        assertEquals("StandardFirmata 2.3", link.firmware());
    }

    @Test
    void whatIsSent_isByteForByteWhatTheReferenceClientSends() {
        assertSent("F9", FirmataWriter::askVersion);
        assertSent("F0 6B F7", FirmataWriter::askCapabilities);
        assertSent("F0 69 F7", FirmataWriter::askMapping);
        assertSent("F0 7A 64 00 F7", w -> w.samplingMs(100));
        assertSent("F0 7A 14 00 F7", w -> w.samplingMs(20));
        assertSent("F0 7A 0A 00 F7", w -> w.samplingMs(10));
        assertSent("F0 7A 7F 7F F7", w -> w.samplingMs(0x3FFF));
        assertSent("D0 01", w -> w.reportDigital(0, true));
        assertSent("C1 01", w -> w.reportAnalogue(1, true));
        assertSent("90 08 00", w -> w.digitalPort(0, 1 << 3));
        assertSent("92 08 00", w -> w.digitalPort(2, 1 << 19 - 16));
        assertSent("90 14 00", w -> w.digitalPort(0, 1 << 2 | 1 << 4));
        assertSent("91 05 00", w -> w.digitalPort(1, 1 | 1 << 2));
        assertSent("F0 6D 02 F7", w -> w.askPinState(2));
    }

    @Test
    @DisplayName("mode 2 is analogue and 3 is PWM: the protocol's table, not its example")
    void pinModes_haveTheNumbersOfTheTable() {
        assertSent("F4 0E 02", w -> w.pinMode(14, PinMode.ANALOGUE));
        assertSent("F4 03 03", w -> w.pinMode(3, PinMode.PWM));
        assertSent("F4 04 0B", w -> w.pinMode(4, PinMode.PULL_UP));
        assertSent("F4 05 00", w -> w.pinMode(5, PinMode.INPUT));
        assertSent("F4 06 01", w -> w.pinMode(6, PinMode.OUTPUT));
    }

    @Test
    @DisplayName("pins above 15 and values above 14 bits need the extended message (protocol.md, extended analog)")
    void analogueWrite_takesTheExtendedFormWhereTheNormalOneHasNoRoom() {
        assertSent("E9 7F 01", w -> w.analogue(9, 255));
        assertSent("F0 6F 10 7F 01 F7", w -> w.analogue(16, 255));
        assertSent("F0 6F 03 01 00 01 F7", w -> w.analogue(3, 0x4001));
    }

    private void feed(String hex) {
        byte[] bytes = HexFormat.ofDelimiter(" ").parseHex(hex);
        parser.feed(bytes, bytes.length);
    }

    private static void assertSent(String hex, Consumer<FirmataWriter> what) {
        ByteArrayOutputStream sent = new ByteArrayOutputStream();
        MemoryPort port = new MemoryPort(new Silent()).spy(sent::writeBytes);
        FirmataWriter writer = new FirmataWriter();
        what.accept(writer);
        try {
            port.open();
            writer.sendTo(port);
        } catch (LinkLost e) {
            throw new AssertionError(e);
        }
        assertArrayEquals(HexFormat.ofDelimiter(" ").parseHex(hex), sent.toByteArray(), hex);
    }

    private static FirmataLink link(VirtualClock clock, byte[] once) throws LinkLost {
        MemoryPort port = new MemoryPort(new Silent() {
            private boolean given;

            @Override
            public int give(byte[] into) {
                if (given) {
                    return 0;
                }
                given = true;
                System.arraycopy(once, 0, into, 0, once.length);
                return once.length;
            }
        });
        port.open();
        return new FirmataLink(port, clock);
    }

    private static class Silent implements MemoryPort.FarEnd {
        @Override
        public void take(byte[] bytes, int length) {}

        @Override
        public int give(byte[] into) {
            return 0;
        }
    }
}
