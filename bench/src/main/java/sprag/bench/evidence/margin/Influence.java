package sprag.bench.evidence.margin;

import java.util.Arrays;
import java.util.Comparator;
import org.hipparchus.stat.correlation.SpearmansCorrelation;
import org.hipparchus.stat.descriptive.moment.Variance;

/**
 * What one factor does to a value.
 *
 * @param rank rank correlation (Spearman): from -1, the value falls where the factor grows, to 1
 * @param index first-order Sobol index: the share of the value's variance that would be gone if the factor were fixed, others
 *     left as they are; 0 when the value never changes
 */
record Influence(double rank, double index) {
    private static final double CARS_OF_A_GROUP_PER_GROUP = 2.25;

    /**
     * Works it out from cars that were played already. They are put in groups by the factor, and the variance between the groups
     * is compared with all of it (correlation ratio, with the correction of Kelley 1935 for groups that differ by chance).
     * Neighbours alone would not do: in a low-discrepancy sequence they are related in other factors, too.
     */
    static Influence of(double[] factor, double[] value) {
        int groups = (int) Math.sqrt(value.length / CARS_OF_A_GROUP_PER_GROUP);
        double all = new Variance(false).evaluate(value) * value.length;
        if (!(all > 0) || groups < 2) {
            return new Influence(0, 0);
        }
        Integer[] order = new Integer[value.length];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, Comparator.comparingDouble(i -> factor[i]));
        double within = 0;
        for (int group = 0; group < groups; group++) {
            int from = group * order.length / groups;
            int to = (group + 1) * order.length / groups;
            double[] members =
                    Arrays.stream(order, from, to).mapToDouble(i -> value[i]).toArray();
            within += new Variance(false).evaluate(members) * members.length;
        }
        double byChance = within / (value.length - groups) * (value.length - 1);
        return new Influence(
                new SpearmansCorrelation().correlation(factor, value), Math.max(0, Math.min(1, 1 - byChance / all)));
    }
}
