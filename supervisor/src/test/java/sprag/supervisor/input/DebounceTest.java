package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

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

    /** Parts that depend on switches alone rest while nothing moves: a count that rises or falls must keep them awake. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            THERE | GONE | STEADY | COUNTS | BECAUSE
            0     | 1    | true   | false  | nothing was ever there
            1     | 0    | false  | true   | it begins to count
            5     | 0    | false  | true   | it still rises
            6     | 0    | true   | true   | it has reached its end
            50    | 0    | true   | true   | and stays there
            50    | 1    | false  | true   | it falls
            50    | 11   | false  | true   | it still falls
            50    | 12   | true   | false  | it is gone
            50    | 40   | true   | false  | and stays away
            """)
    void count_isSteadyAtItsEndsAndNotBetween(int there, int gone, boolean steady, boolean counts, String because) {
        Readings in = new Readings();
        debounce.begin(in);
        debounce.begin(in);
        look(true, there);
        look(false, gone);
        assertEquals(steady, debounce.isSteady(), because);
        assertEquals(counts, debounce.isCounting(), because);
    }

    @Test
    void twoCounts_steadyOnlyWhenBothAre() {
        Readings in = new Readings();
        debounce.begin(in);
        debounce.begin(in);
        look(true, 6);
        look(Fact.LINK_LOST, true);
        assertFalse(debounce.isSteady(), "the second one rises");
        debounce.forget(facts, Fact.LINK_LOST);
        assertTrue(debounce.isSteady(), "only the first one is left");
        assertTrue(debounce.isCounting());
        debounce.forget(facts, FACT);
        assertFalse(debounce.isCounting());
    }

    @Test
    void switchMoves_isNotSteadyInItsTick() {
        Readings in = new Readings();
        assertFalse(debounce.isSteady(), "before the first tick");
        debounce.begin(in);
        debounce.begin(in);
        assertTrue(debounce.isSteady());
        in.set(Signal.KEY_ON, 1);
        debounce.begin(in);
        assertFalse(debounce.isSteady());
        debounce.begin(in);
        assertTrue(debounce.isSteady());
    }
}
