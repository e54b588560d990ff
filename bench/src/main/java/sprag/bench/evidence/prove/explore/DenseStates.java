package sprag.bench.evidence.prove.explore;

/** Visited states of a machine with a dense numbering: one bit a number. */
final class DenseStates implements Visited {
    private final long indexSpace;
    private final long[] bits;

    DenseStates(long indexSpace) {
        long words = (indexSpace + Long.SIZE - 1) / Long.SIZE;
        if (words > Integer.MAX_VALUE - 8) {
            throw new IllegalArgumentException(
                    "a dense numbering of " + indexSpace + " states is too wide for a bitmap of " + "at most "
                            + (Integer.MAX_VALUE - 8L) * Long.SIZE + ": leave indexSpace() at 0 to have them hashed");
        }
        this.indexSpace = indexSpace;
        this.bits = new long[(int) words];
    }

    @Override
    public void addAll(long[] states, int count, LongQueue fresh) {
        for (int i = 0; i < count; i++) {
            long state = states[i];
            if (state < 0 || state >= indexSpace) {
                throw new IllegalStateException(
                        "state " + state + " is outside the dense numbering 0.." + (indexSpace - 1));
            }
            int word = (int) (state >>> 6);
            long bit = 1L << state;
            if ((bits[word] & bit) == 0) {
                bits[word] |= bit;
                fresh.add(state);
            }
        }
    }

    @Override
    public long bytes() {
        return (long) bits.length * Long.BYTES;
    }
}
