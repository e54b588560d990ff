package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Watch;

/** Facts are held as values and, for a quick look, as one bit each: both must say the same. */
class TickFactsTest {
    private final TickFacts facts = new TickFacts();

    @ParameterizedTest
    @EnumSource(Interlock.class)
    void causeOfAnInterlock_isFound_whateverElseComesAndGoes(Interlock row) {
        if (!row.cause.isFact()) {
            return;
        }
        Watch watch = new Watch(List.of(row));
        Fact cause = row.cause.fact();
        int there = row.cause.value();
        for (Fact other : Fact.values()) {
            if (other != cause) {
                facts.set(cause, there);
                assertEquals(0, facts.firstActive(watch), "the cause is there");
                facts.set(other, true);
                assertEquals(0, facts.firstActive(watch), other + " comes");
                facts.set(other, false);
                assertEquals(0, facts.firstActive(watch), other + " goes");
                facts.set(cause, there == 0 ? 1 : 0);
                assertEquals(-1, facts.firstActive(watch), "the cause is gone");
            }
        }
    }
}
