package sprag.bench.evidence.prove.explore;

import java.util.ArrayList;
import java.util.List;

/** States in the order they were found. Grows by blocks, so that little is reserved and nothing is ever moved. */
final class LongQueue {
    private static final int BLOCK_BITS = 13;
    private static final int BLOCK = 1 << BLOCK_BITS;

    private final List<long[]> blocks = new ArrayList<>();
    private long[] tail;
    private int fill = BLOCK;

    void add(long state) {
        if (fill == BLOCK) {
            tail = new long[BLOCK];
            blocks.add(tail);
            fill = 0;
        }
        tail[fill++] = state;
    }

    long get(long index) {
        return blocks.get((int) (index >>> BLOCK_BITS))[(int) index & BLOCK - 1];
    }

    long size() {
        return (long) (blocks.size() - 1) * BLOCK + fill;
    }

    long bytes() {
        return (long) blocks.size() * BLOCK * Long.BYTES;
    }
}
