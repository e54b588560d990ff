package sprag.bench.evidence.margin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
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

    /** Where each point stands, for each factor. */
    private static double[][] byFactor(double[][] points) {
        return IntStream.range(0, points[0].length)
                .mapToObj(d -> Arrays.stream(points).mapToDouble(p -> p[d]).toArray())
                .toArray(double[][]::new);
    }

    private static double[] indices(double[][] points, ToDoubleFunction<double[]> function) {
        double[] value = Arrays.stream(points).mapToDouble(function).toArray();
        return Arrays.stream(Influence.of(byFactor(points), value))
                .mapToDouble(Influence::index)
                .toArray();
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
        assertEquals(index, indices(Fleet.places(3, 8192, 3), known)[factor], 0.02);
    }

    /** Pairs of factors are related in the points of the sequence; every factor is tried as the one that matters. */
    @ParameterizedTest
    @CsvSource({"500, rising", "600, apart", "1000, wave", "1000, edge"})
    void indices_ofFactorsThatDoNothing_areNothing(int cars, String shape) {
        DoubleUnaryOperator one = switch (shape) {
            case "rising" -> Math::exp;
            case "apart" -> u -> Math.abs(u - 0.5);
            case "wave" -> u -> Math.sin(2 * Math.PI * u);
            default -> u -> Math.abs(u - 0.5) > 0.4 ? 1 : 0;
        };
        double[][] points = Fleet.places(1, cars, Factor.COUNT);
        for (Factor factor : Factor.values()) {
            double[] index = indices(points, p -> one.applyAsDouble(p[factor.ordinal()]));
            assertTrue(index[factor.ordinal()] > 0.9, factor + " explains all: " + index[factor.ordinal()]);
            index[factor.ordinal()] = 0;
            double most = Arrays.stream(index).max().orElseThrow();
            assertTrue(most < 0.1, "beside " + factor + " one explains " + most);
        }
    }

    @Test
    void indices_ofSeveralFactors_areTheirSharesOfTheVariance() {
        double[][] points = Fleet.places(2, 1000, Factor.COUNT);
        double[] index = indices(points, p -> 3 * p[4] + 2 * Math.abs(4 * p[12] - 2) + p[13] + Math.sqrt(12) * p[25]);
        // variances of uniform numbers: 9/12, 4/3, 1/12 and 1
        double all = 9 / 12.0 + 4 / 3.0 + 1 / 12.0 + 1;
        assertEquals(9 / 12.0 / all, index[4], 0.05);
        assertEquals(4 / 3.0 / all, index[12], 0.05);
        assertEquals(1 / all, index[25], 0.05);
        assertEquals(1 / 12.0 / all, index[13], 0.05);
    }

    @Test
    void rank_ofARisingValue_isOne_andOfAFallingOneMinusOne() {
        double[] factor = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95};
        double[] rising = Arrays.stream(factor).map(Math::exp).toArray();
        double[] falling = Arrays.stream(factor).map(u -> -u).toArray();
        double[][] alone = {factor};
        assertEquals(1, Influence.of(alone, rising)[0].rank(), 1e-12);
        assertEquals(-1, Influence.of(alone, falling)[0].rank(), 1e-12);
        assertEquals(new Influence(0, 0), Influence.of(alone, new double[10])[0], "a value that never changes");
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
