package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigInteger;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BitFieldTest {
    private static final Pattern SIGNAL = Pattern.compile("\\S+ (\\d+)\\|(\\d+)@([01])([+-])=(-?\\d+)");

    /** Payloads of the public tests of cantools (commit c1dcd396), start|length@order sign = raw; order 1 is little end first. */
    @ParameterizedTest
    @CsvSource({
        "Temperature 0|12@0-=55;AverageRadius 6|6@0+=32;Enable 7|1@0+=1, C006E00000000000",
        "Temperature 0|12@0-=-2047;AverageRadius 6|6@0+=0;Enable 7|1@0+=0, 0100200000000000",
        "A 6|15@0+=713;B 7|1@0+=1;C 38|15@0+=713;D 39|1@0+=0, 82C9000002C90000",
        "E 0|1@1+=1;F 1|15@1+=713;G 32|1@1+=0;H 33|15@1+=713, 9305000092050000",
        "I 0|4@1+=1;J 4|4@1+=2;K 8|4@1+=3, 2103000000000000",
        "L 7|64@0+=81985529216486895, 0123456789ABCDEF",
        "M 0|64@1+=81985529216486895, EFCDAB8967452301",
        "Fum 0|12@1-=9;Fam 12|12@1-=5, 0950000000000000",
        "s33 0|33@1-=-5, FBFFFFFF01000000",
        "s33 7|33@0-=-5, FFFFFFFD80000000",
        "s32 0|32@1-=-5, FBFFFFFF00000000",
        "s64 7|64@0-=-5, FFFFFFFFFFFFFFFB",
        "s7 1|7@1-=-40;s8big 0|8@0-=90;s9 17|9@1-=165;s8 26|8@1-=-43;s3big 39|3@0-=-4;s3 34|3@1-=1;"
                + "s10big 40|10@0-=-253;s7big 62|7@0-=-9, B0B44A55870181F7"
    })
    void publishedVector_packedAndUnpacked_isTheSame(String signals, String payload) {
        byte[] packed = new byte[8];
        byte[] expected = HexFormat.of().parseHex(payload);
        for (String signal : signals.split(";")) {
            Matcher parts = SIGNAL.matcher(signal);
            assertTrue(parts.matches(), signal);
            BitField field = new BitField(
                    Integer.parseInt(parts.group(1)),
                    Integer.parseInt(parts.group(2)),
                    parts.group(3).equals("0"),
                    parts.group(4).equals("-"));
            long number = Long.parseLong(parts.group(5));
            field.put(packed, number);
            assertEquals(number, field.number(field.raw(expected)), signal);
        }
        assertArrayEquals(expected, packed);
    }

    /** Against numbers made by shifting the whole frame as one integer, which shares no step with the bit by bit code. */
    @Test
    void hundredThousandRandomFields_ofBothOrders_areAsInOneGreatInteger() {
        Random random = new Random(1);
        int tried = 0;
        while (tried < 100_000) {
            BitField field = new BitField(
                    random.nextInt(64), 1 + random.nextInt(64), random.nextBoolean(), random.nextBoolean());
            if (!field.fits(8)) {
                continue;
            }
            tried++;
            byte[] data = new byte[8];
            random.nextBytes(data);
            long raw = random.nextLong() & field.allOnes();
            BigInteger mask = new BigInteger(Long.toUnsignedString(field.allOnes())).shiftLeft(shift(field));
            BigInteger expected = whole(data, field)
                    .andNot(mask)
                    .or(new BigInteger(Long.toUnsignedString(raw)).shiftLeft(shift(field)));
            assertEquals(
                    whole(data, field).and(mask).shiftRight(shift(field)).longValue(),
                    field.raw(data),
                    () -> "" + field);
            field.put(data, raw);
            assertEquals(expected, whole(data, field), () -> "" + field);
            assertEquals(raw, field.raw(data));
            assertEquals(field.length(), Long.bitCount(field.positions()));
        }
    }

    private static BigInteger whole(byte[] data, BitField field) {
        byte[] ordered = data.clone();
        for (int i = 0; i < 8 && !field.bigEndFirst(); i++) {
            ordered[i] = data[7 - i];
        }
        return new BigInteger(1, ordered);
    }

    /** How far the least significant bit stands from the right end of the whole frame, written in the field's order. */
    private static int shift(BitField field) {
        if (!field.bigEndFirst()) {
            return field.start();
        }
        int fromTheLeft = field.start() / 8 * 8 + 7 - field.start() % 8;
        return 64 - fromTheLeft - field.length();
    }

    @ParameterizedTest
    @CsvSource({
        "0, 64, false, 8, true, all bits of a frame",
        "1, 64, false, 8, false, one bit too far",
        "7, 64, true, 8, true, all bits from the other end",
        "6, 64, true, 8, false, one bit too far",
        "0, 8, false, 1, true, one byte of one",
        "0, 1, false, 1, true, one bit",
        "7, 1, false, 1, true, the last bit of one",
        "8, 1, false, 1, false, second byte of one",
        "8, 1, true, 1, false, also from the other end",
        "7, 9, true, 1, false, runs into the second byte of one",
        "0, 0, false, 8, false, no bit at all",
        "-1, 1, false, 8, false, before the frame",
        "0, 65, false, 8, false, more bits than a frame has"
    })
    void field_inFrameOfSomeLength_fitsOrNot(
            int start, int length, boolean big, int bytes, boolean fits, String because) {
        assertEquals(fits, new BitField(start, length, big, false).fits(bytes), because);
    }

    @Test
    void fieldOf64Bits_withoutSign_isNeverNegative() {
        byte[] ones = {-1, -1, -1, -1, -1, -1, -1, -1};
        BitField all = new BitField(0, 64, false, false);
        assertEquals(Math.pow(2, 64), all.asDouble(all.raw(ones)));
        assertEquals(Math.pow(2, 63), all.asDouble(Long.MIN_VALUE));
        assertEquals(Math.pow(2, 63) + 4096, all.asDouble(Long.MIN_VALUE + 4096));
        assertEquals(0, all.asDouble(0));
        assertEquals(-1, new BitField(0, 64, false, true).asDouble(-1));
        assertEquals(
                Double.NaN,
                new BusField("all", all, 1, 0, "", new Codes(Map.of(), List.of(), List.of(), Set.of(), 255), -1, 0)
                        .value(ones));
    }

    @Test
    void codes_fromAndListed_areUnknown() {
        Codes codes = new Codes(Map.of(), List.of(), List.of(), Set.of(3L), 0xFB00);
        assertTrue(codes.isUnknown(3));
        assertFalse(codes.isUnknown(4));
        assertFalse(codes.isUnknown(0xFAFF));
        assertTrue(codes.isUnknown(0xFB00));
        assertTrue(new Codes(Map.of(), List.of(), List.of(), Set.of(), 0).isUnknown(0), "no code of it is known");
    }

    @Test
    void field_ofAFrame_hasItsValueAndTheScaleOfAPin() {
        BusField field = new BusField("t", new BitField(0, 8, false, true), 0.5, -40, "c", Codes.NONE, -1, 0);
        assertEquals(-39, field.value(new byte[] {2, 0, 0, 0, 0, 0, 0, 0}));
        assertEquals(-41, field.value(new byte[] {-2, 0, 0, 0, 0, 0, 0, 0}));
        assertEquals(-39, field.scale().value(2));
        assertEquals(-41, field.scale().value(0xFE));
    }

    @Test
    void frame_copiedAndBegunAnew_holdsNothingOld() {
        CanFrame frame = new CanFrame().begin(0x123, true, 2);
        frame.data()[1] = 7;
        CanFrame copy = new CanFrame();
        copy.copyFrom(frame);
        assertEquals("00000123#0007", copy.toString());
        assertEquals("123#R2", frame.begin(0x123, false, 2).asRemote().toString());
        assertEquals("123#0000", frame.begin(0x123, false, 2).toString());
        assertEquals("00000123#0007", copy.toString());
    }

    /** A file may hold both; they are two messages. */
    @Test
    void identifiers_ofElevenAnd29Bits_haveDifferentKeysAndTexts() {
        assertEquals(0x123, CanFrame.keyOf(0x123, false));
        assertEquals(0x8000_0123L, CanFrame.keyOf(0x123, true));
        assertEquals("120", BusBench.MAP.messages().get(0).idText());
        assertEquals("18FF4521", BusBench.MAP.messages().get(1).idText());
        assertEquals("crc-8-1d", CheckSum.CRC_8_1D.word());
    }

    @Test
    void twoListeners_areBothToldInOrder() {
        StringBuilder told = new StringBuilder();
        FrameListener first = (frame, sent, nowNs) -> told.append("first ").append(sent);
        FrameListener both =
                first.and((frame, sent, nowNs) -> told.append(", second ").append(nowNs));
        both.frame(new CanFrame(), true, 5);
        assertEquals("first true, second 5", told.toString());
    }
}
