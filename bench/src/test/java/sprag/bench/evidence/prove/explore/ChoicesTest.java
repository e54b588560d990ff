package sprag.bench.evidence.prove.explore;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ChoicesTest {
    @Test
    void twoQuestions_allCombinations_deepestTurnsFirst() {
        Choices choices = new Choices(2);
        List<String> runs = new ArrayList<>();
        choices.begin();
        do {
            runs.add(choices.choose(1, 2) + "" + choices.choose(0, 3) + choices.choose(1, 2));
        } while (choices.next());
        assertEquals(List.of("000", "010", "020", "101", "111", "121"), runs);
    }

    @Test
    void questionBehindAnAnswer_notAskedElsewhere_notBranchedOnThere() {
        Choices choices = new Choices(2);
        int runs = 0;
        choices.begin();
        do {
            runs++;
            if (choices.choose(0, 3) == 1) {
                choices.choose(1, 10);
            }
        } while (choices.next());
        assertEquals(12, runs);
    }

    @Test
    void assumption_standsWithItsAnswer_andFallsWithIt() {
        Choices choices = new Choices(3);
        List<String> runs = new ArrayList<>();
        choices.begin();
        do {
            int first = choices.choose(0, 2);
            if (first == 0) {
                choices.assume(2, 3);
            }
            runs.add(first + "" + choices.choose(1, 2) + choices.choose(2, 4));
        } while (choices.next());
        assertEquals(List.of("003", "013", "100", "101", "102", "103", "110", "111", "112", "113"), runs);
    }

    @Test
    void assumption_againstAnAnswer_refused() {
        Choices choices = new Choices(1);
        choices.begin();
        choices.choose(0, 2);
        choices.assume(0, 0);
        String said = assertThrows(IllegalStateException.class, () -> choices.assume(0, 1))
                .getMessage();
        assertEquals("question 0 is answered 0 and cannot be assumed to be 1", said);
    }

    @Test
    void question_notAsked_hasNoAnswer() {
        Choices choices = new Choices(2);
        choices.begin();
        choices.choose(1, 2);
        assertEquals(1, choices.asked());
        assertThrows(IllegalStateException.class, () -> choices.answer(0));
        choices.begin();
        assertThrows(IllegalStateException.class, () -> choices.answer(1), "a new step forgets");
    }

    /** A random decision tree: at each node a key is asked; its leaves are what the choices must list. */
    private static final class Tree {
        private final long seed;
        private final int depth;

        Tree(long seed, int depth) {
            this.seed = seed;
            this.depth = depth;
        }

        int keyAt(String path) {
            return new Random(seed * 31 + path.hashCode()).nextInt(6);
        }

        boolean endsAt(String path) {
            return path.length() >= depth || new Random(seed * 17 + path.hashCode()).nextInt(8) == 0;
        }

        String run(Choices choices) {
            String path = "";
            while (!endsAt(path)) {
                int key = keyAt(path);
                path += choices.choose(key, 2 + key % 3);
            }
            return path;
        }

        void leaves(String path, int[] known, Set<String> into) {
            if (endsAt(path)) {
                into.add(path);
                return;
            }
            int key = keyAt(path);
            for (int value = 0; value < 2 + key % 3; value++) {
                if (known[key] < 0 || known[key] == value) {
                    int before = known[key];
                    known[key] = value;
                    leaves(path + value, known, into);
                    known[key] = before;
                }
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void randomTree_enumerated_everyLeafExactlyOnce(long seed) {
        Tree tree = new Tree(seed, 9);
        Set<String> expected = new HashSet<>();
        tree.leaves("", new int[] {-1, -1, -1, -1, -1, -1}, expected);
        Choices choices = new Choices(6);
        Set<String> seen = new HashSet<>();
        choices.begin();
        do {
            String leaf = tree.run(choices);
            assertTrue(seen.add(leaf), leaf + " came twice");
        } while (choices.next());
        assertEquals(expected, seen);
    }
}
