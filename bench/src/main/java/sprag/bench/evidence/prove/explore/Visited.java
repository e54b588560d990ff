package sprag.bench.evidence.prove.explore;

/** The set of states seen so far. */
interface Visited {
    /** Adds states and passes on, in the same order, those that are new.
     *
     * @param states candidates, repeats allowed
     * @param fresh gets each state that was not in the set yet
     */
    void addAll(long[] states, int count, LongQueue fresh);

    /** The memory the set takes. */
    long bytes();
}
