package sprag.bench.loop.record;

import sprag.hal.bus.CanFrame;

/**
 * Frames of a data bus as rows of 64-bit patterns.
 *
 * <pre>
 *   when it came, in nanoseconds from the beginning of the recording
 *   identifier (bits 0 to 28), whether it has 29 bits (31), remote frame (32), sent by the supervisor (33), length (36 to 39)
 *   the data, first byte highest
 * </pre>
 */
final class FrameRows {
    static final int COLUMNS = 3;
    private static final int ID_AT = 1;
    private static final int DATA_AT = 2;
    private static final int EXTENDED_BIT = 31;
    private static final int REMOTE_BIT = 32;
    private static final int SENT_BIT = 33;
    private static final int LENGTH_BIT = 36;
    private static final int LENGTH_MASK = 15;

    private FrameRows() {}

    /** Writes a row.
     *
     * @param rows where to
     * @param at the index of the row's first pattern
     */
    static void put(long[] rows, int at, CanFrame frame, boolean sent, long timeNs) {
        long data = 0;
        for (byte each : frame.data()) {
            data = data << Byte.SIZE | each & 0xFF;
        }
        rows[at] = timeNs;
        rows[at + ID_AT] = frame.key()
                | (frame.remote() ? 1L << REMOTE_BIT : 0)
                | (sent ? 1L << SENT_BIT : 0)
                | (long) frame.length() << LENGTH_BIT;
        rows[at + DATA_AT] = data;
    }

    /** Reads a row.
     *
     * @param into the frame
     */
    static void get(long[] rows, int at, CanFrame into) {
        long head = rows[at + ID_AT];
        int length = (int) Math.min(head >>> LENGTH_BIT & LENGTH_MASK, CanFrame.MOST_BYTES);
        into.begin((int) (head & CanFrame.GREATEST_LONG_ID), (head >>> EXTENDED_BIT & 1) != 0, length);
        if ((head >>> REMOTE_BIT & 1) != 0) {
            into.asRemote();
        }
        for (int i = 0; i < CanFrame.MOST_BYTES; i++) {
            into.data()[i] = (byte) (rows[at + DATA_AT] >>> Long.SIZE - Byte.SIZE * (i + 1));
        }
    }

    static long timeNs(long[] rows, int at) {
        return rows[at];
    }

    static boolean isSent(long[] rows, int at) {
        return (rows[at + ID_AT] >>> SENT_BIT & 1) != 0;
    }
}
