package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

/** Looks each 50 ms at a write that began at 0; stuck after 250 ms. */
class StuckWriteTest {
    private final StuckWrite watch = new StuckWrite(250);

    private long firstStuckAt(LongStream looksAt) {
        return looksAt.filter(now -> watch.isStuck(0, now)).findFirst().orElse(-1);
    }

    @Test
    void write_seenAgainAndAgain_isStuckAfterItsTime() {
        assertEquals(300, firstStuckAt(LongStream.iterate(0, now -> now <= 1000, now -> now + 50)));
    }

    @Test
    void write_beganLate_isStuckAfterTheSameTime() {
        for (long now = 1_000_000; now < 1_000_300; now += 50) {
            assertFalse(watch.isStuck(1_000_000, now), now + " is not later than 250 after the beginning");
        }
        assertTrue(watch.isStuck(1_000_000, 1_000_300));
    }

    @Test
    void program_stoodStillInAWrite_isNotStuckWhenItComesBack() {
        assertFalse(watch.isStuck(0, 10));
        assertFalse(watch.isStuck(0, 2500), "nobody could look meanwhile");
        assertFalse(watch.isStuck(StuckWrite.NOT_WRITING, 2550), "the write has gone on");
        assertFalse(watch.isStuck(2560, 2600));
    }

    @Test
    void program_stoodStillAndTheLineTakesNothing_isStuckALittleLater() {
        assertFalse(watch.isStuck(0, 10));
        assertEquals(2700, firstStuckAt(LongStream.iterate(2500, now -> now <= 5000, now -> now + 50)));
    }

    @Test
    void writes_oneAfterAnother_areNeverStuck() {
        assertEquals(
                0,
                LongStream.range(0, 100)
                        .filter(n -> watch.isStuck(50 * n, 50 * n + 49))
                        .count());
    }
}
