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

    @Override
    public long nowNs() {
        return nowNs;
    }

    @Override
    public void waitUntil(long deadlineNs) {
        while (!events.isEmpty() && events.peek().atNs <= deadlineNs) {
            Event next = events.poll();
            nowNs = Math.max(nowNs, next.atNs);
            next.what.run();
        }
        nowNs = Math.max(nowNs, deadlineNs);
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
