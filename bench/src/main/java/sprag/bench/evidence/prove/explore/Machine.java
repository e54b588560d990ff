package sprag.bench.evidence.prove.explore;

/**
 * A finite machine whose whole state is one long.
 *
 * <p>Expanding the same state must always give the same successors in the same order: the position of a successor in that
 * order is how a trace names the branch taken.
 */
public interface Machine {
    /** The widest state (bits): one bit of a long must be left to say that a place in a table is taken. */
    int MOST_BITS = Long.SIZE - 1;

    /** The state everything starts from. */
    long initial();

    /** Lists everything that can follow a state in one step; the same successor may be listed more than once.
     *
     * @param out where to put the successors, and what is worth noting about the way to each
     */
    void expand(long state, Successors out);

    /**
     * How many low bits a state uses. Neighbouring states are kept together: what changes most often from state to
     * state had best be packed lowest. 1 to 63; every state lies in 0 to 2 to this power less one.
     */
    default int bits() {
        return MOST_BITS;
    }

    /**
     * The size of a dense numbering, when the states are one: every state then lies in 0 to this number less one, and a
     * bitmap can be the set of visited states. Returns the size, or 0 when the states are arbitrary longs.
     */
    default long indexSpace() {
        return 0;
    }

    /**
     * How many different events {@link #expand} may note: broken promises, things seen. Events are numbered from 0 to
     * this number less one.
     */
    default int events() {
        return 0;
    }
}
