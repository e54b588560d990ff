package sprag.bench.review.formula;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ConductorTest {
    private static final double FOOT_M = 0.3048;

    /** Hyperphysics wire gauges: ohm per 1000 ft at 20 °C. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"-3, 0.0490", "0, 0.0983", "4, 0.2485", "10, 0.9989", "14, 2.525", "18, 6.385"})
    void resistance_ofAwg_isTheTable(int gauge, double ohmPer1000Ft) {
        double ours = Conductor.leastOhm(Conductor.awgMm2(gauge), 1000 * FOOT_M, 20);
        assertEquals(ohmPer1000Ft, ours, 0.003 * ohmPer1000Ft);
    }

    /** IEC 60228 maxima of classes 2 and 5 (two reprints that agree), ohm per km. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, textBlock = """
        MM2, CLASS_2, CLASS_5, CLASS_5_TINNED
        0.5,  36.0,   39.0,    40.1
        1.5,  12.1,   13.3,    13.7
        16,   1.15,   1.21,    1.24
        35,   0.524,  0.554,   0.565
        95,   0.193,  0.206,   0.210
        120,  0.153,  0.161,   0.164
        """)
    void greatestResistance_ofMetricSizes_isTheStandards(double mm2, double class2, double class5, double tinned) {
        assertEquals(class2, Conductor.greatestOhm(Conductor.Strands.CLASS_2, mm2, 1000, 20), 1e-9);
        assertEquals(class5, Conductor.greatestOhm(Conductor.Strands.CLASS_5, mm2, 1000, 20), 1e-9);
        assertEquals(tinned, Conductor.greatestOhm(Conductor.Strands.CLASS_5_TINNED, mm2, 1000, 20), 1e-9);
        assertTrue(Conductor.leastOhm(mm2, 1000, 20) < 0.96 * class2, "solid copper has less");
    }

    /** IEC 60228, class 2, 240 mm² (beyond the table that ships): its own maximum is 0.0754 ohm per km. */
    @Test
    void greatestResistance_beyondTheTable_hasTheNearestSurplus() {
        assertEquals(0.0754, Conductor.greatestOhm(Conductor.Strands.CLASS_2, 240, 1000, 20), 0.0015);
    }

    @Test
    void conductorTemperature_growsFromTheAirToTheInsulationsLimit() {
        assertEquals(50, Conductor.conductorC(0, 105, 50), 1e-9);
        assertEquals(105, Conductor.conductorC(1, 105, 50), 1e-9);
        assertEquals(105, Conductor.conductorC(2, 105, 50), 1e-9, "more than the ampacity is a finding of its own");
        double halfC = Conductor.conductorC(0.5, 105, 50);
        double copper = (1 + 0.00393 * (halfC - 20)) / (1 + 0.00393 * 85);
        assertEquals(0.25 * copper * 55, halfC - 50, 1e-9, "a quarter of the heat, less what cooler copper saves");
    }

    /** A published worked example (ohmicaudio.com): 100 A, 15 ft one way, 12 V; its resistances are rounded. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"4, 0.75, 0.7455", "2, 0.48, 0.4689", "0, 0.30, 0.2949"})
    void drop_overFifteenFeet(int gauge, double printedV, double exactV) {
        double ours = 100 * Conductor.leastOhm(Conductor.awgMm2(gauge), 2 * 15 * FOOT_M, 20);
        assertEquals(printedV, ours, 0.02);
        assertEquals(exactV, ours, 0.002);
    }

    @Test
    void resistance_followsTheTemperatureFactorOfIec60228() {
        double warm = Conductor.leastOhm(10, 1, 70) / Conductor.leastOhm(10, 1, 20);
        assertEquals(1 / 0.833, warm, 0.004, "kt at 70 °C is 0.833");
    }

    @Test
    void shortCircuit_of35Mm2At5000A_isStoodForASecond() {
        assertEquals(1.002, Conductor.shortCircuitS(35, 5000), 5e-4);
    }
}
