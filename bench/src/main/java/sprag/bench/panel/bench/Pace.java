package sprag.bench.panel.bench;

import sprag.hal.Clock;

/** How fast the time of a simulated car passes against real time, and when its next tick is due. */
public final class Pace {
    private static final long NS_PER_MS = 1_000_000;
    /** When time passes faster than real, ticks run in groups: it sleeps no shorter than this between them. */
    private static final long NAP_NS = 4 * NS_PER_MS;
    /** A delay longer than this is not caught up with. */
    private static final long HOPELESS_NS = 200 * NS_PER_MS;

    private final Clock wall;
    private double speed = 1;
    private boolean paused;
    private boolean singleTick;
    private long dueNs;
    private double slippedS;

    public Pace(Clock wall) {
        this.wall = wall;
        dueNs = wall.nowNs();
    }

    /** Whether a tick is due. */
    public boolean isDue(long nowNs) {
        return paused ? singleTick : nowNs >= dueNs;
    }

    /** A tick has run. */
    public void ticked(long tickMs) {
        singleTick = false;
        dueNs += Math.round(tickMs * NS_PER_MS / speed);
    }

    /** Waits until a tick is due, but never longer than until a given time.
     *
     * @param nowNs when this round began
     * @param atLatestNs when to return even if no tick is due
     */
    public void waitForTick(long nowNs, long atLatestNs) {
        if (paused) {
            dueNs = nowNs;
        } else if (nowNs - dueNs > HOPELESS_NS) {
            slippedS += (nowNs - dueNs) / 1e9;
            dueNs = nowNs;
        }
        if (paused || dueNs > nowNs) {
            long wakeNs = paused ? atLatestNs : Math.max(dueNs, speed > 1 ? nowNs + NAP_NS : dueNs);
            wall.waitUntil(Math.min(wakeNs, atLatestNs));
        }
    }

    public void speed(double factor) {
        speed = factor;
        dueNs = wall.nowNs();
    }

    public void pause(boolean on) {
        paused = on;
    }

    /** Asks for one tick while paused. */
    public void singleTick() {
        singleTick = true;
    }

    public double speed() {
        return speed;
    }

    public boolean isPaused() {
        return paused;
    }

    /** How much real time could not be kept up with so far (s). */
    public double slippedS() {
        return slippedS;
    }
}
