package sprag.bench.evidence.margin;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Random;
import java.util.function.IntFunction;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.cli.Cores;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/**
 * The first-order index of the program's own cars, found in another way: of two cars that have nothing but one factor in common, drawn by
 * chance, the covariance of their margins over the variance is that factor's index (Sobol 1993; the estimator of Janon et al. 2014, both
 * from memory). No sequence, no groups, nothing taken away.
 */
@Tag("long")
class PickFreezeTest {
    private static final int FLEET = 1_000;
    private static final int PAIRS = 400;
    private static final long FIRST_SEED = 1_000_003;
    /** Three times the error of so many pairs where the index is around 0, less where it is great. */
    private static final double TOLERANCE = 0.15;

    private static Vehicle vehicle;
    private static Scenario scenario;
    private static double[][] places;
    private static List<Spread> spreads;
    private static List<Verdicts> first;

    @BeforeAll
    static void play() throws Exception {
        Catalogue catalogue = Catalogue.installed();
        vehicle = VehicleReader.read(catalogue.vehicle("coupe"));
        scenario = new ScenarioFiles(catalogue, vehicle)
                .take(List.of("drive-and-stop"))
                .get(0);
        spreads = Played.of(scenario, new Fleet(vehicle, 1, FLEET), done -> {}, () -> false)
                .spreads();
        places = drawn(new Random(77));
        first = cars(car -> places[car], 0);
    }

    private static double[][] drawn(Random random) {
        double[][] all = new double[PAIRS][];
        for (int car = 0; car < PAIRS; car++) {
            all[car] = random.doubles(Factor.COUNT).toArray();
        }
        return all;
    }

    @ParameterizedTest(name = "{0} on expectation {1}: {2}")
    @CsvSource({
        "CAPACITANCE,        0, it carries most of the time until ready",
        "CAPACITANCE,        1, it acts together with others here",
        "PRECHARGE_RESISTOR, 0, it the resistor is of a tighter tolerance",
        "LOAD,               2, it alone decides how fast the car drives off",
        "BUS_VOLTAGE,        5, the reading says when the bus is down",
        "BRAKES,             0, nobody brakes before the car is ready"
    })
    void firstOrderIndex_agreesWithPairsThatShareOneFactor(Factor factor, int expectation, String because) {
        double[][] others = drawn(new Random(78 + factor.ordinal()));
        List<Verdicts> second = cars(
                car -> {
                    others[car][factor.ordinal()] = places[car][factor.ordinal()];
                    return others[car];
                },
                PAIRS);
        double told = spreads.get(expectation).influences().get(factor).index();
        assertEquals(index(first, second, expectation), told, TOLERANCE, because);
    }

    @Test
    void pairsWithNothingInCommon_haveNoIndex() {
        double[][] others = drawn(new Random(5));
        assertEquals(0, index(first, cars(car -> others[car], PAIRS), 0), TOLERANCE);
    }

    private static List<Verdicts> cars(IntFunction<double[]> places, int noise) {
        return Cores.each(
                PAIRS,
                car -> Played.play(
                        scenario, vehicle.withCar(Fleet.rows(vehicle, places.apply(car))), FIRST_SEED + noise + car),
                done -> {},
                () -> false);
    }

    private static double index(List<Verdicts> first, List<Verdicts> second, int expectation) {
        double[] a = margins(first, expectation);
        double[] b = margins(second, expectation);
        double mean = 0;
        for (int i = 0; i < PAIRS; i++) {
            mean += (a[i] + b[i]) / 2 / PAIRS;
        }
        double together = 0;
        double all = 0;
        for (int i = 0; i < PAIRS; i++) {
            together += (a[i] - mean) * (b[i] - mean);
            all += ((a[i] - mean) * (a[i] - mean) + (b[i] - mean) * (b[i] - mean)) / 2;
        }
        return together / all;
    }

    private static double[] margins(List<Verdicts> cars, int expectation) {
        return cars.stream()
                .mapToDouble(car -> car.verdicts().get(expectation).margin())
                .toArray();
    }
}
