package sprag.bench.review.formula;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PrechargeTest {
    private static final double NO_BLEED = Double.POSITIVE_INFINITY;

    /** Sensata precharge calculator: n = -ln(1 - q); 5 time constants are 99.326 %. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SHARE | TIME_CONSTANTS | BECAUSE
        0.80  | 1.6094         | the formula of a published calculator
        0.90  | 2.3026         | the same
        0.95  | 2.9957         | not 3: the rule of thumb is 95.021 %
        0.98  | 3.9120         | the same
        0.99  | 4.6052         | the same
        0.999 | 6.9078         | the same
        """)
    void idealTime_ofOneOhmAndOneFarad_isTheNumberOfTimeConstants(double share, double constants, String because) {
        assertEquals(constants, Precharge.idealSecondsToShare(1, 1, share), 5e-5, because);
    }

    /** A resistor maker's worked example (resistor-factory.com): 800 V, 47 ohm, 1 mF. */
    @Test
    void workedExampleOfAResistorMaker_isReproduced() {
        assertEquals(17.0, Precharge.peakA(800, 47), 0.05);
        assertEquals(320.0, Precharge.pulseJ(800, 1e-3), 0.05);
        assertEquals(
                0.1408, Precharge.idealSecondsToShare(47, 1e-3, 0.95), 5e-5, "printed 141.0 ms for 3 time constants");
        assertEquals(0.2164, Precharge.idealSecondsToShare(47, 1e-3, 0.99), 5e-5, "printed 216.4 ms");
        assertEquals(13_617, Precharge.peakA(800, 47) * 800, 0.5, "peak power");
    }

    /** TI TIDUF73, 2.2.1: 5 R C = 0.5 s with 50 ohm, so C is 2 mF. */
    @Test
    void referenceDesign_fiveTimeConstantsAreHalfASecond() {
        assertEquals(0.5, 5 * Precharge.idealSecondsToShare(50, 2e-3, 1 - Math.exp(-1)), 1e-9);
    }

    @Test
    void integrated_withoutBleedAndLoad_equalsTheFormula() {
        Precharge.Bus bus = new Precharge.Bus(100, 1e-3, NO_BLEED, 0, 0);
        for (double share : new double[] {0.8, 0.9, 0.95, 0.98}) {
            assertEquals(
                    Precharge.idealSecondsToShare(100, 1e-3, share),
                    Precharge.secondsToShare(400, bus, 0, share),
                    2.1e-4);
        }
    }

    /** A circuit simulator's result, not ours: see precharge.cir. */
    @Test
    void loadOfConstantPowerLeftOn_agreesWithACircuitSimulator() throws IOException {
        int compared = 0;
        for (String line : fixture()) {
            if (line.startsWith("#") || line.startsWith("load_w")) {
                continue;
            }
            String[] cell = line.split(",");
            Precharge.Bus bus = new Precharge.Bus(100, 1e-3, 20_000, Double.parseDouble(cell[0]), 100);
            double[] timeS = {0.05, 0.1, 0.3, 0.5};
            for (int i = 0; i < timeS.length; i++) {
                assertEquals(Double.parseDouble(cell[i + 1]), Precharge.busV(400, bus, timeS[i]), 0.1, line);
            }
            assertEquals(Double.parseDouble(cell[5]), 400 * Precharge.finalShare(400, bus), 0.1, line);
            assertEquals(Double.parseDouble(cell[6]), Precharge.secondsToShare(400, bus, 0, 0.9), 5e-4, line);
            compared++;
        }
        assertEquals(5, compared);
    }

    private static List<String> fixture() throws IOException {
        try (InputStream in = PrechargeTest.class.getResourceAsStream("precharge-ngspice.csv")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        LOAD_W | FROM_V | SHARE  | BECAUSE
        0      | 0      | 1.0    | nothing draws
        76     | 350    | 0.95   | exactly the most that may be left on at 95 %
        76.1   | 350    | 0.9499 | a little more
        400    | 210    | 0.5    | the most that a resistor can pass, V²/4R
        401    | 210    | 0.525  | more than can be passed: the bus hangs where the load starts
        120    | 20     | 0.05   | it starts below the voltage from which it lets the bus rise
        """)
    void finalShare_of400VAnd100Ohm(double loadW, double fromV, double share, String because) {
        Precharge.Bus bus = new Precharge.Bus(100, 1e-3, NO_BLEED, loadW, fromV);
        assertEquals(share, Precharge.finalShare(400, bus), 2e-4, because);
    }

    @Test
    void mostLeftOn_isWhereTheFinalShareIsTheThreshold() {
        assertEquals(76, Precharge.mostLeftOnW(400, 100, NO_BLEED, 0.95), 1e-9);
        double withBleedW = Precharge.mostLeftOnW(400, 100, 20_000, 0.95);
        assertEquals(0.95, Precharge.finalShare(400, new Precharge.Bus(100, 1e-3, 20_000, withBleedW, 350)), 1e-9);
        assertTrue(Precharge.mostLeftOnW(400, 100, 1000, 0.95) < 0, "such a bleed alone keeps the bus below 95 %");
    }

    /** t = R C ln(V / 60): the table in the project's list of check values, and the limit of 5 s in competition rules. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        FROM_V | CAPACITANCE_F | BLEED_OHM | SECONDS | BECAUSE
        400    | 0.001         | 1000      | 1.8971  | closed form
        400    | 0.001         | 2000      | 3.7942  | twice the resistor, twice the time
        800    | 0.001         | 1500      | 3.8854  | closed form
        144    | 5.711         | 1         | 5.0     | the largest R C for 5 s from 144 V
        60     | 1             | 1         | 0       | it is there already
        50     | 1             | 1         | 0       | below it
        """)
    void bleed_to60V(double fromV, double capacitanceF, double bleedOhm, double seconds, String because) {
        assertEquals(seconds, Precharge.bleedS(fromV, bleedOhm, capacitanceF, 60), 5e-4, because);
    }
}
