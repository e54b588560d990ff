package sprag.hal.bus;

import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;

/** One data or remote frame of classic CAN. It is meant to be filled again and again. */
public final class CanFrame {
    /** The most data bytes of a classic frame. */
    public static final int MOST_BYTES = 8;
    /** The greatest identifier of 11 bits. */
    public static final int GREATEST_SHORT_ID = 0x7FF;
    /** The greatest identifier of 29 bits. */
    public static final int GREATEST_LONG_ID = 0x1FFF_FFFF;

    private static final HexFormat UPPER_CASE = HexFormat.of().withUpperCase();

    private final byte[] data = new byte[MOST_BYTES];
    private int id;
    private boolean extended;
    private boolean remote;
    private int length;

    /** An empty frame with the identifier 0. */
    public CanFrame() {}

    /** Begins anew: a data frame of zeros.
     *
     * @param newId identifier
     * @param isExtended whether the identifier has 29 bits
     * @param newLength data bytes, 0 to 8
     * @return this
     */
    public CanFrame begin(int newId, boolean isExtended, int newLength) {
        id = newId;
        extended = isExtended;
        remote = false;
        length = newLength;
        Arrays.fill(data, (byte) 0);
        return this;
    }

    /** Makes it a remote frame: a request for data, with none of its own.
     *
     * @return this
     */
    public CanFrame asRemote() {
        remote = true;
        return this;
    }

    /** Becomes a copy.
     *
     * @param other of which
     */
    public void copyFrom(CanFrame other) {
        begin(other.id, other.extended, other.length);
        remote = other.remote;
        System.arraycopy(other.data, 0, data, 0, MOST_BYTES);
    }

    /** The identifier.
     *
     * @return 11 or 29 bits
     */
    public int id() {
        return id;
    }

    /** Whether the identifier has 29 bits.
     *
     * @return true for 29 bits
     */
    public boolean extended() {
        return extended;
    }

    /** Whether it asks for data and carries none.
     *
     * @return true for a remote frame
     */
    public boolean remote() {
        return remote;
    }

    /** How many data bytes it has.
     *
     * @return 0 to 8
     */
    public int length() {
        return length;
    }

    /** The data.
     *
     * @return live, always eight bytes; those from {@link #length()} on are 0
     */
    public byte[] data() {
        return data;
    }

    /** Tells identifiers of 11 and 29 bits apart in one number.
     *
     * @return the identifier, and bit 31 for 29 bits
     */
    public long key() {
        return keyOf(id, extended);
    }

    /** The key of an identifier.
     *
     * @param id the identifier
     * @param extended whether it has 29 bits
     * @return see {@link #key()}
     */
    public static long keyOf(int id, boolean extended) {
        return id | (extended ? 1L << 31 : 0);
    }

    /** An identifier as people write it.
     *
     * @param id the identifier
     * @param extended whether it has 29 bits
     * @return three or eight hex digits
     */
    public static String idText(int id, boolean extended) {
        String digits = Integer.toHexString(id).toUpperCase(Locale.ROOT);
        return "0".repeat(Math.max(0, (extended ? 8 : 3) - digits.length())) + digits;
    }

    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(idText(id, extended)).append('#');
        if (remote) {
            return text.append('R').append(length).toString();
        }
        return text.append(UPPER_CASE.formatHex(data, 0, length)).toString();
    }
}
