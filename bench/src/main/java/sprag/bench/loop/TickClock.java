package sprag.bench.loop;

import sprag.hal.Clock;

/**
 * The time of a loop whose car is simulated: only ticks move it, so that a busy computer is no fault of the car. Within a tick
 * it stands still, unless ticks are to be late.
 */
public final class TickClock implements Clock {
    /** The name of a fault of the loop itself rather than of the car: every tick takes too long. */
    public static final String LATE = "loop.late";

    private long nowNs;
    private long lateNs;
    private boolean asked;

    /** Begins a tick. */
    void begin(long atNs) {
        nowNs = atNs;
        asked = false;
    }

    /** Makes every tick take long from now on.
     *
     * @param byNs how long (ns); 0 for no time at all
     */
    void late(long byNs) {
        lateNs = byNs;
    }

    @Override
    public long nowNs() {
        long answerNs = asked ? nowNs + lateNs : nowNs;
        asked = true;
        return answerNs;
    }

    @Override
    public void waitUntil(long deadlineNs) {
        throw new UnsupportedOperationException("the ticks set the pace; asked to wait until " + deadlineNs);
    }
}
