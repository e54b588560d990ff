package sprag.bench.panel;

import sprag.hal.Clock;

/** Time that moves only when somebody waits, or is told to. */
public final class ManualClock implements Clock {
    private volatile long nowNs = 1_000_000_000L;
    /** What happens each time that somebody waits. */
    public Runnable onWait = () -> {};

    @Override
    public long nowNs() {
        return nowNs;
    }

    @Override
    public void waitUntil(long deadlineNs) {
        nowNs = Math.max(nowNs, deadlineNs);
        onWait.run();
    }

    public void passMs(long ms) {
        nowNs += ms * 1_000_000;
    }
}
