package sprag.supervisor.vocabulary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A state owns its letter, and a column of letters must speak of every state. */
class StateTest {
    @Test
    void letters_areDifferent() {
        assertEquals(
                State.COUNT,
                Stream.of(State.values())
                        .map(s -> s.letter)
                        .collect(Collectors.toSet())
                        .size());
    }

    @Test
    void column_withAPlaceForEveryState_namesThem() {
        assertEquals(EnumSet.allOf(State.class), State.inColumn("oipdrcf"));
        assertEquals(Set.of(State.PRECHARGE, State.FAULT), State.inColumn("  p   f"));
        assertEquals(Set.of(), State.inColumn("       "));
    }

    @ParameterizedTest
    @ValueSource(strings = {"oipdrc", "oipdrcf ", "ioipdrc", "  d    ", "x      ", ""})
    void column_withAPlaceMissingOrAWrongLetter_isRefused(String letters) {
        String message = assertThrows(IllegalStateException.class, () -> State.inColumn(letters))
                .getMessage();
        assertTrue(message.contains('"' + letters + '"'), message);
    }

    @ParameterizedTest
    @EnumSource(Interlock.class)
    void interlock_eitherSpelling_isFound(Interlock row) {
        assertEquals(Optional.of(row), Interlock.of(row.id()));
        assertEquals(Optional.of(row), Interlock.of(row.name()));
    }

    @Test
    void interlock_unknownName_isNone() {
        assertEquals(Optional.empty(), Interlock.of("lv-lo"));
        assertEquals(Optional.empty(), Interlock.of(""));
    }
}
