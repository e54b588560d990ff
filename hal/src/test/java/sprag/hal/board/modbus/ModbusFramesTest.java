package sprag.hal.board.modbus;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.HexFormat;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LineSettings.Parity;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;

/**
 * Frames as this driver sends and reads them, against published ones.
 *
 * <p>Unit 17: the worked examples of the protocol's reference guide (coils 20 to 56 and so on), as reprinted in several public
 * listings. Codes: pymodbus, constants.py, commit 736127513ceeca0fa9bd3d3adcf7516a4ffc161f.
 */
class ModbusFramesTest {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
    private static final LineSettings FAST = new LineSettings(115200, Parity.NONE, 1);

    private final ByteArrayOutputStream sent = new ByteArrayOutputStream();
    private final VirtualClock clock = new VirtualClock();

    @ParameterizedTest(name = "{4}")
    @CsvSource(delimiter = '|', textBlock = """
        17 | COIL     | 19  | 37 | coils 20 to 56            | 11 01 00 13 00 25 0E 84 | 11 01 05 CD 6B B2 0E 1B 45 E6       | CD 6B B2 0E 1B
        17 | DISCRETE | 196 | 22 | inputs 197 to 218         | 11 02 00 C4 00 16 BA A9 | 11 02 03 AC DB 35 20 18             | AC DB 35
        17 | HOLDING  | 107 | 3  | holding registers 108-110 | 11 03 00 6B 00 03 76 87 | 11 03 06 AE 41 56 52 43 40 49 AD    | AE 41 56 52 43 40
        2  | HOLDING  | 0   | 3  | three registers of unit 2 | 02 03 00 00 00 03 05 F8 | 02 03 06 00 00 00 01 00 02 E5 84    | 00 00 00 01 00 02
        """)
    void read_sendsThePublishedRequestAndReadsThePublishedReply(
            int unit, ModbusTable table, int from, int count, String what, String request, String reply, String data)
            throws Exception {
        int[] values = line(unit, reply).read(table, from, count);
        assertEquals(request, HEX.formatHex(sent.toByteArray()), what);
        byte[] published = HEX.parseHex(data);
        for (int i = 0; i < count; i++) {
            int expected = table.bits
                    ? published[i / 8] >> i % 8 & 1
                    : (published[2 * i] & 0xFF) << 8 | published[2 * i + 1] & 0xFF;
            assertEquals(expected, values[i], what + ", value " + i);
        }
    }

    @ParameterizedTest(name = "{2}: {4}")
    @CsvSource(delimiter = '|', textBlock = """
        17 | COIL    | 172 | 1                    | 11 05 00 AC FF 00 4E 8B       | 11 05 00 AC FF 00 4E 8B
        17 | HOLDING | 1   | 3                    | 11 06 00 01 00 03 9A 9B       | 11 06 00 01 00 03 9A 9B
        1  | HOLDING | 0   | 255                  | 01 06 00 00 00 FF C9 8A       | 01 06 00 00 00 FF C9 8A
        1  | HOLDING | 0   | 1077                 | 01 06 00 00 04 35 4B 1D       | 01 06 00 00 04 35 4B 1D
        17 | COIL    | 19  | 1 0 1 1 0 0 1 1 1 0  | 11 0F 00 13 00 0A 02 CD 01 BF 0B | 11 0F 00 13 00 0A 26 99
        """)
    void write_sendsThePublishedRequest(
            int unit, ModbusTable table, int from, String values, String request, String reply) throws Exception {
        String[] texts = values.split(" ");
        long[] written = new long[texts.length];
        for (int i = 0; i < texts.length; i++) {
            written[i] = Long.parseLong(texts[i]);
        }
        line(unit, reply).write(table, from, written);
        assertEquals(request, HEX.formatHex(sent.toByteArray()));
    }

