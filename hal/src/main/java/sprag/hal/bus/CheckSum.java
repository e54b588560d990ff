package sprag.hal.bus;

import java.util.Locale;

/** How a message's check sum is made, over all its bytes but the sum's own. One row each. */
public enum CheckSum {
    // @formatter:off
    //          polynomial  meaning
    /** No check sum. */
    NONE(0, "none"),
    /** The other bytes added, modulo 256. */
    SUM_8(0, "the other bytes added, modulo 256"),
    /** The polynomial of SAE J1850. */
    CRC_8_1D(0x1D, "CRC of 8 bits as in SAE J1850: polynomial 1D, begins with FF, inverted at the end"),
    /** The same with another polynomial. */
    CRC_8_2F(0x2F, "CRC of 8 bits: polynomial 2F, begins with FF, inverted at the end");
    // @formatter:on

    /** What it is, for people. */
    public final String meaning;

    private final int polynomial;

    CheckSum(int polynomial, String meaning) {
        this.polynomial = polynomial;
        this.meaning = meaning;
    }

    /** The word in files.
     *
     * @return e.g. {@code crc-8-1d}
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The sum of some bytes.
     *
     * @param data the bytes
     * @param length how many of them
     * @param without the place of the sum itself, which is left out; -1 for none
     * @return 0 to 255
     */
    public int of(byte[] data, int length, int without) {
        int sum = polynomial == 0 ? 0 : 0xFF;
        for (int i = 0; i < length; i++) {
            if (i != without) {
                sum = polynomial == 0 ? sum + data[i] & 0xFF : divided(sum ^ data[i] & 0xFF);
            }
        }
        return polynomial == 0 ? sum : sum ^ 0xFF;
    }

    private int divided(int rest) {
        int divided = rest;
        for (int bit = 0; bit < 8; bit++) {
            divided = (divided & 0x80) != 0 ? (divided << 1 ^ polynomial) & 0xFF : divided << 1;
        }
        return divided;
    }
}
