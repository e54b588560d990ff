package sprag.bench.panel.bench;

import java.util.concurrent.ArrayBlockingQueue;
import sprag.bench.panel.session.CarSession;
import sprag.hal.Clock;

/**
 * Runs the bench: orders come in through a bounded queue, a frame goes out twenty times a second, and between them the car ticks.
 * Nothing here waits for a page.
 */
public final class BenchThread implements Runnable {
    private static final int WAITING_ORDERS = 256;
    private static final long FRAME_NS = Publisher.FRAME_MS * 1_000_000;

    private final Bench bench;
    private final Pace pace;
    private final Publisher publisher;
    private final Orders orders;
    private final ControlLease lease;
    private final Clock wall;
    private final ArrayBlockingQueue<Sent> waiting = new ArrayBlockingQueue<>(WAITING_ORDERS);
    private volatile boolean going = true;
    private int term;
    private long frameDueNs;

    private record Sent(int term, Order order) {}

    /** A thread's work that has not begun; the car at rest is published.
     *
     * @param pace how fast time passes without a board
     */
    public BenchThread(Bench bench, Pace pace, Publisher publisher, Orders orders, ControlLease lease, Clock wall) {
        this.bench = bench;
        this.pace = pace;
        this.publisher = publisher;
        this.orders = orders;
        this.lease = lease;
        this.wall = wall;
        frameDueNs = wall.nowNs();
        bench.noteRecordingTrouble();
        publisher.publish(frameDueNs);
    }

    /** Puts an order in the queue; any thread may. Returns false when the queue is full. */
    public boolean order(Order order) {
        return waiting.offer(new Sent(lease.term(), order));
    }

    /** Runs until {@link #stop}, then releases everything. */
    @Override
    public void run() {
        try {
            while (going) {
                if (bench.playing() != null) {
                    new ScenarioPlayback(bench, () -> going, this::advance).play();
                    bench.played();
                } else if (bench.board() != null) {
                    bench.session().loop.run(this::beforeRealTick, bench::seen);
                } else {
                    advance();
                }
            }
        } finally {
            bench.close();
        }
    }

    /** Asks it to end; any thread may. */
    public void stop() {
        going = false;
    }

    /** With a board the loop itself keeps the time. Whether to go on with the same car. */
    public boolean beforeRealTick() {
        CarSession before = bench.session();
        between(wall.nowNs());
        return going && bench.session() == before;
    }

    /** Does what is due now and waits for what is due next. Returns true when a tick has run. */
    public boolean advance() {
        long nowNs = wall.nowNs();
        CarSession before = bench.session();
        between(nowNs);
        if (bench.session() != before) {
            return false;
        }
        boolean due = pace.isDue(nowNs);
        if (due) {
            bench.tick();
            pace.ticked(before.loop.tickMs());
        }
        pace.waitForTick(nowNs, frameDueNs);
        return due;
    }

    /** What is done between two ticks, however time passes. */
    private void between(long nowNs) {
        bench.beginNotes();
        watch(nowNs);
        for (Sent sent = waiting.poll(); sent != null; sent = waiting.poll()) {
            if (sent.term > term) {
                watch(nowNs);
            }
            if (sent.term == term) {
                orders.carryOut(sent.order, nowNs);
            }
        }
        if (nowNs >= frameDueNs) {
            bench.noteRecordingTrouble();
            publisher.publish(nowNs);
            frameDueNs = Math.max(frameDueNs + FRAME_NS, nowNs);
        }
    }

    /** A dead man's handle: a page that is gone or silent holds nothing any more. */
    private void watch(long nowNs) {
        lease.watch(nowNs);
        int now = lease.term();
        if (now != term) {
            boolean first = term == 0;
            term = now;
            if (!first) {
                bench.letGo(lease.lost());
            }
        }
        bench.expireForced(nowNs);
    }
}
