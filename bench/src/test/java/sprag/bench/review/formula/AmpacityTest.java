package sprag.bench.review.formula;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AmpacityTest {
    private static final int[] RATING_C = {60, 75, 80, 90, 105, 125, 200};

    /** 33 CFR 183.425, table 5, every cell, written down here a second time. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(textBlock = """
        18,  10,  10,  15,  20,  20,  25,  25
        16,  15,  15,  20,  25,  25,  30,  35
        14,  20,  20,  25,  30,  35,  40,  45
        12,  25,  25,  35,  40,  45,  50,  55
        10,  40,  40,  50,  55,  60,  70,  70
        8,   55,  65,  70,  70,  80,  90, 100
        6,   80,  95, 100, 100, 120, 125, 135
        4,  105, 125, 130, 135, 160, 170, 180
        3,  120, 145, 150, 155, 180, 195, 210
        2,  140, 170, 175, 180, 210, 225, 240
        1,  165, 195, 210, 210, 245, 265, 280
        0,  195, 230, 245, 245, 285, 305, 325
        -1, 225, 265, 285, 285, 330, 355, 370
        -2, 260, 310, 330, 330, 385, 410, 430
        -3, 300, 360, 385, 385, 445, 475, 510
        """)
    void tableSizeAndRating_inAirOf30Degrees_isTheCell(
            int gauge, double a, double b, double c, double d, double e, double f, double g) {
        double[] cells = {a, b, c, d, e, f, g};
        for (int i = 0; i < cells.length; i++) {
            assertEquals(cells[i], ampacityA(gauge, RATING_C[i], 30, 1), 1e-9, gauge + " AWG at " + RATING_C[i]);
        }
    }

    private static double ampacityA(int gauge, double insulationC, double airC, double bundled) {
        return Ampacity.ampacityA(Conductor.awgMm2(gauge), insulationC, airC, bundled);
    }

    /** Note 1, engine space of 50 °C: second-hand, but 0.85 for 105 °C stands in two places. Between, straight lines. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, textBlock = """
        RATING_C, AIR_C, FACTOR
        60,       50,    0.58
        75,       50,    0.75
        80,       50,    0.78
        90,       50,    0.82
        105,      50,    0.85
        125,      50,    0.89
        200,      50,    1.00
        105,      40,    0.925
        105,      30,    1.00
        105,      20,    1.00
        150,      50,    0.92667
        105,      77.5,  0.425
        105,      105,   0
        105,      120,   0
        """)
    void air_atAndBetweenAndBeyondTheTable_leavesTheShare(double ratingC, double airC, double factor) {
        assertEquals(factor, Ampacity.airFactor(ratingC, airC), 1e-5);
    }

    /** Published examples of a public transcription of the regulation, 50 V and more or one conductor alone. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, textBlock = """
        GAUGE, RATING_C, AIR_C, BUNDLED, AMPERE
        12,    105,      30,    1,        45
        12,    105,      50,    1,        38.25
        12,     60,      50,    1,        14.5
        -3,    200,      30,    1,       510
        12,    105,      30,    5,        27
        6,      90,      50,    30,       32.8
        0,     105,      50,    2,       242.25
        -1,    105,      50,    1,       280.5
        -1,    125,      50,    4,       189.57
        4,      90,      50,    3,        77.49
        """)
    void publishedExample_isReproduced(int gauge, double ratingC, double airC, double bundled, double ampere) {
        assertEquals(ampere, ampacityA(gauge, ratingC, airC, bundled), 1e-9);
    }

    @Test
    void sizeBetweenTwoRows_isOnTheStraightLine_andNothingIsProlonged() {
        double middleMm2 = (Conductor.awgMm2(4) + Conductor.awgMm2(3)) / 2;
        assertEquals(170, Ampacity.ampacityA(middleMm2, 105, 30, 1), 1e-9);
        assertEquals(445, Ampacity.ampacityA(240, 105, 30, 1), 1e-9, "more copper than 4/0 counts as 4/0");
        assertEquals(10, Ampacity.ampacityA(Conductor.awgMm2(18) / 2, 105, 30, 1), 1e-9, "half of 18 AWG");
        assertEquals(510, ampacityA(-3, 250, 30, 1), 1e-9, "above 200 °C counts as 200 °C");
        assertEquals((475 * 2 + 510) / 3.0, ampacityA(-3, 150, 30, 1), 1e-9, "a third of the way from 125 to 200 °C");
        assertTrue(Double.isNaN(Ampacity.ampacityA(Double.NaN, 105, 30, 1)), "an unknown size has no ampacity");
    }

    /** More copper, better insulation, cooler air, fewer neighbours: never less current. */
    @Test
    void ampacity_overTheWholeRangeOfTheKeys_neverFallsTheWrongWay() {
        for (double mm2 = 0.5; mm2 < 130; mm2 *= 1.13) {
            for (double ratingC = 60; ratingC <= 250; ratingC += 7) {
                for (double airC = 0; airC <= 150; airC += 9) {
                    double ampere = Ampacity.ampacityA(mm2, ratingC, airC, 2);
                    String where = mm2 + " mm², " + ratingC + " °C in " + airC + " °C";
                    assertTrue(ampere >= 0 && ampere <= Ampacity.ampacityA(mm2 * 1.13, ratingC, airC, 2), where);
                    assertTrue(ampere <= Ampacity.ampacityA(mm2, ratingC + 7, airC, 2) + 1e-9, where);
                    assertTrue(ampere >= Ampacity.ampacityA(mm2, ratingC, airC + 9, 2), where);
                    assertTrue(ampere >= Ampacity.ampacityA(mm2, ratingC, airC, 3), where);
                }
            }
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"1, 1", "2, 1", "2.5, 0.7", "3, 0.7", "4, 0.6", "6, 0.6", "7, 0.5", "24, 0.5", "25, 0.4", "60, 0.4"})
    void bundle_factor(double bundled, double factor) {
        assertEquals(factor, Ampacity.bundleFactor(bundled));
    }
}