    @ParameterizedTest(name = "{2}")
    @CsvSource(delimiter = '|', textBlock = """
        10 | 0A 81 02 B0 53 | no such address
        2  | 02 83 03 F1 31 | does not take the value or the count
        """)
    void exceptionReply_isToldInWords(int unit, String reply, String words) {
        ModbusTable table = unit == 10 ? ModbusTable.COIL : ModbusTable.HOLDING;
        ModbusLine.Refused refused =
                assertThrows(ModbusLine.Refused.class, () -> line(unit, reply).read(table, 0, 1));
        assertTrue(refused.getMessage().contains(words), refused.getMessage());
        assertTrue(refused.getMessage().contains("unit " + unit), refused.getMessage());
    }

    @Test
    @DisplayName("codes 1 to 8, 10 and 11 have words; 9 and 12 are not defined")
    void everyDefinedCode_hasWords() {
        for (int code : new int[] {1, 2, 3, 4, 5, 6, 7, 8, 10, 11}) {
            assertTrue(ExceptionCode.explain(code).contains("(exception " + code + ")"), ExceptionCode.explain(code));
        }
        assertTrue(ExceptionCode.explain(9).contains("does not define"));
        assertTrue(ExceptionCode.explain(12).contains("does not define"));
    }

    @Test
    @DisplayName("3.5 characters of 11 bits at 9600 Bd are 4.010 ms; above 19200 Bd it is 1.750 ms")
    void silentInterval_isThatOfTheSerialLine() {
        assertEquals(4_010_417, PortConnection.silenceNs(new LineSettings(9600, Parity.EVEN, 1)));
        assertEquals(1_750_000, PortConnection.silenceNs(FAST));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void anyNonsenseAsReply_endsInWordsAndNothingElse(long seed) throws Exception {
        Random random = new Random(seed);
        for (int i = 0; i < 60; i++) {
            byte[] noise = new byte[random.nextInt(40)];
            random.nextBytes(noise);
            if (noise.length > 2 && random.nextBoolean()) {
                noise[0] = 1;
                noise[1] = (byte) (random.nextBoolean() ? 3 : random.nextInt(256));
            }
            LinkLost lost = assertThrows(
                    LinkLost.class, () -> line(1, HEX.formatHex(noise)).read(ModbusTable.HOLDING, 0, 2));
            assertTrue(lost.getMessage().startsWith("unit 1 on memory gave no good reply"), lost.getMessage());
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void anyOneChangedBit_isNotTakenForAReading(long seed) throws Exception {
        Random random = new Random(seed);
        byte[] good = HEX.parseHex("11 03 06 AE 41 56 52 43 40 49 AD");
        for (int i = 0; i < 40; i++) {
            byte[] bad = good.clone();
            int bit = random.nextInt(bad.length * 8);
            bad[bit / 8] ^= (byte) (1 << bit % 8);
            assertThrows(LinkLost.class, () -> line(17, HEX.formatHex(bad)).read(ModbusTable.HOLDING, 107, 3));
        }
    }

    @Test
    void theSimulatedModulesCheckSum_isThatOfThePublishedFrames() {
        byte[] frame = HEX.parseHex("11 01 00 13 00 25 0E 84");
        assertArrayEquals(new byte[] {0x0E, (byte) 0x84}, new byte[] {
            (byte) ModuleSim.sum(frame, 6), (byte) (ModuleSim.sum(frame, 6) >> 8)
        });
    }

    private ModbusLine line(int unit, String reply) throws LinkLost {
        sent.reset();
        byte[] answer = HEX.parseHex(reply);
        MemoryPort port = new MemoryPort(new MemoryPort.FarEnd() {
            private boolean asked;

            @Override
            public void take(byte[] bytes, int length) {
                asked = true;
            }

            @Override
            public int give(byte[] into) {
                if (!asked) {
                    return 0;
                }
                asked = false;
                System.arraycopy(answer, 0, into, 0, answer.length);
                return answer.length;
            }
        });
        port.spy(bytes -> {
            sent.reset();
            sent.writeBytes(bytes);
        });
        port.open();
        return new ModbusLine(new PortConnection(port, FAST, clock), unit, 0, 20);
    }
}
