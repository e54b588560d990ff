package sprag.bench.review.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.vocabulary.Signal;

class CoverTest {
    @ParameterizedTest
    @EnumSource(Signal.class)
    void everyOptionalSignal_hasASentence_andNoOtherHas(Signal signal) {
        if (signal.optional) {
            assertNotNull(Cover.lostWithout(signal), signal + " may be lacking, so say what is lost");
        } else {
            assertNull(Cover.lostWithout(signal), signal + " is never lacking");
        }
    }

    @Test
    void sentences_areDifferent_butForTheTwoFurtherChargers() {
        Set<String> words = EnumSet.allOf(Signal.class).stream()
                .filter(s -> s.optional)
                .map(Cover::lostWithout)
                .map(s -> s.replace("second", "further").replace("third", "further"))
                .collect(Collectors.toSet());
        long optional =
                EnumSet.allOf(Signal.class).stream().filter(s -> s.optional).count();
        assertEquals(optional - 1, words.size());
    }

    @Test
    void chargerThatIsNotThere_isNoLoss() {
        assertFalse(Cover.lost(Set.of(), 1).containsKey(Signal.CHARGER_2_OK));
        assertEquals(
                Cover.lost(Set.of(), 1).size() + 1,
                Cover.lost(Set.of(), 2).size(),
                "with two chargers the second counts");
        assertEquals(0, Cover.lost(EnumSet.allOf(Signal.class), 3).size(), "everything fitted, nothing lost");
    }
}
