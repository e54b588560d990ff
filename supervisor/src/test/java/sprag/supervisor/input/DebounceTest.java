package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Fact;

/** Debouncing, on LOOP_LATE: 50 ms, five ticks. */
class DebounceTest {
    private static final Fact FACT = Fact.LOOP_LATE;

    private final Debounce debounce = new Debounce(TestVehicle.full());
    private final TickFacts facts = new TickFacts();

    private boolean look(Fact fact, boolean cause) {
        debounce.into(facts, fact, cause);
        return facts.is(fact);
    }

    private boolean look(boolean cause, int ticks) {
        boolean is = debounce.was(FACT);
        for (int i = 0; i < ticks; i++) {
            is = look(FACT, cause);
        }
        assertEquals(is, debounce.was(FACT));
        return is;
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            THERE | GONE | FACT  | BECAUSE
            5     | 0    | false | first seen now, it has lasted four ticks' time and a look
            6     | 0    | true  | it has lasted five ticks
            100   | 0    | true  | and stays true
            6     | 11   | true  | away for less than twice as long
            6     | 12   | false | away twice as long
            100   | 11   | true  | however long it was there
            100   | 12   | false | however long it was there
            """)
    void cause_countsAfterItsTimeAndEndsAfterTwice(int there, int gone, boolean fact, String because) {
        look(true, there);
        assertEquals(fact, look(false, gone), because);
    }

    @Test
    void causeThatPasses_leavesNothingBehind() {
        assertFalse(look(true, 5));
        assertFalse(look(false, 10));
        assertFalse(look(true, 5));
        assertTrue(look(true, 1));
    }

    @Test
    void intermittentCause_badMoreThanAThirdOfTheTime_isFound() {
        boolean found = false;
        for (int i = 0; i < 200 && !found; i++) {
            found = look(FACT, i % 5 < 2);
        }
        assertTrue(found, "bad two ticks of five");
    }

    @Test
    void intermittentCause_badAThirdOfTheTime_isNot() {
        for (int i = 0; i < 3000; i++) {
            assertFalse(look(FACT, i % 3 == 0), "tick " + i);
        }
    }

    @Test
    void causeWithoutTime_countsAtOnce() {
        assertTrue(look(Fact.KEY_ON, true));
        assertTrue(look(Fact.KEY_ON, false));
        assertFalse(look(Fact.KEY_ON, false));
    }

    @Test
    void forgotten_beginsAnew() {
        look(true, 100);
        debounce.forget(facts, FACT);
        assertFalse(debounce.was(FACT));
        assertFalse(look(true, 5));
        assertTrue(look(true, 1));
    }

    @Test
    void facts_doNotDisturbEachOther() {
        look(true, 6);
        assertFalse(look(Fact.LINK_LOST, true));
        assertFalse(debounce.was(Fact.LINK_LOST));
        assertTrue(debounce.was(FACT));
    }
}
