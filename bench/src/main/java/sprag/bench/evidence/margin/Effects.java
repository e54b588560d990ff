package sprag.bench.evidence.margin;

import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Map;
import org.hipparchus.stat.descriptive.moment.Mean;

/**
 * Takes the effects of the factors on a value apart, from cars that were played already. The cars are put in groups by a factor, and
 * the variance between the groups is compared with all of it (correlation ratio, with the correction of Kelley 1935 for groups that
 * differ by chance).
 *
 * <p>In a low-discrepancy sequence some factors are related to others, pair by pair: with 1,000 cars in 34 dimensions a factor
 * that does nothing seems to explain up to 60 % of what another one does. So the strongest factor is taken first, and what it does
 * is taken away before the next is looked at (backfitting).
 */
final class Effects {
    private static final double CARS_OF_A_GROUP_PER_GROUP = 2.25;
    private static final int ROUNDS = 3;
    private static final int MOST = 8;

    private final int cars;
    private final int groups;
    private final int[][] group;
    private final double[] centred;
    private final double all;
    private final Map<Integer, double[]> taken = new HashMap<>();

    /**
     * Puts the cars in groups.
     *
     * @param places where each car stands, for each factor
     * @param value one for each car
     */
    Effects(double[][] places, double[] value) {
        cars = value.length;
        groups = (int) Math.sqrt(cars / CARS_OF_A_GROUP_PER_GROUP);
        group = groups < 2
                ? new int[places.length][]
                : Arrays.stream(places).map(this::grouped).toArray(int[][]::new);
        double mean = new Mean().evaluate(value);
        centred = Arrays.stream(value).map(v -> v - mean).toArray();
        all = squares(centred);
    }

    private int[] grouped(double[] place) {
        Integer[] order = new Integer[cars];
        Arrays.setAll(order, car -> car);
        Arrays.sort(order, Comparator.comparingDouble(car -> place[car]));
        int[] of = new int[cars];
        for (int each = 0; each < groups; each++) {
            for (int i = each * cars / groups; i < (each + 1) * cars / groups; i++) {
                of[order[i]] = each;
            }
        }
        return of;
    }

    /**
     * The first-order index of each factor.
     *
     * @param least a factor that explains less is not taken away from the others
     */
    double[] indices(double least) {
        double[] index = new double[group.length];
        if (groups < 2 || !(all > 0)) {
            return index;
        }
        for (int i = 0; i < MOST; i++) {
            Arrays.setAll(index, factor -> explained(factor, without(factor)));
            int strongest = strongestLeft(index);
            if (strongest < 0 || index[strongest] < least) {
                break;
            }
            taken.put(strongest, new double[cars]);
            for (int round = 0; round < ROUNDS; round++) {
                taken.replaceAll((factor, effect) -> effect(factor, without(factor)));
            }
        }
        Arrays.setAll(index, factor -> Math.max(0, Math.min(1, explained(factor, without(factor)))));
        return index;
    }

    private int strongestLeft(double[] index) {
        int strongest = -1;
        for (int factor = 0; factor < index.length; factor++) {
            if (!taken.containsKey(factor) && (strongest < 0 || index[factor] > index[strongest])) {
                strongest = factor;
            }
        }
        return strongest;
    }

    /** The value without what all the others explain that were taken. */
    private double[] without(int factor) {
        double[] rest = centred.clone();
        taken.forEach((other, effect) -> {
            if (other != factor) {
                Arrays.setAll(rest, car -> rest[car] - effect[car]);
            }
        });
        return rest;
    }

    /** The mean of each car's group. */
    private double[] effect(int factor, double[] of) {
        double[] sum = new double[groups];
        int[] members = new int[groups];
        for (int car = 0; car < cars; car++) {
            sum[group[factor][car]] += of[car];
            members[group[factor][car]]++;
        }
        double[] effect = new double[cars];
        Arrays.setAll(effect, car -> sum[group[factor][car]] / members[group[factor][car]]);
        return effect;
    }

    /** The share of the whole variance; below 0 when the groups differ less than by chance. */
    private double explained(int factor, double[] of) {
        double[] effect = effect(factor, of);
        double[] within = new double[cars];
        Arrays.setAll(within, car -> of[car] - effect[car]);
        return (squares(of) - squares(within) / (cars - groups) * (cars - 1)) / all;
    }

    private static double squares(double[] of) {
        double sum = 0;
        for (double each : of) {
            sum += each * each;
        }
        return sum;
    }
}
