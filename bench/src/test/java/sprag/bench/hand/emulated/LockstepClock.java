package sprag.bench.hand.emulated;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.function.LongConsumer;
import sprag.hal.Clock;

/**
 * Virtual time that several threads share. Time moves on only while all of them wait; then it moves to the earliest time that one
 * of them waits for, and that one goes on alone. So the order of everything is the same on a quick machine and on a busy one.
 */
public final class LockstepClock implements Clock {
    /** How often the clock looks whether a thread that it waits for has ended (ms). It decides nothing but when that is noticed. */
    private static final long LOOK_MS = 2;

    private static final long RUNS = Long.MIN_VALUE;

    private record Event(long atNs, long order, Runnable what) {}

    private final PriorityQueue<Event> events =
            new PriorityQueue<>(Comparator.comparingLong(Event::atNs).thenComparingLong(Event::order));
    /** The threads that time waits for, each with the time that it waits for, or {@link #RUNS}. */
    private final Map<Thread, Long> threads = new HashMap<>();

    private final List<LongConsumer> followers = new ArrayList<>();
    private volatile long nowNs = 1_000_000_000;
    private long planned;
    private int announced;

    /** A clock that waits for the thread that makes it. */
    public LockstepClock() {
        threads.put(Thread.currentThread(), RUNS);
    }

    @Override
    public long nowNs() {
        return nowNs;
    }

    /** Says that one more thread will soon wait on this clock. Time stands still until it does. */
    public synchronized void announceThread() {
        announced++;
    }

    /** Tells somebody each time that the clock moves, before anything else happens at that time. */
    public synchronized void follow(LongConsumer follower) {
        followers.add(follower);
    }

    /** Does something once, a while after now. */
    public synchronized void after(long ms, Runnable what) {
        events.add(new Event(nowNs + ms * 1_000_000, planned++, what));
    }

    /** Does something again and again, first after one period, for as long as the clock is used. */
    public void every(long ms, Runnable what) {
        after(ms, () -> {
            what.run();
            every(ms, what);
        });
    }

    @Override
    public synchronized void waitUntil(long deadlineNs) {
        Thread self = Thread.currentThread();
        if (threads.put(self, deadlineNs) == null) {
            announced = Math.max(0, announced - 1);
        }
        while (threads.get(self) != RUNS) {
            threads.keySet().removeIf(thread -> !thread.isAlive());
            if (announced > 0 || threads.containsValue(RUNS)) {
                sleep();
            } else {
                wakeTheEarliest();
            }
        }
    }

    private void wakeTheEarliest() {
        Map.Entry<Thread, Long> first = threads.entrySet().stream()
                .min(Map.Entry.<Thread, Long>comparingByValue()
                        .thenComparing(entry -> entry.getKey().getId()))
                .orElseThrow();
        moveTo(first.getValue());
        first.setValue(RUNS);
        notifyAll();
    }

    private void moveTo(long deadlineNs) {
        while (!events.isEmpty() && events.peek().atNs <= deadlineNs) {
            Event next = events.poll();
            show(next.atNs);
            next.what.run();
        }
        show(deadlineNs);
    }

    private void show(long toNs) {
        if (toNs > nowNs) {
            nowNs = toNs;
            followers.forEach(follower -> follower.accept(toNs));
        }
    }

    private void sleep() {
        try {
            wait(LOOK_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("a thread was interrupted while it waited for virtual time", e);
        }
    }
}
