package sprag.bench.evidence.prove.explore;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Small parts of an exploration, each by itself. */
class PartsTest {
    @Test
    void size_givesSpeedsAndTheMemoryOfAState() {
        Exploration.Size size = new Exploration.Size(1000, 5000, 7, 16_000, 500_000_000L);
        assertEquals(2000, size.statesPerS(), 1e-9);
        assertEquals(10_000, size.transitionsPerS(), 1e-9);
        assertEquals(16, size.bytesPerState(), 1e-9);
    }

    @ParameterizedTest
    @CsvSource({"1, 8", "64, 8", "65, 16", "640, 80"})
    void denseStates_takeABitANumber(long space, long bytes) {
        assertEquals(bytes, new DenseStates(space).bytes());
    }

    /** The same lines are the same course, also after another stepper has learnt them. */
    @Test
    void courses_ofEqualLines_haveOneNumber_andOthersTheirOwn() {
        Courses courses = new Courses();
        int first = courses.numberOf(new long[] {1, 2, 3, 99}, 3, new BitSet());
        assertEquals(0, first);
        assertEquals(first, courses.numberOf(new long[] {1, 2, 3}, 3, new BitSet()));
        int second = courses.numberOf(new long[] {1, 2, 4}, 3, new BitSet());
        assertNotEquals(first, second);
        assertEquals(2, courses.size());
        assertArrayEquals(new long[] {1, 2, 3}, courses.lines(first));
        assertArrayEquals(new long[] {1, 2, 4}, courses.lines(second));
        assertArrayEquals(new long[0], courses.lines(Courses.NOT_KEPT));
        assertEquals(Courses.NEW, courses.of(7));
        courses.keep(7, second);
        courses.keep(7, first);
        assertEquals(second, courses.of(7), "the first that was kept stays");
        assertEquals(second, courses.likely(8, 7), "the course of its neighbour");
        assertEquals(Courses.NEW, courses.likely(8, 8));
        Courses later = new Courses(courses, (state, labels) -> true);
        assertEquals(second, later.numberOf(new long[] {1, 2, 4}, 3, new BitSet()));
        assertEquals(2, later.numberOf(new long[] {5}, 1, new BitSet()));
        assertEquals(second, later.of(7));
        assertArrayEquals(new long[] {1, 2, 3}, later.lines(first));
    }

    /** From 0 to 1 or 2, from each of them to 3. */
    private record Fork(boolean wide) implements Machine {
        @Override
        public long initial() {
            return 0;
        }

        @Override
        public void expand(long state, Successors out) {
            if (state == 0) {
                out.add(1);
                if (wide) {
                    out.add(2);
                }
            } else {
                out.add(3);
            }
        }
    }

    @Test
    void trace_runsOnAMachineThatTakesEachOfItsSteps_only() {
        Trace trace = new Trace(List.of(new Trace.Step(0, 1, 2), new Trace.Step(2, 0, 3)));
        assertTrue(trace.runsOn(new Fork(true)));
        assertFalse(trace.runsOn(new Fork(false)), "the second branch is gone");
        assertFalse(new Trace(List.of(new Trace.Step(0, 0, 2))).runsOn(new Fork(true)), "another state after it");
        assertFalse(new Trace(List.of(new Trace.Step(1, 0, 3))).runsOn(new Fork(true)), "another state before it");
        assertEquals(2, trace.length());
    }

    @Test
    void stepper_thatCountsNothing_hasNoBitOfACount() {
        Stepper plain = new Stepper() {
            @Override
            public long initial() {
                return 0;
            }

            @Override
            public int bits() {
                return 11;
            }

            @Override
            public int keys() {
                return 1;
            }

            @Override
            public long step(long state, Choices choices, Successors out) {
                return state;
            }
        };
        assertEquals(11, plain.countFrom());
        assertEquals(0, plain.labels() + plain.leastCount());
        assertEquals(Integer.MAX_VALUE, plain.mostCount());
    }
}
