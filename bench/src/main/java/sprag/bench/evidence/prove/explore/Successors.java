package sprag.bench.evidence.prove.explore;

import java.util.Arrays;
import java.util.BitSet;

/**
 * The successors of the states under expansion, and the events noted on the way to them.
 *
 * <p>Of each event only the first occurrence is kept: the least depth, there the least state, there the first branch. That
 * choice does not depend on the order in which the states of a depth are expanded.
 */
public final class Successors {
    /** The events that are still looked for. */
    private final BitSet open;

    private final BitSet happened = new BitSet();
    private final boolean firstOnly;
    private final boolean everyBranch;
    private final int[] eventDepth;
    private final long[] eventBefore;
    private final int[] eventBranch;

    private long[] next = new long[256];
    private int count;
    private int leftOut;
    private int first;
    private int mostBranches;
    private long before;
    private int depth;

    /** Makes an empty list.
     *
     * @param events how many events may be noted
     */
    public Successors(int events) {
        this(events, false, true);
    }

    private Successors(int events, boolean firstOnly, boolean everyBranch) {
        this.firstOnly = firstOnly;
        this.everyBranch = everyBranch;
        open = new BitSet(events);
        open.set(0, events);
        eventDepth = new int[events];
        eventBefore = new long[events];
        eventBranch = new int[events];
    }

    /** A list for one state at a time: what is noted first is kept, until {@link #forget}. */
    static Successors firstOnly(int events) {
        return new Successors(events, true, true);
    }

    /** Every successor of one state. */
    static Successors of(Machine machine, long state) {
        Successors out = new Successors(machine.events());
        out.from(state, 0);
        machine.expand(state, out);
        return out;
    }

    /** A list for an explorer, who does not care how often a successor is listed. */
    static Successors different(int events) {
        return new Successors(events, false, false);
    }

    /** Adds the next successor of the state under expansion.
     *
     * @param state the state it leads to
     */
    public void add(long state) {
        if (count == next.length) {
            next = Arrays.copyOf(next, 2 * count);
        }
        next[count++] = state;
    }

    /** Notes an event on the way to the successor that is added next. */
    public void note(int event) {
        noteAt(event, count - first);
    }

    /** Notes an event on the way to one of the successors of the state under expansion.
     *
     * @param branch which successor, the first is 0
     */
    void noteAt(int event, int branch) {
        if (open.get(event)) {
            keepFirst(event, before, branch, depth);
            if (firstOnly) {
                open.clear(event);
            }
        }
    }

    /** Whether each branch must be listed, also where several lead to one state: for whoever looks for the branch. */
    boolean wantsEveryBranch() {
        return everyBranch;
    }

    /** Counts branches that are not listed, since each leads to a successor that is. */
    void leaveOut(int branches) {
        leftOut += branches;
    }

    /** How many branches were tried, the listed ones and those left out. */
    int tried() {
        return count + leftOut;
    }

    /** Says that the state under expansion has more successors than can be tried. */
    public void giveUp(int most) {
        mostBranches = most;
    }

    /** How many successors of one state were tried when not all of them could be; 0 when all were. */
    int mostBranches() {
        return mostBranches;
    }

    /** How many successors are listed. Of all states expanded since the list was cleared. */
    public int count() {
        return count;
    }

    /** One of the successors. */
    public long get(int i) {
        return next[i];
    }

    void clear() {
        count = 0;
        leftOut = 0;
    }

    /** Clears everything: the successors and what was noted. */
    void forget() {
        clear();
        mostBranches = 0;
        open.set(0, eventDepth.length);
        happened.clear();
    }

    /** The events that were noted. */
    BitSet noted() {
        return (BitSet) happened.clone();
    }

    /** Says whose successors are added from here on. */
    void from(long state, int stateDepth) {
        before = state;
        depth = stateDepth;
        first = count;
    }

    long[] array() {
        return next;
    }

    void keepFirst(int event, long state, int branch, int stateDepth) {
        if (!happened(event) || isEarlier(event, state, branch, stateDepth)) {
            happened.set(event);
            eventDepth[event] = stateDepth;
            eventBefore[event] = state;
            eventBranch[event] = branch;
        }
    }

    private boolean isEarlier(int event, long state, int branch, int stateDepth) {
        if (stateDepth != eventDepth[event]) {
            return stateDepth < eventDepth[event];
        }
        return state != eventBefore[event] ? state < eventBefore[event] : branch < eventBranch[event];
    }

    /** Takes over what another list has seen earlier, except for events that are settled here. */
    void learnFrom(Successors other) {
        other.happened.stream()
                .filter(open::get)
                .forEach(event ->
                        keepFirst(event, other.eventBefore[event], other.eventBranch[event], other.eventDepth[event]));
    }

    /** Stops looking for what has been found. */
    void settle() {
        open.andNot(happened);
    }

    /** Whether one of these is still looked for. */
    boolean looksFor(BitSet events) {
        return open.intersects(events);
    }

    boolean happened(int event) {
        return happened.get(event);
    }

    /** The first of these that was noted; -1 when none was. */
    int firstOf(BitSet events) {
        return happened.intersects(events)
                ? events.stream().filter(this::happened).findFirst().getAsInt()
                : -1;
    }

    /** The depth of the state an event was first seen to leave. */
    int depthOf(int event) {
        return eventDepth[event];
    }

    long beforeOf(int event) {
        return eventBefore[event];
    }

    int branchOf(int event) {
        return eventBranch[event];
    }
}
