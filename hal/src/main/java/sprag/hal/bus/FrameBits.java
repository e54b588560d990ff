package sprag.hal.bus;

/**
 * How long a frame is on the wire, with stuffed bits and the three bits of silence behind it.
 *
 * <p>ISO 11898-1: after five equal bits from the start of the frame to the end of the check sum, one of the other kind is put in.
 */
public final class FrameBits {
    private static final int CRC_POLYNOMIAL = 0x4599;
    private static final int CRC_BITS = 15;
    /** Delimiters, acknowledgement, end of frame and the silence behind it: never stuffed. */
    private static final int TAIL_BITS = 13;

    private int count;
    private int crc;
    private int last = -1;
    private int equal;

    private FrameBits() {}

    /** The bits of a frame as it stands.
     *
     * @param frame which one
     * @return bits, with stuffing and three bits of silence
     */
    public static int exact(CanFrame frame) {
        FrameBits bits = new FrameBits();
        bits.crcOf(frame);
        return bits.count + TAIL_BITS;
    }

    /** The most bits that a frame of some length can have: eqs. 1 to 3 of Davis, Burns, Bril and Lukkien (2007).
     *
     * @param extended whether the identifier has 29 bits
     * @param bytes data bytes
     * @return bits, with stuffing and three bits of silence
     */
    public static int worst(boolean extended, int bytes) {
        return (extended ? 80 : 55) + 10 * bytes;
    }

    /** The check sum of 15 bits that the frame carries.
     *
     * @param frame which one
     * @return 15 bits
     */
    static int crc(CanFrame frame) {
        return new FrameBits().crcOf(frame);
    }

    private int crcOf(CanFrame frame) {
        int remote = frame.remote() ? 1 : 0;
        put(0, 1);
        if (frame.extended()) {
            put(frame.id() >> 18, 11);
            put(0b11, 2);
            put(frame.id() & 0x3FFFF, 18);
            put(remote, 1);
            put(0, 2);
        } else {
            put(frame.id(), 11);
            put(remote, 1);
            put(0, 2);
        }
        put(frame.length(), 4);
        for (int i = 0; i < frame.length() && !frame.remote(); i++) {
            put(frame.data()[i] & 0xFF, 8);
        }
        int sum = crc;
        put(sum, CRC_BITS);
        return sum;
    }

    private void put(int value, int bits) {
        for (int i = bits - 1; i >= 0; i--) {
            int bit = value >> i & 1;
            boolean divide = (crc >> CRC_BITS - 1 & 1) != bit;
            crc = (crc << 1 ^ (divide ? CRC_POLYNOMIAL : 0)) & 0x7FFF;
            stuff(bit);
        }
    }

    private void stuff(int bit) {
        count++;
        equal = bit == last ? equal + 1 : 1;
        last = bit;
        if (equal == 5) {
            count++;
            last = 1 - bit;
            equal = 1;
        }
    }
}
