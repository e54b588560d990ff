package sprag.bench.review.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.formula.Fuse;
import sprag.bench.review.formula.RoadSpeed;
import sprag.bench.review.formula.Supply;
import sprag.bench.review.formula.Thermistor;

class OtherFormulasTest {
    /** NEC 625.42 with 210.20(A) and 240.6(A), the pairs that a maker's code guide prints. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"24, 30, 30", "32, 40, 40", "40, 50, 50", "48, 60, 60", "33, 41.25, 45"})
    void continuousLoad_needsFiveQuarters(double loadA, double leastA, double standardA) {
        assertEquals(leastA, Supply.leastBreakerA(loadA), 1e-9);
        assertEquals(standardA, Supply.standardA(leastA));
    }

    @Test
    void standardRating_beyondTheTable_isRefusedWithTheValue() {
        Exception thrown = assertThrows(IllegalArgumentException.class, () -> Supply.standardA(401));
        assertTrue(thrown.getMessage().contains("401"), thrown.getMessage());
    }

    @Test
    void phaseCurrent_ofTwoChargers_isJustBelowTheInlet() {
        assertEquals(31.83, Supply.phaseA(6600, 0.92, 0.98, 230, 1), 0.005);
        assertEquals(31.83 / 3, Supply.phaseA(6600, 0.92, 0.98, 230, 3), 0.005);
    }

    @Test
    void fuse_betweenItsPoints_isOnStraightLines() {
        Fuse fuse = new Fuse(new double[] {200, 2000}, new double[] {10, 0.1});
        assertEquals(10, fuse.secondsAt(200), 1e-9);
        assertEquals(1, fuse.secondsAt(Math.sqrt(200.0 * 2000)), 1e-9);
        assertEquals(0.1, fuse.secondsAt(2000), 1e-9);
        assertEquals(0.025, fuse.secondsAt(4000), 1e-9, "constant I²t beyond the last point");
        assertTrue(fuse.secondsAt(100) > 10, "slower below the first point");
    }

    @Test
    void shortCircuit_isVoltageOverResistance() {
        assertEquals(4000, Fuse.shortCircuitA(400, 0.1), 1e-9);
    }

    /** The beta model's own values for 10 kohm, B 3435, and what a real part of that name has (kernel ntc table). */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({
        "-40, 248276, 190030, 0.31",
        "0, 28704.3, 27326, 0.06",
        "50, 4101.2, 4158, 0.02",
        "100, 987.0, 973, 0.02"
    })
    void thermistor_followsTheBetaModel(double temperatureC, double modelOhm, double realOhm, double apart) {
        Thermistor thermistor = new Thermistor(10_000, 3435, 10_000, 5);
        assertEquals(modelOhm, thermistor.ohm(temperatureC), 1e-4 * modelOhm);
        assertEquals(realOhm, thermistor.ohm(temperatureC), apart * realOhm, "a real part of this name");
    }

    @Test
    void divider_atTwentyFiveDegrees_isHalfTheSupplyAndResolvesItsSlope() {
        Thermistor thermistor = new Thermistor(10_000, 3435, 10_000, 5);
        assertEquals(2.5, thermistor.volts(25), 1e-9);
        double slope = 5 / 4.0 * 3435 / (298.15 * 298.15);
        assertEquals(
                5 / 4096.0 / slope, thermistor.stepK(25, 12), 1e-5, "V B / (4 T²) is the slope at half the supply");
    }

    @Test
    void motorSpeed_ofTheVanAtNinety() {
        assertEquals(6605, RoadSpeed.motorRpm(90, 0.30, 8.3), 0.5);
        assertEquals(31_416, RoadSpeed.powerW(100, 3000), 0.5);
    }
}
