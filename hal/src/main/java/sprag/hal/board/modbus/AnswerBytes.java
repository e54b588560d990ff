package sprag.hal.board.modbus;

/** The bytes that came since the last request, to tell a frame with a wrong check sum from one that broke off. */
final class AnswerBytes {
    /** The longest frame of the protocol (from memory of the serial line guide). */
    private static final int MOST = 256;

    private static final int EXCEPTION = 0x80;
    private static final int EXCEPTION_LENGTH = 5;
    private static final int WRITE_LENGTH = 8;
    /** Unit, function and number of bytes before, check sum after. */
    private static final int AROUND_READ = 5;

    private static final int POLYNOMIAL = 0xA001;

    private final byte[] bytes = new byte[MOST];
    private int length;

    void clear() {
        length = 0;
    }

    void add(byte[] from, int count) {
        int taken = Math.min(Math.max(count, 0), MOST - length);
        System.arraycopy(from, 0, bytes, length, taken);
        length += taken;
    }

    /** The address of the unit that answered; -1 when nothing came. */
    int unit() {
        return length == 0 ? -1 : at(0);
    }

    /** Whether a frame is there as long as its function says, and its check sum does not fit it. */
    boolean hasWrongSum() {
        int whole = wholeLength();
        return whole > 0 && whole <= length && sum(whole - 2) != (at(whole - 2) | at(whole - 1) << 8);
    }

    /** How long a frame with this beginning is; 0 when the beginning is none or is not there. */
    private int wholeLength() {
        if (length < 3) {
            return 0;
        }
        int function = at(1);
        return switch (function & ~EXCEPTION) {
            case 1, 2, 3, 4 -> function < EXCEPTION ? AROUND_READ + at(2) : EXCEPTION_LENGTH;
            case 5, 6, 15, 16 -> function < EXCEPTION ? WRITE_LENGTH : EXCEPTION_LENGTH;
            default -> 0;
        };
    }

    private int at(int index) {
        return bytes[index] & 0xFF;
    }

    private int sum(int count) {
        int sum = 0xFFFF;
        for (int i = 0; i < count; i++) {
            sum ^= at(i);
            for (int bit = 0; bit < Byte.SIZE; bit++) {
                sum = (sum & 1) != 0 ? sum >>> 1 ^ POLYNOMIAL : sum >>> 1;
            }
        }
        return sum;
    }
}
