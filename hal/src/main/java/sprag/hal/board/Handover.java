package sprag.hal.board;

import java.util.concurrent.atomic.AtomicInteger;

/**
 * Hands rows of numbers from one thread to one other, without waiting, without allocating and never half-written.
 *
 * <pre>
 *  writer owns one row  -- publish() swaps --&gt;  [ middle ]  &lt;-- take() swaps --  reader owns one row
 * </pre>
 */
final class Handover {
    private static final int FRESH = 4;

    private final long[][] rows;
    private final AtomicInteger middle = new AtomicInteger(1);
    private int writing;
    private int reading = 2;

    Handover(int size) {
        rows = new long[3][size];
    }

    /** The writer's row; to be filled completely before {@link #publish()}. */
    long[] rowToWrite() {
        return rows[writing];
    }

    void publish() {
        writing = middle.getAndSet(writing | FRESH) & ~FRESH;
    }

    /** Takes the newest published row, if there is one that was not taken yet. */
    boolean take() {
        if ((middle.get() & FRESH) == 0) {
            return false;
        }
        reading = middle.getAndSet(reading) & ~FRESH;
        return true;
    }

    /** The reader's row: the one taken last. */
    long[] rowTaken() {
        return rows[reading];
    }
}
