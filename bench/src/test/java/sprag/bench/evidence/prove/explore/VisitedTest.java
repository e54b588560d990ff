package sprag.bench.evidence.prove.explore;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class VisitedTest {
    private static List<Long> addAll(Visited set, long[] states) {
        LongQueue fresh = new LongQueue();
        set.addAll(states, states.length, fresh);
        List<Long> list = new ArrayList<>();
        for (long i = 0; i < fresh.size(); i++) {
            list.add(fresh.get(i));
        }
        return list;
    }

    private static List<Long> distinct(long[] states) {
        Set<Long> seen = new LinkedHashSet<>();
        for (long state : states) {
            seen.add(state);
        }
        return new ArrayList<>(seen);
    }

    @ParameterizedTest(name = "{0} bits, seed {1}")
    @CsvSource({
        "1, 1", "2, 2", "5, 3", "13, 4", "24, 5", "37, 6", "38, 7", "52, 8", "53, 9", "59, 10", "60, 11", "63, 12"
    })
    void randomStates_added_newOnesComeOutOnceInOrder(int bits, long seed) {
        Random random = new Random(seed);
        long[] states = random.longs(200_000).map(s -> s >>> 64 - bits).toArray();
        for (int i = 0; i < states.length; i += 3) {
            states[i] = states[random.nextInt(states.length)];
        }
        assertEquals(distinct(states), addAll(new HashedStates(bits), states));
    }

    @ParameterizedTest(name = "every {0}th number")
    @ValueSource(longs = {1, 2, 4096, 1L << 20, (1L << 20) + 1, 3L << 30})
    void regularStates_added_noLongRunsOfSlots(long stride) {
        HashedStates set = new HashedStates(50);
        long[] states = new long[200_000];
        for (int i = 0; i < states.length; i++) {
            states[i] = i * stride;
        }
        assertEquals(states.length, addAll(set, states).size());
        assertTrue(set.longestRun() < 600, "longest run of taken slots: " + set.longestRun());
    }

    @Test
    void statesMadeToCollide_added_allKeptApart() {
        Mixer mixer = new Mixer(62);
        long[] states = new long[4000];
        for (int i = 0; i < states.length; i++) {
            states[i] = mixer.unmix(i + (i % 2 == 0 ? 0 : -1L >>> 2 & ~0xffffL)) << 1;
        }
        HashedStates set = new HashedStates(63);
        assertEquals(distinct(states), addAll(set, states));
        assertEquals(List.of(), addAll(set, states), "all are known the second time");
        assertTrue(set.longestRun() >= 2000, "they do collide: " + set.longestRun());
    }

    @ParameterizedTest(name = "{0} bits")
    @ValueSource(ints = {1, 2, 3, 31, 32, 33, 63, 64})
    void mixer_anyWidth_canBeUndoneAndStaysInside(int bits) {
        Mixer mixer = new Mixer(bits);
        Random random = new Random(bits);
        for (int i = 0; i < 1000; i++) {
            long number = random.nextLong() >>> 64 - bits;
            long mixed = mixer.mix(number);
            assertEquals(number, mixer.unmix(mixed));
            assertEquals(0, bits == 64 ? 0 : mixed >>> bits);
        }
    }

    @Test
    void sparseStates_added_atMostFifteenBytesEach() {
        HashedStates set = new HashedStates(63);
        LongQueue fresh = new LongQueue();
        Random random = new Random(7);
        for (int n = 1; n <= 300_000; n++) {
            set.addAll(new long[] {random.nextLong() >>> 1}, 1, fresh);
            if (n > 10_000) {
                assertTrue(set.bytes() <= 15.1 * n, set.bytes() + " bytes for " + n + " states without neighbours");
            }
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            BITS | STATE | FITS  | BECAUSE
            4    | 15    | true  | the highest of four bits
            4    | 16    | false | one more
            4    | -1    | false | a sign is a bit too
            """)
    void hashed_stateOfAWidth_refusedWhenWider(int bits, long state, boolean fits, String because) {
        HashedStates set = new HashedStates(bits);
        if (fits) {
            assertEquals(List.of(state), addAll(set, new long[] {state}), because);
        } else {
            String said = assertThrows(IllegalStateException.class, () -> addAll(set, new long[] {state}))
                    .getMessage();
            assertTrue(said.contains("state " + state + " is outside 0..15"), said);
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SPACE | STATE | FITS  | BECAUSE
            65    | 64    | true  | the last number, alone in the second word
            65    | 65    | false | would still find a word
            65    | 128   | false | has no word
            65    | -1    | false | numbers start at 0
            """)
    void dense_stateOfASpace_refusedWhenOutside(long space, long state, boolean fits, String because) {
        DenseStates set = new DenseStates(space);
        if (fits) {
            assertEquals(List.of(state), addAll(set, new long[] {state, state}), because);
        } else {
            assertThrows(IllegalStateException.class, () -> addAll(set, new long[] {state}), because);
        }
    }

    @Test
    void dense_tooWide_refusedWithTheRemedy() {
        String said = assertThrows(IllegalArgumentException.class, () -> new DenseStates(1L << 40))
                .getMessage();
        assertTrue(said.contains("1099511627776") && said.contains("leave indexSpace() at 0"), said);
    }
}
