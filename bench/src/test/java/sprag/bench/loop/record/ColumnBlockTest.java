package sprag.bench.loop.record;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What goes into a block comes out of it, bit for bit. */
class ColumnBlockTest {
    private static final int COUNT = 7;

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void anyPatterns_writtenAndRead_areTheSame(long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 200; round++) {
            int ticks = 1 + random.nextInt(Layout.TICKS_PER_BLOCK);
            long[] rows = new long[COUNT * ticks];
            for (int i = 0; i < rows.length; i++) {
                rows[i] = pattern(random, i >= COUNT ? rows[i - COUNT] : 0);
            }
            long[] back = new long[rows.length];
            Arrays.fill(back, random.nextLong());
            ByteBuffer bytes = written(rows, ticks);
            assertEquals(ticks, new ColumnBlock(COUNT).read(bytes, back));
            assertArrayEquals(rows, back);
            assertEquals(0, bytes.remaining());
        }
    }

    /** The extremes, not-a-numbers of any kind, small steps, and no change. */
    private static long pattern(Random random, long before) {
        return switch (random.nextInt(8)) {
            case 0 -> Long.MIN_VALUE;
            case 1 -> Long.MAX_VALUE;
            case 2 -> 0x7FF8_0000_0000_0001L;
            case 3 -> random.nextLong();
            case 4 -> Double.doubleToRawLongBits(random.nextInt(4096) / 1024.0);
            case 5 -> before + random.nextInt(11) - 5;
            default -> before;
        };
    }

    @Test
    void columnsThatStandStill_takeTenBytesEach() {
        long[] rows = new long[COUNT * 100];
        Arrays.fill(rows, Double.doubleToRawLongBits(96.7));
        assertEquals(1 + COUNT * 10, written(rows, 100).limit());
    }

    @Test
    void smallStepsOfEitherSign_takeOneByteOfEight() {
        long[] rows = new long[COUNT * 100];
        for (int i = COUNT; i < rows.length; i++) {
            rows[i] = rows[i - COUNT] + (i % 3) - 1;
        }
        assertEquals(1 + COUNT * (10 + 99), written(rows, 100).limit());
    }

    @Test
    void stepsOfAConverter_takeOneByteOfEight() {
        Random random = new Random(3);
        long[] rows = new long[COUNT * 100];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = Double.doubleToRawLongBits((3000 + random.nextInt(7)) / 1024.0);
        }
        assertEquals(1 + COUNT * (10 + 99), written(rows, 100).limit());
    }

    @Test
    void worstCase_fits() {
        long[] rows = new Random(9).longs(COUNT * 100).toArray();
        assertTrue(written(rows, 100).limit() <= new ColumnBlock(COUNT).worstBytes(100));
    }

    private static ByteBuffer written(long[] rows, int ticks) {
        ColumnBlock columns = new ColumnBlock(COUNT);
        ByteBuffer bytes = ByteBuffer.allocate(columns.worstBytes(ticks));
        columns.write(rows, ticks, bytes);
        return bytes.flip();
    }
}
