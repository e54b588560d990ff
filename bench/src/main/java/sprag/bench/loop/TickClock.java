package sprag.bench.loop;

import sprag.hal.Clock;

/**
 * Time as a loop on a simulated car sees it: only ticks move it, so that a busy computer is no fault of the car. Within a tick
 * it stands still, unless ticks are to be late.
 */
public final class TickClock implements Clock {
    private long nowNs;
    private long lateNs;
    private boolean asked;

    /** Begins a tick.
     *
     * @param atNs its time (ns)
     */
    public void begin(long atNs) {
        nowNs = atNs;
        asked = false;
    }

    /** Makes every tick take long from now on.
     *
     * @param byNs how long (ns); 0 for no time at all
     */
    public void late(long byNs) {
        lateNs = byNs;
    }

    @Override
    public long nowNs() {
        long told = asked ? nowNs + lateNs : nowNs;
        asked = true;
        return told;
    }

    @Override
    public void waitUntil(long deadlineNs) {
        throw new UnsupportedOperationException("the ticks set the pace; asked to wait until " + deadlineNs);
    }
}
