package sprag.hal.board;

import java.util.Objects;

/** The settings of a serial line: speed, parity, stop bits. There are always eight data bits.
 *
 * @param baud bits per second
 * @param parity which check bit goes with each character
 * @param stopBits 1 or 2
 */
public record LineSettings(int baud, Parity parity, int stopBits) {
    /** How much of a line may be used at most; the rest is for what comes in bursts. */
    public static final double USABLE_SHARE = 0.8;

    /** The check bit of a character. */
    public enum Parity {
        /** None. */
        NONE,
        /** Makes the count of ones even. */
        EVEN,
        /** Makes the count of ones odd. */
        ODD
    }

    /** Checks the values.
     *
     * @param baud bits per second
     * @param parity which check bit goes with each character
     * @param stopBits 1 or 2
     * @throws IllegalArgumentException for a speed or a count of stop bits that no line has
     */
    public LineSettings {
        Objects.requireNonNull(parity, "parity");
        if (baud < 300 || baud > 4_000_000 || stopBits < 1 || stopBits > 2) {
            throw new IllegalArgumentException(
                    "baud = " + baud + " (300..4000000), stop bits = " + stopBits + " (1 or 2)");
        }
    }

    /** Bits that one character takes on the line: start, eight data, parity, stop.
     *
     * @return 10 to 12
     */
    public int bitsPerCharacter() {
        return 1 + 8 + (parity == Parity.NONE ? 0 : 1) + stopBits;
    }
}
