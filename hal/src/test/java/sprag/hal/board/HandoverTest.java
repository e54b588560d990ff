package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class HandoverTest {
    @Test
    void nothingPublished_nothingIsTaken() {
        assertFalse(new Handover(2).take());
    }

    @Test
    void manyPublished_onlyTheNewestIsTakenAndOnlyOnce() {
        Handover handover = new Handover(1);
        for (int i = 1; i <= 5; i++) {
            handover.rowToWrite()[0] = i;
            handover.publish();
        }
        assertTrue(handover.take());
        assertEquals(5, handover.rowTaken()[0]);
        assertFalse(handover.take());
        assertEquals(5, handover.rowTaken()[0], "the last one stays readable");
    }

    @Test
    void writerAndReaderRace_everyRowTakenIsWholeAndNoneIsOlderThanTheOneBefore() throws InterruptedException {
        int width = 16;
        long rounds = 200_000;
        Handover handover = new Handover(width);
        Thread writer = new Thread(() -> {
            for (long n = 1; n <= rounds; n++) {
                Arrays.fill(handover.rowToWrite(), n);
                handover.publish();
            }
        });
        writer.start();
        long last = 0;
        while (last < rounds) {
            if (handover.take()) {
                long[] row = handover.rowTaken();
                long first = row[0];
                assertTrue(first > last, first + " after " + last);
                for (long value : row) {
                    assertEquals(first, value, "half of one row and half of another");
                }
                last = first;
            }
        }
        writer.join();
    }
}
