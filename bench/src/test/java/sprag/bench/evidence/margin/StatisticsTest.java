package sprag.bench.evidence.margin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Intervals and indices against published values. */
class StatisticsTest {
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        # count | of  | certainty | low               | high               | source
        20      | 100 | 0.95      | 0.1266555521      | 0.2918426891       | R 3.6.2, as the tests of scipy 1.17.1 quote it
        3       | 50  | 0.99      | 0.006872485       | 0.202706269        | the same
        0       | 10  | 0.95      | 0                 | 0.3084971          | the same
        10      | 10  | 0.95      | 0.6915029         | 1                  | the same
        7       | 50  | 0.95      | 0.05819170        | 0.26739600         | documentation of scipy
        """)
    void interval_ofClopperAndPearson_isThePublishedOne(
            int count, int of, double certainty, double low, double high, String source) {
        assertEquals(low, Share.low(count, of, certainty), 1e-7, source);
        assertEquals(high, Share.high(count, of, certainty), 1e-7, source);
    }

    @Test
    void percent_ofNearlyAll_isNotAll() {
        assertEquals("99.99", Share.percent(0.999999));
        assertEquals("0.01", Share.percent(0.0000001));
        assertEquals("100", Share.percent(1));
        assertEquals("0", Share.percent(0));
        assertEquals("99.7", Share.percent(0.997));
    }

    private static double index(ToDoubleFunction<double[]> function, int dimensions, int of) {
        double[][] places = Fleet.places(3, 8192, dimensions);
        double[] value = Arrays.stream(places).mapToDouble(function).toArray();
        double[] factor = Arrays.stream(places).mapToDouble(p -> p[of]).toArray();
        return Influence.of(factor, value).index();
    }

    private static double ishigami(double[] p) {
        double[] x = Arrays.stream(p).map(u -> Math.PI * (2 * u - 1)).toArray();
        return Math.sin(x[0]) + 7 * Math.pow(Math.sin(x[1]), 2) + 0.1 * Math.pow(x[2], 4) * Math.sin(x[0]);
    }

    private static double g(double[] p, double... a) {
        double product = 1;
        for (int i = 0; i < a.length; i++) {
            product *= (Math.abs(4 * p[i] - 2) + a[i]) / (1 + a[i]);
        }
        return product;
    }

    /** First-order indices of the function of Ishigami (7 and 0.1) and of Sobol's g, computed from their formulas. */
    @ParameterizedTest
    @CsvSource({
        "ishigami, 0, 0.313905",
        "ishigami, 1, 0.442411",
        "ishigami, 2, 0",
        "g, 0, 0.567426",
        "g, 1, 0.252189",
        "g, 2, 0.141856"
    })
    void index_ofAKnownFunction_isThePublishedOne(String function, int factor, double index) {
        ToDoubleFunction<double[]> known = function.equals("g") ? p -> g(p, 1, 2, 3) : StatisticsTest::ishigami;
        assertEquals(index, index(known, 3, factor), 0.02);
    }

    @Test
    void indices_ofFactorsThatDoNothing_areNothing() {
        for (int factor = 1; factor < Factor.COUNT; factor++) {
            double[][] places = Fleet.places(1, 1000, Factor.COUNT);
            double[] value =
                    Arrays.stream(places).mapToDouble(p -> Math.exp(p[0])).toArray();
            int each = factor;
            double[] idle = Arrays.stream(places).mapToDouble(p -> p[each]).toArray();
            assertTrue(Influence.of(idle, value).index() < 0.1, Factor.values()[factor] + " explains nothing");
        }
    }

    @Test
    void rank_ofARisingValue_isOne_andOfAFallingOneMinusOne() {
        double[] factor = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95};
        double[] rising = Arrays.stream(factor).map(Math::exp).toArray();
        double[] falling = Arrays.stream(factor).map(u -> -u).toArray();
        assertEquals(1, Influence.of(factor, rising).rank(), 1e-12);
        assertEquals(-1, Influence.of(factor, falling).rank(), 1e-12);
        assertEquals(0, Influence.of(factor, new double[10]).index(), "a value that never changes");
    }

    @Test
    void places_ofAnotherSeed_areOthers_andAllLieInTheCube() {
        double[][] one = Fleet.places(1, 64, 5);
        assertTrue(Arrays.deepEquals(one, Fleet.places(1, 64, 5)));
        assertTrue(!Arrays.deepEquals(one, Fleet.places(2, 64, 5)));
        for (int d = 0; d < 5; d++) {
            int[] eighths = new int[8];
            for (double[] p : one) {
                eighths[(int) (p[d] * 8)]++;
            }
            assertTrue(Arrays.stream(eighths).allMatch(n -> n >= 7 && n <= 9), Arrays.toString(eighths));
        }
    }
}
