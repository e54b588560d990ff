package sprag.bench.evidence.prove.explore;

/** The set of states seen so far. */
interface Visited {
    /** Adds states and passes on, in the same order, those that are new.
     *
     * @param states candidates, repeats allowed
     * @param count how many of them
     * @param fresh gets each state that was not in the set yet
     */
    void addAll(long[] states, int count, LongQueue fresh);

    /** The memory the set takes.
     *
     * @return bytes reserved
     */
    long bytes();

    /** The set that suits a machine.
     *
     * @param machine the machine to be explored
     * @return a bitmap where the machine numbers its states densely, else a hash table
     */
    static Visited of(Machine machine) {
        return machine.indexSpace() > 0 ? new DenseStates(machine.indexSpace()) : new HashedStates(machine.bits());
    }
}
