package sprag.bench.evidence.prove.toy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.management.ManagementFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.evidence.prove.explore.Exploration;
import sprag.bench.evidence.prove.explore.Explorer;

class ToyMachineTest {
    /** States and depth as SPIN, LTSmin, TLC and a BDD engine count them; transitions as SPIN 6.5.2 does, less the first state. */
    @ParameterizedTest(name = "limit {0}, {4} workers, dense: {5}")
    @CsvSource({
        " 5,     1021,    7405,  14, 1, false",
        " 5,     1021,    7405,  14, 1, true",
        "25,   112601,  883545,  54, 1, false",
        "25,   112601,  883545,  54, 2, false",
        "25,   112601,  883545,  54, 2, true",
        "54,  1117045, 8856805, 112, 1, false",
        "54,  1117045, 8856805, 112, 1, true",
        "54,  1117045, 8856805, 112, 2, false",
    })
    void toy_explored_countsOfFiveOtherTools(
            int limit, long states, long transitions, int depth, int workers, boolean dense) {
        Exploration found = Explorer.of(() -> dense ? ToyMachine.dense(limit) : ToyMachine.hashed(limit))
                .workers(workers)
                .explore();

        assertTrue(found.complete());
        assertEquals(states, found.size().states());
        assertEquals(transitions, found.size().transitions());
        assertEquals(depth, found.size().depth());
        assertFalse(found.happened(ToyMachine.BAD_DRIVE), "never driving with the fault timer full");
    }

    @Test
    void toy_hashed_atMost24BytesAState() {
        Exploration found = Explorer.of(() -> ToyMachine.hashed(25)).explore();
        assertTrue(found.size().bytesPerState() <= 24, found.size().bytesPerState() + " bytes a state");
    }

    @ParameterizedTest(name = "dense: {0}")
    @ValueSource(booleans = {false, true})
    void toy_explored_allocatesOnlyForStates(boolean dense) {
        com.sun.management.ThreadMXBean threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        long before = threads.getCurrentThreadAllocatedBytes();
        Exploration found = Explorer.of(() -> dense ? ToyMachine.dense(54) : ToyMachine.hashed(54))
                .explore();
        long allocated = threads.getCurrentThreadAllocatedBytes() - before;

        // A table that grows by half has been allocated three times over; one object a transition would be 140 MB.
        long allowed = 3 * found.size().bytes() + 1_000_000;
        assertTrue(allocated <= allowed, allocated + " bytes for " + found.summary());
    }

    @Test
    void limit_outOfRange_namedWithTheRange() {
        assertEquals(
                "a timer limit of 256 is outside 1..255",
                assertThrows(IllegalArgumentException.class, () -> ToyMachine.hashed(256))
                        .getMessage());
        assertThrows(IllegalArgumentException.class, () -> ToyMachine.dense(0));
    }
}
