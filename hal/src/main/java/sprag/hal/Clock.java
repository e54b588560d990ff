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
