package sprag.bench.evidence.campaign.play;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Collections;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.State;

/** What a run with a fault is called. */
class FaultOutcomeTest {
    private static Vehicle cart;

    @BeforeAll
    static void read() throws Exception {
        cart = VehicleReader.read(Catalogue.installed().vehicle("yard-cart"));
    }

    @ParameterizedTest(name = "{6}: {7}")
    @CsvSource(delimiter = '|', textBlock = """
            plug-present | false |  0 | 20 | 100 | 100 | SAFE       | answered at the end of its time
            plug-present | false |  0 | 20 | 101 | 100 | LATE       | a millisecond beyond its time
            plug-present | true  |  0 | 20 | 101 | 100 | SAFE       | a warning has nothing to answer
            plug-present | false |  0 | -1 |  50 | 100 | LATE       | noticed, and what it asks for was never so
            plug-present | true  |  0 | -1 |  50 | 100 | SAFE       | a warning asks for nothing
            ''           | false | 10 | -1 |   0 |   0 | UNDETECTED | a reading differed, and nothing noticed it
            ''           | false |  0 | -1 |   0 |   0 | UNDETECTED | a reading differed at once
            ''           | false | -1 | -1 |   0 |   0 | DORMANT    | no reading ever differed
            """)
    void runWithoutHarm_judged_isWhatTheTimesSay(
            String interlock,
            boolean onlyWarned,
            double shownMs,
            double reactMs,
            double exposedMs,
            double budgetMs,
            Verdict verdict,
            String because) {
        FaultOutcome outcome = new FaultOutcome(
                "yard-cart",
                "cruising",
                "key_on.stuck",
                Verdict.SAFE,
                interlock,
                shownMs,
                20,
                reactMs,
                exposedMs,
                budgetMs,
                State.OFF,
                Collections.nCopies(Harm.values().length, 0.0));
        assertEquals(verdict, outcome.judged(cart, onlyWarned).verdict(), because);
    }
}
