package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class BusTextTest {
    @Test
    void hundredThousandFrames_writtenAndRead_areTheSame() {
        Random random = new Random(3);
        CanFrame frame = new CanFrame();
        CanFrame back = new CanFrame();
        byte[] text = new byte[SlcanText.LONGEST + 1];
        for (int n = 0; n < 100_000; n++) {
            fill(frame, random);
            int length = SlcanText.write(frame, text);
            assertTrue(SlcanText.read(text, length - 1, back));
            assertEquals(frame.toString(), back.toString());
            assertFalse(SlcanText.read(text, length - 2, back), "half a line is no frame");
            if (n % 100 == 0) {
                assertEquals(
                        CandumpText.Kind.FRAME, CandumpText.read(CandumpText.write(n * 1000L, "can0", frame), back));
                assertEquals(frame.toString(), back.toString());
            }
        }
    }

    private static void fill(CanFrame frame, Random random) {
        boolean extended = random.nextBoolean();
        frame.begin(random.nextInt(extended ? 1 << 29 : 1 << 11), extended, random.nextInt(9));
        if (random.nextInt(10) == 0) {
            frame.asRemote();
            return;
        }
        for (int i = 0; i < frame.length(); i++) {
            frame.data()[i] = (byte) random.nextInt();
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "t",
                "t12",
                "t1239",
                "t123",
                "t12g0",
                "t8000",
                "T123",
                "TFFFFFFFF0",
                "t1231",
                "t12310G",
                "x1230",
                "t1230000",
                "t123000000",
                "r1232112"
            })
    void brokenLine_read_isNoFrame(String line) {
        byte[] bytes = line.getBytes(StandardCharsets.US_ASCII);
        assertFalse(SlcanText.read(bytes, bytes.length, new CanFrame()), line);
    }

    /** The stamp counts milliseconds and begins again after a minute, so 0 is one of them. */
    @ParameterizedTest
    @ValueSource(strings = {"1F40", "0000", "EA5F"})
    void lineWithTimeStamp_read_isTheFrameWithoutIt(String stamp) {
        byte[] bytes = ("t1232AABB" + stamp).getBytes(StandardCharsets.US_ASCII);
        CanFrame frame = new CanFrame();
        assertTrue(SlcanText.read(bytes, bytes.length, frame));
        assertEquals("123#AABB", frame.toString());
    }

    /** Forms that the log reader of can-utils accepts. */
    @ParameterizedTest
    @CsvSource({
        "123#, FRAME, 123#, no data",
        "12345678#, FRAME, 12345678#, no data and 29 bits",
        "123#R7, FRAME, 123#R7, remote frame",
        "123#R, FRAME, 123#R0, remote frame without a length",
        "123#11.2233.44556677.88, FRAME, 123#1122334455667788, dots between bytes",
        "123#1122_9, FRAME, 123#1122, raw length behind the data",
        "32345678#112233, LEFT_OUT, , error frame",
        "123##1112233, LEFT_OUT, , CAN FD",
        "800#11, BROKEN, , more than 11 bits",
        "123#1, BROKEN, , half a byte",
        "123#112233445566778899, BROKEN, , nine bytes",
        "12#11, BROKEN, , two digits of identifier"
    })
    void logLine_read_isWhatItIs(String body, CandumpText.Kind kind, String frame, String because) {
        CanFrame read = new CanFrame();
        assertEquals(kind, CandumpText.read("(1436509052.249713) vcan0 " + body, read), because);
        if (kind == CandumpText.Kind.FRAME) {
            assertEquals(frame, read.toString(), because);
        }
    }

    @Test
    void logTime_readAndWritten_isTheSame() {
        String line = "(1436509052.249713) vcan0 044#2A366C2BBA";
        CanFrame frame = new CanFrame();
        assertEquals(CandumpText.Kind.FRAME, CandumpText.read(line + " R", frame));
        assertEquals(1_436_509_052_249_713_000L, CandumpText.timeNs(line));
        assertEquals(line, CandumpText.write(CandumpText.timeNs(line), "vcan0", frame));
        assertEquals(CandumpText.Kind.BROKEN, CandumpText.read("hello", frame));
    }

    @Test
    void logTime_nearItsBeginning_keepsItsZeros() {
        CanFrame frame = new CanFrame();
        frame.begin(0x4, true, 2);
        frame.data()[1] = (byte) 0x0A;
        assertEquals("(0000000012.000007) can0 00000004#000A", CandumpText.write(12_000_007_999L, "can0", frame));
    }
}
