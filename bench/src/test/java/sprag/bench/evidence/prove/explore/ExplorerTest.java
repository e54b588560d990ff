package sprag.bench.evidence.prove.explore;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ExplorerTest {
    /** Counts up to an end and stays there; event 0 is noted when a given number is reached. */
    private static final class Counter implements Machine {
        private final long end;
        private final long noted;

        Counter(long end, long noted) {
            this.end = end;
            this.noted = noted;
        }

        @Override
        public long initial() {
            return 0;
        }

        @Override
        public int events() {
            return 1;
        }

        @Override
        public void expand(long state, Successors out) {
            long next = Math.min(state + 1, end);
            if (next == noted) {
                out.note(0);
            }
            out.add(next);
        }
    }

    /** The plainest search there is: a map from each state to its distance. */
    private static Map<Long, Integer> distances(RandomMachine machine) {
        Map<Long, Integer> distance = new HashMap<>();
        Deque<Long> waiting = new ArrayDeque<>();
        distance.put(machine.first, 0);
        waiting.add(machine.first);
        while (!waiting.isEmpty()) {
            long state = waiting.remove();
            for (long to : machine.arrows.get(state)) {
                if (distance.putIfAbsent(to, distance.get(state) + 1) == null) {
                    waiting.add(to);
                }
            }
        }
        return distance;
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void randomMachine_explored_sameAsThePlainestSearch(long seed) {
        RandomMachine machine = new RandomMachine(seed, 20 + (int) seed * 400, 1 + (int) seed % 4);
        Map<Long, Integer> expected = distances(machine);
        Exploration one = Explorer.of(() -> machine).explore();

        assertEquals(expected.size(), one.size().states());
        assertEquals(
                expected.keySet().stream()
                        .mapToLong(s -> machine.arrows.get(s).length)
                        .sum(),
                one.size().transitions());
        assertEquals(
                expected.values().stream().mapToInt(d -> d).max().orElse(0) + 1,
                one.size().depth());
        assertTrue(one.complete());
        assertEquals(machine.first != machine.marked && expected.containsKey(machine.marked), one.happened(0));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {21, 22, 23, 24, 25, 27, 28, 29})
    void randomMachine_traceToTheMark_isShortestAndRunsAgain(long seed) {
        RandomMachine machine = new RandomMachine(seed, 3000, 4);
        int shortest = distances(machine).get(machine.marked);
        Exploration found = Explorer.of(() -> machine).explore();
        Trace trace = found.trace(0).orElseThrow();

        assertEquals(shortest, trace.length());
        assertEquals(shortest, found.stepsTo(0));
        assertEquals(machine.marked, trace.steps().get(shortest - 1).after());
        assertTrue(trace.runsOn(machine));
        assertFalse(trace.runsOn(new RandomMachine(seed + 100, 3000, 4)), "another machine does not take these steps");
    }

    @ParameterizedTest(name = "seed {0}, {1} workers")
    @CsvSource({"31, 2", "32, 2", "33, 3", "34, 4", "35, 2", "36, 7"})
    void randomMachine_sharedWork_sameFiguresAndSameTrace(long seed, int workers) {
        RandomMachine machine = new RandomMachine(seed, 40_000, 3);
        Exploration alone = Explorer.of(() -> machine).explore();
        Exploration shared = Explorer.of(() -> machine).workers(workers).explore();

        assertEquals(alone.summary(), shared.summary());
        assertEquals(alone.trace(0), shared.trace(0));
    }

    @ParameterizedTest(name = "broken at depth {0}, {1} workers")
    @CsvSource({"1, 1", "2, 1", "3, 2", "17, 1", "17, 2", "1000, 1"})
    void eventAtAKnownDepth_stopAtIt_foundThere(int depth, int workers) {
        Exploration found = Explorer.of(() -> new Counter(2000, depth))
                .workers(workers)
                .stopAt(0)
                .explore();

        assertEquals(depth, found.stepsTo(0));
        assertEquals(depth, found.trace(0).orElseThrow().length());
        assertEquals(depth + 1, found.size().states(), "no state beyond that depth was expanded");
        assertFalse(found.complete());
        assertEquals("event 0 was seen at depth " + depth, found.stoppedBy().orElseThrow());
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        MAX_STATES | MAX_DEPTH  | COMPLETE | BECAUSE
        101        | 2147483647 | true     | exactly as many states as there are
        100        | 2147483647 | false    | one fewer
        500        | 101        | true     | the last state has been expanded too
        500        | 100        | false    | the last state waits to be expanded
        500        | 0          | false    | nothing is expanded at all
        """)
    void hundredAndOneStates_limits_completeOnlyWhenNoneWasMet(
            long maxStates, int maxDepth, boolean complete, String because) {
        Exploration found = Explorer.of(() -> new Counter(100, -1))
                .maxStates(maxStates)
                .maxDepth(maxDepth)
                .explore();

        assertEquals(complete, found.complete(), because);
        assertEquals(!complete, found.stoppedBy().isPresent(), because);
        assertEquals(complete, found.summary().endsWith(", complete"), found.summary());
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SEEN_AT | PATIENCE | STATES | BECAUSE
        17      | 10       | 29     | eleven steps after it, one more than may be
        17      | 2000     | 2001   | nothing is left before the patience ends
        -1      | 10       | 2001   | it is never seen, so nobody is impatient
        """)
    void eventSeen_patienceEnds_restIsLeft(int seenAt, long patience, int states, String because) {
        Exploration found = Explorer.of(() -> new Counter(2000, seenAt))
                .giveUpAfter(patience, IntStream.of(0))
                .explore();

        assertEquals(states, found.size().states(), because);
        assertEquals(states == 2001, found.complete(), because);
        assertEquals(seenAt > 0, found.happened(0));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        MOST | COMPLETE | BECAUSE
        2000 | true     | the limit is met when nothing waits any more
        1000 | false    | states wait at the limit
        0    | false    | the first state is expanded, and its successor waits
        """)
    void transitions_limitMet_restIsLeft(long most, boolean complete, String because) {
        Exploration found =
                Explorer.of(() -> new Counter(2000, -1)).maxTransitions(most).explore();

        assertEquals(complete, found.complete(), because);
        assertEquals(!complete, found.stoppedBy().orElse("").startsWith("the limit of " + most + " transitions"));
    }

    @Test
    void eventSeenOnTheVeryLastStep_stopAtIt_stillComplete() {
        Exploration found = Explorer.of(() -> new Counter(0, 0)).stopAt(0).explore();

        assertTrue(found.happened(0));
        assertTrue(found.complete(), "nothing was left to visit");
        assertEquals(1, found.trace(0).orElseThrow().length());
    }

    @ParameterizedTest(name = "{0} workers")
    @ValueSource(ints = {1, 2, 3})
    void machineThrows_explored_theSameExceptionComesOut(int workers) {
        Machine faulty = new Machine() {
            @Override
            public long initial() {
                return 0;
            }

            @Override
            public void expand(long state, Successors out) {
                if (state == 700) {
                    throw new ArithmeticException("state 700");
                }
                out.add(state + 1);
                out.add((state * 31 + 64) % 5000);
            }
        };
        ArithmeticException thrown = assertThrows(
                ArithmeticException.class,
                () -> Explorer.of(() -> faulty).workers(workers).explore());
        assertEquals("state 700", thrown.getMessage());
    }

    @Test
    void progress_eachDepth_reported() {
        StringBuilder said = new StringBuilder();
        Explorer.of(() -> new Counter(2, -1))
                .progress((depth, states, transitions, seen) -> said.append(depth)
                        .append(':')
                        .append(states)
                        .append('/')
                        .append(transitions)
                        .append(' '))
                .explore();
        assertEquals("0:2/1 1:3/2 2:3/3 ", said.toString());
    }

    @Test
    void workers_outOfRange_namedWithTheRange() {
        Explorer explorer = Explorer.of(() -> new Counter(1, 1));
        assertEquals(
                "0 workers is outside 1..64",
                assertThrows(IllegalArgumentException.class, () -> explorer.workers(0))
                        .getMessage());
        assertThrows(IllegalArgumentException.class, () -> explorer.workers(65));
    }
}
