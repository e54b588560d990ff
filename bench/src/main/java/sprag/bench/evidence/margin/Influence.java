package sprag.bench.evidence.margin;

import java.util.stream.IntStream;
import org.hipparchus.stat.correlation.PearsonsCorrelation;
import org.hipparchus.stat.ranking.NaturalRanking;

/**
 * What one factor does to a value.
 *
 * @param rank rank correlation (Spearman): from -1, the value falls where the factor grows, to 1
 * @param index first-order Sobol index: the share of the value's variance that would be gone if the factor were fixed, others
 *     left as they are; 0 when the value never changes
 */
record Influence(double rank, double index) {
    /** An influence below this is not told in words. */
    private static final double TOLD = 0.1;

    /**
     * What each factor does, in the order of the factors.
     *
     * @param places where each car stands, for each factor
     * @param value one for each car
     */
    static Influence[] of(double[][] places, double[] value) {
        double[] indices = new Effects(places, value).indices(least(value.length));
        double[] ranks = new NaturalRanking().rank(value);
        return IntStream.range(0, places.length)
                .mapToObj(factor -> new Influence(rank(places[factor], ranks), indices[factor]))
                .toArray(Influence[]::new);
    }

    /** What lies below may be chance with so many cars. */
    static double least(int cars) {
        return Math.max(TOLD, 3 / Math.sqrt(cars));
    }

    private static double rank(double[] place, double[] ranks) {
        double rank =
                ranks.length < 2 ? 0 : new PearsonsCorrelation().correlation(new NaturalRanking().rank(place), ranks);
        return Double.isNaN(rank) ? 0 : rank;
    }
}
