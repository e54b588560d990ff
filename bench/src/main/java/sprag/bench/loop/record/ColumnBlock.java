package sprag.bench.loop.record;

import java.nio.ByteBuffer;

/**
 * A block of ticks as columns of 64-bit patterns, exact to the last bit.
 *
 * <pre>
 *   the number of ticks (1 byte), then for each column
 *   the first pattern (8), how many low bits of all differences are zero (1),
 *   a bit for each byte of the differences that is ever used (1), lowest byte first,
 *   and for each such bit that byte of the difference of every further tick (ticks - 1)
 *   a difference is that of two following patterns as whole numbers, without those zeros, folded so that small ones of either
 *   sign have high zeros
 * </pre>
 *
 * <p>A reading that comes from a converter has few steps, so that its differences fill one byte; equal bytes lie side by
 * side, which is what a fast packer needs.
 */
final class ColumnBlock {
    private static final int BYTES = 8;

    private final int count;

    /** ColumnBlock of a recording. */
    ColumnBlock(int count) {
        this.count = count;
    }

    int count() {
        return count;
    }

    /** The most that a block can take. */
    int worstBytes(int ticks) {
        return 1 + count * (BYTES + 2 + BYTES * ticks);
    }

    /**
     * Writes a block.
     *
     * @param rows the ticks one after another, each with a pattern for every column
     */
    void write(long[] rows, int ticks, ByteBuffer into) {
        into.put((byte) ticks);
        long[] steps = new long[ticks - 1];
        for (int column = 0; column < count; column++) {
            into.putLong(rows[column]);
            long used = differences(rows, column, steps);
            int zeros = used == 0 ? 0 : Long.numberOfTrailingZeros(used);
            used = used == 0 ? 0 : fold(steps, zeros);
            into.put((byte) zeros).put((byte) planes(used));
            for (int shift = 0; shift < Long.SIZE; shift += BYTES) {
                if ((used >>> shift & 0xFF) != 0) {
                    for (long step : steps) {
                        into.put((byte) (step >>> shift));
                    }
                }
            }
        }
    }

    /** Takes the differences of a column; gives the bits that any of them uses. */
    private long differences(long[] rows, int column, long[] into) {
        long used = 0;
        for (int i = 0, at = column + count; i < into.length; i++, at += count) {
            into[i] = rows[at] - rows[at - count];
            used |= into[i];
        }
        return used;
    }

    /** Folds differences without the low zeros that all have; gives the bits that any of them uses then. */
    private static long fold(long[] steps, int zeros) {
        long used = 0;
        for (int i = 0; i < steps.length; i++) {
            steps[i] = fold(steps[i] >> zeros);
            used |= steps[i];
        }
        return used;
    }

    /**
     * Reads a block.
     *
     * @param rows where to, the ticks one after another
     */
    int read(ByteBuffer from, long[] rows) {
        int ticks = from.get();
        for (int column = 0; column < count; column++) {
            long first = from.getLong();
            int zeros = from.get();
            int planes = from.get() & 0xFF;
            for (int tick = 1; tick < ticks; tick++) {
                rows[tick * count + column] = 0;
            }
            for (int plane = 0; plane < BYTES; plane++) {
                if ((planes >> plane & 1) != 0) {
                    for (int tick = 1; tick < ticks; tick++) {
                        rows[tick * count + column] |= (from.get() & 0xFFL) << plane * BYTES;
                    }
                }
            }
            rows[column] = first;
            for (int at = column + count; at < ticks * count; at += count) {
                rows[at] = rows[at - count] + (unfold(rows[at]) << zeros);
            }
        }
        return ticks;
    }

    private static int planes(long used) {
        int planes = 0;
        for (int plane = 0; plane < BYTES; plane++) {
            planes |= (used >>> plane * BYTES & 0xFF) != 0 ? 1 << plane : 0;
        }
        return planes;
    }

    /** 0, -1, 1, -2, 2 ... become 0, 1, 2, 3, 4 ... */
    private static long fold(long difference) {
        return difference << 1 ^ difference >> 63;
    }

    private static long unfold(long folded) {
        return folded >>> 1 ^ -(folded & 1);
    }
}
