package sprag.hal;

import java.util.Comparator;
import java.util.PriorityQueue;

/** A clock that a test moves; whoever waits moves it. What was planned happens on the way, in order, on the waiting thread. */
public final class VirtualClock implements Clock {
    private record Event(long atNs, long order, Runnable what) {}

    private final PriorityQueue<Event> events =
            new PriorityQueue<>(Comparator.comparingLong(Event::atNs).thenComparingLong(Event::order));
    private long nowNs = 1_000_000_000;
    private long planned;
    private long sleptNs;
    private AssertionError failed;

    @Override
    public long nowNs() {
        return nowNs;
    }

    @Override
    public long outsideNs() {
        return nowNs + sleptNs;
    }

    /** Everything stands still for a while, and the clock goes on: what was due meanwhile is late. */
    public void standStillMs(long ms) {
        nowNs += ms * 1_000_000;
    }

    /** The computer sleeps: time passes outside, and this clock shows nothing of it. */
    public void sleepUnnoticedMs(long ms) {
        sleptNs += ms * 1_000_000;
    }

    @Override
    public void waitUntil(long deadlineNs) {
        while (!events.isEmpty() && events.peek().atNs <= deadlineNs) {
            Event next = events.poll();
            nowNs = Math.max(nowNs, next.atNs);
            happen(next.what);
        }
        nowNs = Math.max(nowNs, deadlineNs);
    }

    private void happen(Runnable what) {
        try {
            what.run();
        } catch (AssertionError e) {
            failed = failed == null ? e : failed;
            throw e;
        }
    }

    /** Throws the first check that failed in something planned: whoever waited may have caught it, as a board does. */
    public void demandChecks() {
        if (failed != null) {
            throw failed;
        }
    }

    /** Plans something for a time after now. */
    public void after(long ms, Runnable what) {
        events.add(new Event(nowNs + ms * 1_000_000, planned++, what));
    }

    /** Plans something again and again, first after one period. */
    public void every(long ms, Runnable what) {
        after(ms, () -> {
            what.run();
            every(ms, what);
        });
    }
}
