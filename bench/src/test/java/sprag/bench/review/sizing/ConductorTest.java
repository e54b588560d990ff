package sprag.bench.review.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ConductorTest {
    private static final double FOOT_M = 0.3048;

    /** 33 CFR 183.425, table 5, column 105 °C (also ABYC E-11); "inside" is 50 °C, printed rounded to whole amperes. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, textBlock = """
        GAUGE, OUTSIDE_A, INSIDE_A
        18,  20,  17
        16,  25,  21
        14,  35,  30
        12,  45,  38
        10,  60,  51
        8,   80,  68
        6,  120, 102
        4,  160, 136
        3,  180, 153
        2,  210, 178
        1,  245, 208
        0,  285, 242
        -1, 330, 280
        -2, 385, 327
        -3, 445, 378
        """)
    void ampacity_of105DegreeInsulation_isTheTable(int gauge, double outsideA, double insideA) {
        double sizeMm2 = Conductor.awgMm2(gauge);
        assertEquals(outsideA, Conductor.ampacityA(sizeMm2, 105, 30, 1), 1e-6);
        assertEquals(
                insideA,
                Conductor.ampacityA(sizeMm2, 105, 50, 1),
                0.5 + 0.008 * insideA,
                "printed rounded; 0.85 there, 0.856 here");
    }

    /** The same table's other columns: the rise law is close, and on the safe side below 105 °C by at most a sixth. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"4, 75, 125", "4, 90, 135", "4, 125, 170", "-1, 75, 265", "-1, 90, 285", "-1, 125, 355"})
    void ampacity_ofOtherInsulation_isNearTheTable(int gauge, double insulationC, double tableA) {
        double ours = Conductor.ampacityA(Conductor.awgMm2(gauge), insulationC, 30, 1);
        assertEquals(tableA, ours, 0.13 * tableA);
    }

    @Test
    void ampacity_betweenTwoSizes_liesBetweenThem() {
        double lowA = Conductor.ampacityA(Conductor.awgMm2(4), 105, 30, 1);
        double highA = Conductor.ampacityA(Conductor.awgMm2(3), 105, 30, 1);
        double ours = Conductor.ampacityA(25, 105, 30, 1);
        assertTrue(lowA < ours && ours < highA, ours + " A is not between " + lowA + " and " + highA);
        assertEquals(0, Conductor.ampacityA(25, 105, 105, 1), "air as hot as the insulation may be");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"1, 1", "2, 1", "3, 0.7", "4, 0.6", "6, 0.6", "7, 0.5", "24, 0.5", "25, 0.4"})
    void bundle_factor(double bundled, double factor) {
        assertEquals(factor, Conductor.bundleFactor(bundled));
    }

    /** Hyperphysics wire gauges: ohm per 1000 ft at 20 °C. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"-3, 0.0490", "0, 0.0983", "4, 0.2485", "10, 0.9989", "14, 2.525", "18, 6.385"})
    void resistance_ofAwg_isTheTable(int gauge, double ohmPer1000Ft) {
        double ours = Conductor.resistanceOhm(Conductor.awgMm2(gauge), 1000 * FOOT_M, 20);
        assertEquals(ohmPer1000Ft, ours, 0.003 * ohmPer1000Ft);
    }

    /** IEC 60228 class 2 maxima allow 1 to 5 % above solid copper of the nominal size. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"1.5, 12.1", "16, 1.15", "35, 0.524", "95, 0.193", "240, 0.0754"})
    void resistance_ofMetricSizes_isBelowTheStandardsMaximum(double sizeMm2, double maxOhmPerKm) {
        double ours = Conductor.resistanceOhm(sizeMm2, 1000, 20);
        assertTrue(ours <= maxOhmPerKm && ours > 0.93 * maxOhmPerKm, ours + " against " + maxOhmPerKm);
    }

    /** A published worked example (ohmicaudio.com): 100 A, 15 ft one way, 12 V; its resistances are rounded. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"4, 0.75, 0.7455", "2, 0.48, 0.4689", "0, 0.30, 0.2949"})
    void drop_overFifteenFeet(int gauge, double printedV, double exactV) {
        double ours = Conductor.dropV(100, Conductor.awgMm2(gauge), 15 * FOOT_M, 20);
        assertEquals(printedV, ours, 0.02);
        assertEquals(exactV, ours, 0.002);
    }

    @Test
    void resistance_followsTheTemperatureFactorOfIec60228() {
        double warm = Conductor.resistanceOhm(10, 1, 70) / Conductor.resistanceOhm(10, 1, 20);
        assertEquals(1 / 0.833, warm, 0.004, "kt at 70 °C is 0.833");
    }

    @Test
    void shortCircuit_of35Mm2At5000A_isStoodForASecond() {
        assertEquals(1.002, Conductor.shortCircuitS(35, 5000), 5e-4);
    }
}
