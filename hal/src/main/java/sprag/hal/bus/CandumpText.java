package sprag.hal.bus;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A line of a log in the text form of candump: {@code (1700000000.123456) can0 123#1122}. */
public final class CandumpText {
    /** The name of the bus in a log where there is only one. */
    public static final String SOURCE = "can0";

    private static final Pattern LINE = Pattern.compile(
            "\\((\\d{1,12})\\.(\\d{6})\\)\\s+(\\S+)\\s+([0-9A-Fa-f]{3}|[0-9A-Fa-f]{8})#(\\S*)(?:\\s+[RT])?\\s*");
    private static final Pattern DATA = Pattern.compile("(?:[0-9A-Fa-f]{2}\\.?)*(?:_[9A-Fa-f])?");
    private static final Pattern REMOTE = Pattern.compile("R([0-8]?)(?:_[9A-Fa-f])?");
    private static final long ERROR_FLAG = 0x2000_0000L;
    private static final long NS_PER_S = 1_000_000_000;
    private static final long NS_PER_US = 1000;

    private CandumpText() {}

    /** What a line is. */
    public enum Kind {
        /** A classic frame; it was put where asked. */
        FRAME,
        /** A frame of a kind that is left out: an error frame, or CAN FD. */
        LEFT_OUT,
        /** No line of such a log. */
        BROKEN
    }

    /** Reads a line.
     *
     * @param text the line
     * @param into the frame, when it is one
     * @return what it is
     */
    public static Kind read(String text, CanFrame into) {
        Matcher line = LINE.matcher(text);
        if (!line.matches()) {
            return Kind.BROKEN;
        }
        String idText = line.group(4);
        long id = Long.parseLong(idText, 16);
        boolean extended = idText.length() == 8;
        String body = line.group(5);
        if (body.startsWith("#") || extended && (id & ERROR_FLAG) != 0) {
            return Kind.LEFT_OUT;
        }
        if (id > (extended ? CanFrame.GREATEST_LONG_ID : CanFrame.GREATEST_SHORT_ID)) {
            return Kind.BROKEN;
        }
        Matcher remote = REMOTE.matcher(body);
        if (remote.matches()) {
            String length = remote.group(1);
            into.begin((int) id, extended, length.isEmpty() ? 0 : Integer.parseInt(length))
                    .asRemote();
            return Kind.FRAME;
        }
        return DATA.matcher(body).matches() && bytes(body, (int) id, extended, into) ? Kind.FRAME : Kind.BROKEN;
    }

    /** When a line was logged.
     *
     * @param text a line that {@link #read} has found good
     * @return nanoseconds from the log's own beginning of time
     */
    public static long timeNs(String text) {
        Matcher line = LINE.matcher(text);
        if (!line.matches()) {
            throw new IllegalArgumentException("no line of a log: " + text);
        }
        return Long.parseLong(line.group(1)) * NS_PER_S + Long.parseLong(line.group(2)) * NS_PER_US;
    }

    /** Writes a line.
     *
     * @param timeNs when
     * @param source the name of the bus
     * @param frame what
     * @return the line, without its end
     */
    public static String write(long timeNs, String source, CanFrame frame) {
        StringBuilder line = new StringBuilder(64).append('(');
        digits(line, timeNs / NS_PER_S, 10);
        digits(line.append('.'), timeNs % NS_PER_S / NS_PER_US, 6);
        return line.append(") ").append(source).append(' ').append(frame).toString();
    }

    /** A number with zeros before it. Written by hand because a log has millions of them. */
    private static void digits(StringBuilder to, long number, int least) {
        String text = Long.toString(number);
        to.append("0".repeat(Math.max(0, least - text.length()))).append(text);
    }

    private static boolean bytes(String body, int id, boolean extended, CanFrame into) {
        String digits = body.replaceAll("_.*|\\.", "");
        if (digits.length() > 2 * CanFrame.MOST_BYTES) {
            return false;
        }
        into.begin(id, extended, digits.length() / 2);
        for (int i = 0; i < digits.length() / 2; i++) {
            into.data()[i] = (byte) Integer.parseInt(digits.substring(2 * i, 2 * i + 2), 16);
        }
        return true;
    }
}
