package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FrameBitsTest {
    /** Bits as counted by canframelen.c of can-utils (commit 95aae6bf), which cites eqs. 1 to 3 of Davis et al. (2007). */
    @ParameterizedTest
    @CsvSource({
        "123#, 6858, 48, 55",
        "123#1122334455667788, 4237, 112, 135",
        "000#0000000000000000, 145B, 127, 135",
        "7FF#FFFFFFFFFFFFFFFF, 4C89, 126, 135",
        "555#AAAAAAAAAAAAAAAA, 7DCE, 112, 135",
        "078#0783C1E0F0783C1E, 52BE, 125, 135",
        "12345678#112233, 22D0, 92, 110",
        "0CF00400#F07D8227681300F2, 0855, 139, 160",
        "00000000#0000000000000000, 3DAF, 150, 160",
        "1FFFFFFF#FFFFFFFFFFFFFFFF, 1B69, 149, 160"
    })
    void publishedFrame_counted_hasItsBits(String text, String crc, int exact, int worst) {
        CanFrame frame = new CanFrame();
        assertEquals(CandumpText.Kind.FRAME, CandumpText.read("(0000000001.000000) can0 " + text, frame));
        assertEquals(Integer.parseInt(crc, 16), FrameBits.crc(frame));
        assertEquals(exact, FrameBits.exact(frame));
        assertEquals(worst, FrameBits.worst(frame.extended(), frame.length()));
    }

    @Test
    void randomFrames_counted_liesBetweenPlainAndWorst() {
        Random random = new Random(2);
        CanFrame frame = new CanFrame();
        for (int n = 0; n < 20_000; n++) {
            boolean extended = random.nextBoolean();
            int length = random.nextInt(9);
            frame.begin(random.nextInt(extended ? 1 << 29 : 1 << 11), extended, length);
            for (int i = 0; i < length; i++) {
                frame.data()[i] = (byte) (random.nextInt(4) == 0 ? 0 : random.nextInt());
            }
            int bits = FrameBits.exact(frame);
            assertTrue(bits >= (extended ? 67 : 47) + 8 * length, frame::toString);
            assertTrue(bits <= FrameBits.worst(extended, length), frame::toString);
        }
    }

    /** Vectors that public tests quote from the CRC library of AUTOSAR; the first five columns as bytes in hex. */
    @ParameterizedTest
    @CsvSource({
        "00000000, 59",
        "F20183, 37",
        "0FAA0055, 79",
        "00FF5511, B8",
        "332255AABBCCDDEEFF, CB",
        "926B55, 8C",
        "FFFFFFFF, 74",
        "313233343536373839, 4B"
    })
    void publishedBytes_summed_giveTheirCrc(String bytes, String sum) {
        byte[] data = java.util.HexFormat.of().parseHex(bytes);
        assertEquals(Integer.parseInt(sum, 16), CheckSum.CRC_8_1D.of(data, data.length, -1));
    }

    @Test
    void digitsOneToNine_otherPolynomialAndPlainSum_giveTheirSums() {
        byte[] data = "123456789".getBytes(java.nio.charset.StandardCharsets.US_ASCII);
        assertEquals(0xDF, CheckSum.CRC_8_2F.of(data, data.length, -1), "catalogue of CRC parameters: check value DF");
        assertEquals(477 % 256, CheckSum.SUM_8.of(data, data.length, -1));
        assertEquals((477 - '3') % 256, CheckSum.SUM_8.of(data, data.length, 2), "its own byte is left out");
    }
}
