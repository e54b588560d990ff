package sprag.hal;

import java.util.concurrent.locks.LockSupport;

/** The source of time for the loop, so that a test can set the time. */
public interface Clock {
    /** The time now.
     *
     * @return nanoseconds, monotonic, from an arbitrary start
     */
    long nowNs();

    /** Waits until a time; may return a little late, never early.
     *
     * @param deadlineNs when to return
     */
    void waitUntil(long deadlineNs);

    /** The time that passes outside, also while the computer sleeps and {@link #nowNs()} may stand still.
     *
     * @return nanoseconds from an arbitrary start; leaps when somebody sets the computer's date
     */
    default long outsideNs() {
        return nowNs();
    }

    /** The machine's own monotonic clock; waits by parking to absolute deadlines.
     *
     * @return the clock
     */
    static Clock real() {
        return new Clock() {
            @Override
            public long nowNs() {
                return System.nanoTime();
            }

            @Override
            public long outsideNs() {
                return System.currentTimeMillis() * 1_000_000;
            }

            @Override
            public void waitUntil(long deadlineNs) {
                long leftNs = deadlineNs - System.nanoTime();
                while (leftNs > 0 && !Thread.currentThread().isInterrupted()) {
                    LockSupport.parkNanos(leftNs);
                    leftNs = deadlineNs - System.nanoTime();
                }
            }
        };
    }
}
