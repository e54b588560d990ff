package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import org.junit.jupiter.api.Test;

/** A step allocates nothing, whatever it does: every transition is driven in the measured rounds. */
class AllocationTest {
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    private static final int ROUNDS = 6;

    /** The least of some rounds: the first ones carry what the compiler and class loading allocate. */
    @Test
    void aDayWithEveryTransition_allocatesNothing() {
        Rig rig = EveryTransition.rig();
        long self = Thread.currentThread().getId();
        long leastBytes = Long.MAX_VALUE;
        for (int round = 0; round < ROUNDS; round++) {
            long before = THREADS.getThreadAllocatedBytes(self);
            EveryTransition.day(rig);
            leastBytes = Math.min(leastBytes, THREADS.getThreadAllocatedBytes(self) - before);
        }
        assertEquals(0, leastBytes, "bytes allocated in a day with every transition");
    }
}
