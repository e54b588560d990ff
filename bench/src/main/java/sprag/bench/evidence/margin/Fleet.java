package sprag.bench.evidence.margin;

import java.util.Map;
import java.util.SplittableRandom;
import org.hipparchus.random.SobolSequenceGenerator;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/**
 * Cars that are built from one drawing. Their places within the tolerances are points of a Sobol sequence, which fills the
 * space of all tolerances more evenly than chance does. All points are moved by the same random way, and what leaves at
 * one side comes in at the other, so that another seed gives other cars (Cranley and Patterson 1976).
 */
final class Fleet {
    /** The most cars: the seed of each car's noise must be a whole number that a file can hold. */
    static final int MOST = 1_000_000;

    private final Vehicle vehicle;
    private final long seed;
    private final double[][] place;

    /** Makes cars.
     *
     * @param seed from 0 to 1e9
     * @param cars how many
     */
    Fleet(Vehicle vehicle, long seed, int cars) {
        this.vehicle = vehicle;
        this.seed = seed;
        place = places(seed, cars, Factor.COUNT);
    }

    /** Evenly spread points in the unit cube. */
    static double[][] places(long seed, int points, int dimensions) {
        SplittableRandom random = new SplittableRandom(seed);
        double[] shift = random.doubles(dimensions).toArray();
        SobolSequenceGenerator sequence = new SobolSequenceGenerator(dimensions);
        double[][] all = new double[points][];
        for (int i = 0; i < points; i++) {
            all[i] = sequence.nextVector();
            for (int d = 0; d < dimensions; d++) {
                double moved = all[i][d] + shift[d];
                all[i][d] = moved < 1 ? moved : moved - 1;
            }
        }
        return all;
    }

    int size() {
        return place.length;
    }

    /** The drawing. */
    Vehicle vehicle() {
        return vehicle;
    }

    /** Where a car stands within the tolerance of a factor, from 0 to 1. */
    double place(int car, Factor factor) {
        return place[car][factor.ordinal()];
    }

    /** What a car is made of where it differs from the drawing. */
    Map<CarParameter, Double> rows(int car) {
        return rows(vehicle, place[car]);
    }

    /** What a car is made of that stands at these places within the tolerances. */
    static Map<CarParameter, Double> rows(Vehicle vehicle, double[] places) {
        OneCar one = new OneCar(vehicle);
        for (Factor factor : Factor.values()) {
            factor.put(one, places[factor.ordinal()]);
        }
        return one.rows();
    }

    /** Where the noise of a car's sensors starts. */
    long seed(int car) {
        return seed * MOST + car;
    }
}
