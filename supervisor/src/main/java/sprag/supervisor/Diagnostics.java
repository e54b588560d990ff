package sprag.supervisor;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import sprag.supervisor.logic.Journal;
import sprag.supervisor.vocabulary.Cause;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Transition;
import sprag.supervisor.vocabulary.Watch;

/**
 * The memory for people: what happened, which causes are there now, which interlock acted, when and how often. Written by
 * Logic and by a pass of its own over the facts; nothing here is ever read by a decision.
 */
public final class Diagnostics implements Journal {
    /** How many events are kept before the oldest is overwritten. */
    public static final int EVENTS = 512;
    /** An answer of the time queries: never. */
    public static final long NEVER = -1;

    private static final Interlock[] ROWS = Interlock.values();
    /** Before the first survey no cause is there: no fact has the value that any cause asks for. */
    private static final Facts NOT_LOOKED = new Facts() {
        @Override
        public int value(Fact fact) {
            return -1;
        }

        @Override
        public int firstActive(Watch watch) {
            return -1;
        }
    };

    private final long[] actedTick = new long[Interlock.COUNT];
    private final long[] firstTick = new long[Interlock.COUNT];
    private final int[] times = new int[Interlock.COUNT];
    private final long[] eventTick = new long[EVENTS];
    private final Object[] eventWhat = new Object[EVENTS];
    private long events;
    /** The rows that act beside a stronger one, a watch a state. */
    private final Watch[] besides = new Watch[State.COUNT];

    private Facts facts = NOT_LOOKED;
    private long tick;
    private State state = State.OFF;

    /** Makes a memory in which nothing has happened yet. */
    public Diagnostics() {
        this(Set.of());
    }

    /** Makes a memory in which nothing has happened yet, for a supervisor that lacks some interlocks.
     *
     * @param without the interlocks taken out: they never act
     */
    public Diagnostics(Set<Interlock> without) {
        for (State each : State.values()) {
            besides[each.ordinal()] = new Watch(besides(each, without));
        }
        for (int i = 0; i < Interlock.COUNT; i++) {
            actedTick[i] = NEVER;
            firstTick[i] = NEVER;
        }
    }

    private static List<Interlock> besides(State state, Set<Interlock> without) {
        List<Interlock> found = new ArrayList<>();
        for (Interlock row : ROWS) {
            boolean actsBeside = row.response == Response.WARN || row.response == Response.LIMIT;
            if (actsBeside && row.cause.isFact() && row.where.contains(state) && !without.contains(row)) {
                found.add(row);
            }
        }
        return found;
    }

    /** Begins a tick: what is recorded from now on happened in it.
     *
     * @param newTick the number of the tick
     */
    public void begin(long newTick) {
        tick = newTick;
    }

    @Override
    public void entered(Transition via) {
        record(via);
        state = via.to;
    }

    @Override
    public void acted(Interlock row) {
        int i = row.ordinal();
        boolean anew = actedTick[i] == NEVER || actedTick[i] < tick - 1;
        actedTick[i] = tick;
        if (anew) {
            firstTick[i] = firstTick[i] == NEVER ? tick : firstTick[i];
            times[i]++;
            record(row);
        }
    }

    private void record(Object what) {
        int slot = (int) (events % EVENTS);
        eventTick[slot] = tick;
        eventWhat[slot] = what;
        events++;
    }

    /**
     * Takes up the facts of this tick. Logic names only the first row that acts. Warnings and limits act beside it: each limit
     * takes its share of torque or current, so each of them is told.
     */
    void survey(Facts seen) {
        facts = seen;
        Watch watch = besides[state.ordinal()];
        int first = facts.firstActive(watch);
        for (int i = first; i >= 0 && i < watch.size(); i++) {
            Interlock row = watch.row(i);
            if (isThere(row.cause)) {
                acted(row);
            }
        }
    }

    private boolean isThere(Cause cause) {
        return facts.value(cause.fact()) == cause.value();
    }

    /** Whether a cause is there now. Causes within a sequence count while they act.
     *
     * @param row which one
     * @return true while it is
     */
    public boolean isActive(Interlock row) {
        return row.cause.isFact() ? isThere(row.cause) : actedTick[row.ordinal()] == tick;
    }

    /** Whether a start is kept from happening by this row now: what a driver must be told is missing.
     *
     * @param row which one
     * @return true when its cause is there and it applies before a start
     */
    public boolean blocksStart(Interlock row) {
        return row.where.contains(State.IGNITION) && row.response != Response.WARN && isActive(row);
    }

    /** When an interlock acted last.
     *
     * @param row which one
     * @return the tick, or {@link #NEVER}
     */
    public long lastActedTick(Interlock row) {
        return actedTick[row.ordinal()];
    }

    /** When an interlock acted first.
     *
     * @param row which one
     * @return the tick, or {@link #NEVER}
     */
    public long firstActedTick(Interlock row) {
        return firstTick[row.ordinal()];
    }

    /** How often an interlock began to act.
     *
     * @param row which one
     * @return a count
     */
    public int timesActed(Interlock row) {
        return times[row.ordinal()];
    }

    /** How many events there have been.
     *
     * @return a count; the last {@link #EVENTS} of them are kept
     */
    public long eventCount() {
        return events;
    }

    /** When an event happened.
     *
     * @param index 0 is the first ever; only the last {@link #EVENTS} are kept
     * @return the tick
     */
    public long eventTick(long index) {
        return eventTick[(int) (index % EVENTS)];
    }

    /** What an event was: a {@link Transition}, or an {@link Interlock} that began to act.
     *
     * @param index 0 is the first ever; only the last {@link #EVENTS} are kept
     * @return the transition or interlock
     */
    public Object event(long index) {
        return eventWhat[(int) (index % EVENTS)];
    }
}
