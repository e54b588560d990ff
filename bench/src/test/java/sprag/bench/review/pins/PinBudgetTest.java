package sprag.bench.review.pins;

import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.report.Checker;
import sprag.bench.vehicle.Catalogue;

/** Which board fits: both sides of each limit. */
class PinBudgetTest {
    @ParameterizedTest
    @CsvSource({
        "6, 6, 6, a small",
        "6, 6, 7, a large",
        "1, 7, 1, a large",
        "26, 16, 26, a large",
        "26, 16, 27, modules with",
        "1, 17, 1, modules with"
    })
    void pinsNeeded_kindOfBoard_bothSides(int switches, int quantities, int outputs, String fits) {
        assertTrue(new PinBudget(switches, quantities, outputs).fitting().startsWith(fits));
    }

    @Test
    void check_ofTheVan_tellsTheBoardsThatFitBeforeAnythingIsWired() throws Exception {
        String pins = Checker.check(Catalogue.installed().vehicle("parcel-van")).pins();
        assertTrue(pins.matches("Pins: .* in all\\. That fits modules with .*"), pins);
    }
}
