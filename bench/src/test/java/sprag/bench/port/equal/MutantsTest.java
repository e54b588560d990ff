package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import sprag.bench.port.translate.SharedTranslation;

/** Which mistakes are planted, and how it is judged what was found. */
class MutantsTest {
    private static Map<String, String> code;

    @BeforeAll
    static void translate() throws Exception {
        code = SharedTranslation.whole().code();
    }

    private static List<String> some(int most, long seed) {
        return Mutants.some(code, most, seed).stream()
                .map(Mutants.Mutant::words)
                .toList();
    }

    @Test
    void anotherSeed_choosesOthers_theSameSeedTheSame() {
        assertEquals(some(100, 17), some(100, 17));
        assertTrue(some(100, 18).stream().filter(some(100, 17)::contains).count() < 60);
        assertNotEquals(some(6, 17), some(6, 18));
    }

    @Test
    void plantedMistake_changesItsFileInOnePlace() {
        for (Mutants.Mutant mutant : Mutants.some(code, 100, 17)) {
            String sound = code.get(mutant.file());
            String planted = mutant.text();
            int same = 0;
            while (sound.charAt(same) == planted.charAt(same)) {
                same++;
            }
            int tail = 0;
            int longest = Math.min(sound.length(), planted.length()) - same;
            while (tail < longest
                    && sound.charAt(sound.length() - 1 - tail) == planted.charAt(planted.length() - 1 - tail)) {
                tail++;
            }
            String was = sound.substring(same, sound.length() - tail);
            String is = planted.substring(same, planted.length() - tail);
            assertTrue(was.length() <= 5 && is.length() <= 5, mutant.words() + ": " + was + " became " + is);
            assertNotEquals(was, is, mutant.words());
        }
    }

    @Test
    void mistake_isExplainedByItsWholeWords_andByNothingLess() {
        Map<String, String> reasons = Map.of("a.c, f: x {< made <=} y", "why");
        List<String> undetected =
                List.of("a.c, f: x {< made <=} y", "a.c, f: x {< made <=} y + 1", "b.c, f: x {< made <=} y");
        PlantedMistakesTest.Judged judged =
                PlantedMistakesTest.judge(new MutantHunt.Hunted(List.of(), undetected), reasons);
        assertEquals(undetected.subList(1, 3), judged.unexplained());
        assertEquals(Set.of(), judged.wrong());
    }

    @Test
    void mistake_thatIsFound_hasAReasonThatIsWrong() {
        String words = "a.c, f: x {< made <=} y";
        Map<String, String> reasons = Map.of(words, "why");
        MutantHunt.Hunted found = new MutantHunt.Hunted(List.of(words), List.of());
        assertEquals(Set.of(words), PlantedMistakesTest.judge(found, reasons).wrong());
        MutantHunt.Hunted oneOfTwo = new MutantHunt.Hunted(List.of(words), List.of(words));
        assertEquals(Set.of(), PlantedMistakesTest.judge(oneOfTwo, reasons).wrong(), "two lines with the same words");
    }

    /** Five of a hundred, and not six. */
    @Test
    void unexplained_beyondOneInTwenty_areTooMany() {
        assertTrue(PlantedMistakesTest.areFewEnough(5, 100));
        assertTrue(!PlantedMistakesTest.areFewEnough(6, 100));
    }
}
