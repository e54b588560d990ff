package sprag.hal.bus;

/**
 * Frames as text on a serial line, as the slcan driver of the Linux kernel reads and writes them.
 *
 * <pre>
 *  t 123 2 11 22        data frame, 11 bits: identifier, bytes, data
 *  T 18FF4520 1 0A      data frame, 29 bits
 *  r 123 2  R ... 2     the same as remote frames
 * </pre>
 */
public final class SlcanText {
    /** The longest line: 29 bits, eight bytes, a time stamp. */
    static final int LONGEST = 1 + 8 + 1 + 16 + 4;

    private static final byte[] DIGITS = {'0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'A', 'B', 'C', 'D', 'E', 'F'
    };

    private SlcanText() {}

    /** Writes a frame.
     *
     * @param frame which one
     * @param into at least 32 bytes
     * @return how many were written, with the carriage return at the end
     */
    public static int write(CanFrame frame, byte[] into) {
        char letter = frame.remote() ? 'r' : 't';
        int at = 0;
        into[at++] = (byte) (frame.extended() ? Character.toUpperCase(letter) : letter);
        for (int shift = frame.extended() ? 28 : 8; shift >= 0; shift -= 4) {
            into[at++] = DIGITS[frame.id() >> shift & 15];
        }
        into[at++] = DIGITS[frame.length()];
        for (int i = 0; i < frame.length() && !frame.remote(); i++) {
            into[at++] = DIGITS[frame.data()[i] >> 4 & 15];
            into[at++] = DIGITS[frame.data()[i] & 15];
        }
        into[at++] = '\r';
        return at;
    }

    /** Reads a line.
     *
     * @param line its bytes without the carriage return
     * @param length how many
     * @param into the frame; of no meaning when the line is none
     * @return false when the line is not exactly one frame
     */
    public static boolean read(byte[] line, int length, CanFrame into) {
        if (length < 1) {
            return false;
        }
        boolean extended = line[0] == 'T' || line[0] == 'R';
        boolean remote = line[0] == 'r' || line[0] == 'R';
        int digits = extended ? 8 : 3;
        if (!extended && !remote && line[0] != 't' || length < 2 + digits) {
            return false;
        }
        long id = number(line, 1, digits);
        long bytes = number(line, 1 + digits, 1);
        if (id < 0
                || id > (extended ? CanFrame.GREATEST_LONG_ID : CanFrame.GREATEST_SHORT_ID)
                || bytes < 0
                || bytes > CanFrame.MOST_BYTES) {
            return false;
        }
        into.begin((int) id, extended, (int) bytes);
        int end = 2 + digits;
        if (remote) {
            into.asRemote();
        } else {
            for (int i = 0; i < bytes; i++, end += 2) {
                long value = end + 2 <= length ? number(line, end, 2) : -1;
                if (value < 0) {
                    return false;
                }
                into.data()[i] = (byte) value;
            }
        }
        return length == end || length == end + 4 && number(line, end, 4) >= 0;
    }

    /** A number in hex digits, -1 when one of them is none. */
    static long number(byte[] line, int from, int digits) {
        long number = 0;
        for (int i = from; i < from + digits; i++) {
            int digit = Character.digit(line[i], 16);
            if (digit < 0) {
                return -1;
            }
            number = number << 4 | digit;
        }
        return number;
    }
}
