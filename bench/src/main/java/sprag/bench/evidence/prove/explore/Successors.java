package sprag.bench.evidence.prove.explore;

import java.util.Arrays;

/**
 * The successors of the states under expansion, and the events noted on the way to them.
 *
 * <p>Of each event only the first occurrence is kept: the least depth, there the least state, there the first branch. That
 * choice does not depend on the order in which the states of a depth are expanded.
 */
public final class Successors {
    private static final int NEVER = -1;

    private final boolean[] settled;
    private final boolean firstOnly;
    private final int[] eventDepth;
    private final long[] eventBefore;
    private final int[] eventBranch;

    private long[] next = new long[256];
    private int count;
    private int first;
    private int mostBranches;
    private long before;
    private int depth;

    /** Makes an empty list.
     *
     * @param events how many events may be noted
     */
    public Successors(int events) {
        this(events, false);
    }

    private Successors(int events, boolean firstOnly) {
        this.firstOnly = firstOnly;
        settled = new boolean[events];
        eventDepth = new int[events];
        eventBefore = new long[events];
        eventBranch = new int[events];
        Arrays.fill(eventDepth, NEVER);
    }

    /** A list for one state at a time: what is noted first is kept, until {@link #forget}. */
    static Successors firstOnly(int events) {
        return new Successors(events, true);
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
        if (!settled[event]) {
            keepFirst(event, before, count - first, depth);
            settled[event] = firstOnly;
        }
    }

    /** Notes an event on the way to one of the successors of the state under expansion.
     *
     * @param branch which successor, the first is 0
     */
    void noteAt(int event, int branch) {
        if (!settled[event]) {
            keepFirst(event, before, branch, depth);
        }
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
    }

    /** Clears everything: the successors and what was noted. */
    void forget() {
        clear();
        mostBranches = 0;
        Arrays.fill(eventDepth, NEVER);
        Arrays.fill(settled, false);
    }

    /** The events that were noted, in order. */
    int[] noted() {
        int[] noted = new int[eventDepth.length];
        int found = 0;
        for (int event = 0; event < eventDepth.length; event++) {
            if (eventDepth[event] != NEVER) {
                noted[found++] = event;
            }
        }
        return Arrays.copyOf(noted, found);
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
        if (eventDepth[event] == NEVER || isEarlier(event, state, branch, stateDepth)) {
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
        for (int event = 0; event < settled.length; event++) {
            if (!settled[event] && other.happened(event)) {
                keepFirst(event, other.eventBefore[event], other.eventBranch[event], other.eventDepth[event]);
            }
        }
    }

    /** Stops looking for what has been found. */
    void settle() {
        for (int event = 0; event < settled.length; event++) {
            settled[event] |= happened(event);
        }
    }

    boolean happened(int event) {
        return eventDepth[event] != NEVER;
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
