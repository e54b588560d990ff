package sprag.hal.bus;

/**
 * Where a number stands among the 64 bits of a frame. Bit {@code b} of byte {@code n} has the number {@code 8 n + b}.
 *
 * <pre>
 *            little end first                    big end first
 *  start     the least significant bit           the most significant bit
 *  next      the number + 1                      the number - 1; after bit 0 of a byte, bit 7 of the following byte
 * </pre>
 *
 * @param start the number of the first bit
 * @param length how many bits, 1 to 64
 * @param bigEndFirst whether the most significant bit comes first
 * @param signed whether the highest bit is a sign, in two's complement
 */
public record BitField(int start, int length, boolean bigEndFirst, boolean signed) {
    private static final int BITS = 64;

    /** Whether all its bits lie within so many bytes.
     *
     * @param bytes of the frame
     * @return false when some bit lies outside, or the length is outside 1..64
     */
    public boolean fits(int bytes) {
        if (start < 0 || length < 1 || length > BITS) {
            return false;
        }
        int bit = start;
        for (int i = 1; i < length; i++) {
            bit = next(bit);
        }
        return start < 8 * bytes && bit < 8 * bytes;
    }

    /** Which bits it takes.
     *
     * @return bit {@code p} is set where the bit with the number {@code p} belongs to this field
     */
    public long positions() {
        long taken = 0;
        int bit = start;
        for (int i = 0; i < length; i++) {
            taken |= 1L << bit;
            bit = next(bit);
        }
        return taken;
    }

    /** Takes the number out.
     *
     * @param data eight bytes
     * @return its bits without sign
     */
    public long raw(byte[] data) {
        long raw = 0;
        int bit = start;
        for (int i = 0; i < length; i++) {
            long one = data[bit >> 3] >> (bit & 7) & 1;
            raw = bigEndFirst ? raw << 1 | one : raw | one << i;
            bit = next(bit);
        }
        return raw;
    }

    /** Puts the number in; the other bits stay as they are.
     *
     * @param data eight bytes
     * @param raw its bits; those above the length are ignored
     */
    public void put(byte[] data, long raw) {
        int bit = start;
        for (int i = 0; i < length; i++) {
            long one = raw >> (bigEndFirst ? length - 1 - i : i) & 1;
            int mask = 1 << (bit & 7);
            data[bit >> 3] = (byte) (one != 0 ? data[bit >> 3] | mask : data[bit >> 3] & ~mask);
            bit = next(bit);
        }
    }

    /** The number with its sign.
     *
     * @param raw bits as {@link #raw} gives them
     * @return the number; for a field of 64 bits without sign the same bits
     */
    public long number(long raw) {
        boolean negative = signed && length < BITS && (raw >> length - 1 & 1) != 0;
        return negative ? raw - (1L << length) : raw;
    }

    /** The number with its sign, also of a field of 64 bits without sign.
     *
     * @param raw bits as {@link #raw} gives them
     * @return the number, rounded where a double cannot hold it
     */
    public double asDouble(long raw) {
        boolean tooGreat = !signed && raw < 0;
        return tooGreat ? 2.0 * (raw >>> 1) + (raw & 1) : number(raw);
    }

    /** The greatest raw value.
     *
     * @return all bits set
     */
    public long allOnes() {
        return length == BITS ? -1L : (1L << length) - 1;
    }

    private int next(int bit) {
        if (!bigEndFirst) {
            return bit + 1;
        }
        return (bit & 7) == 0 ? bit + 15 : bit - 1;
    }
}
