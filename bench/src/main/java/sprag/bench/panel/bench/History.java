package sprag.bench.panel.bench;

import java.util.ArrayDeque;
import java.util.List;
import java.util.concurrent.ConcurrentSkipListMap;
import sprag.bench.panel.guide.Guidance;
import sprag.supervisor.vocabulary.Fact;

/**
 * What was so in single ticks of the present car, so that a page can go back to them: every tick of the newest half minute, every
 * tick around an event, and every tenth tick of some minutes. One thread writes, any thread reads, nobody waits.
 */
public final class History {
    /** So many of the newest ticks are all kept. */
    static final int RECENT = 3000;
    /** So many ticks before and after an event are kept. */
    static final int AROUND = 50;
    /** Every so many ticks one is kept for longer. */
    static final int SPARSE = 10;
    /** The most that is kept. */
    static final int MOST = 9000;

    private final ConcurrentSkipListMap<Long, Moment> kept = new ConcurrentSkipListMap<>();
    private final ArrayDeque<Long> events = new ArrayDeque<>();
    private int count;

    /**
     * One tick as it was when the supervisor had decided.
     *
     * @param numbers the numbers of a frame
     * @param facts the value of each fact
     */
    public record Moment(long tick, float[] numbers, byte[] facts, Guidance guidance, List<String> faults) {
        /** The value that a fact had. */
        int value(Fact fact) {
            return facts[fact.ordinal()];
        }
    }

    /** Starts anew with a new car. */
    void restart() {
        kept.clear();
        events.clear();
        count = 0;
    }

    /** Keeps a tick; only the bench's thread may.
     *
     * @param isEvent whether something happened in it
     */
    void add(Moment moment, boolean isEvent) {
        long tick = moment.tick();
        if (isEvent) {
            events.addLast(tick);
        }
        if (kept.put(tick, moment) == null) {
            count++;
        }
        drop(tick - RECENT);
        while (count > MOST && kept.pollFirstEntry() != null) {
            count--;
        }
    }

    /** A tick that has grown old goes, unless it is one of the sparse ones or near an event. */
    private void drop(long tick) {
        if (tick >= 0 && tick % SPARSE != 0 && !nearEvent(tick) && kept.remove(tick) != null) {
            count--;
        }
    }

    private boolean nearEvent(long tick) {
        while (!events.isEmpty() && events.peekFirst() < tick - AROUND) {
            events.pollFirst();
        }
        return !events.isEmpty() && events.peekFirst() <= tick + AROUND;
    }

    /** The tick, or null when it is not kept. */
    public Moment at(long tick) {
        return kept.get(tick);
    }
}
