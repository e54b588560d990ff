package sprag.bench.evidence.margin;

import java.io.IOException;
import java.util.EnumSet;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.IntConsumer;
import java.util.stream.IntStream;
import sprag.bench.cli.Cores;
import sprag.bench.loop.Rig;
import sprag.bench.loop.relay.Rigs;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;

/**
 * A scenario that cars of one drawing have played.
 *
 * @param drawn what came of the car as it is drawn
 * @param cars what came of each car; fewer than the fleet has when it was interrupted
 * @param spreads each expectation over all cars, in the file's order
 */
record Played(Scenario scenario, Fleet fleet, Verdicts drawn, List<Verdicts> cars, List<Spread> spreads) {
    /** Plays it with all cars.
     *
     * @param done told how many cars are done
     */
    static Played of(Scenario scenario, Fleet fleet, IntConsumer done, BooleanSupplier stop) {
        List<Integer> all = CarShare.numbers(fleet.size(), 1, 1);
        return drawn(scenario, fleet, cars(scenario, fleet, all, done, stop));
    }

    /** Plays the car as it is drawn, and takes what came of the others. */
    static Played drawn(Scenario scenario, Fleet fleet, List<Verdicts> cars) {
        Verdicts drawn = play(scenario, fleet.vehicle(), scenario.seed());
        List<Spread> spreads = IntStream.range(0, scenario.expectations().size())
                .mapToObj(i -> Spread.of(
                        fleet,
                        scenario.expectations().get(i),
                        drawn.verdicts().get(i),
                        cars.stream().map(car -> car.verdicts().get(i)).toList()))
                .toList();
        return new Played(scenario, fleet, drawn, cars, spreads);
    }

    /** Plays some cars on every core.
     *
     * @param numbers which cars
     * @param done told how many cars are done
     * @return what came of them, in this order; fewer when it was interrupted
     */
    static List<Verdicts> cars(
            Scenario scenario, Fleet fleet, List<Integer> numbers, IntConsumer done, BooleanSupplier stop) {
        return Cores.each(
                numbers.size(),
                i -> {
                    int car = numbers.get(i);
                    return play(scenario, fleet.vehicle().withCar(fleet.rows(car)), fleet.seed(car));
                },
                done,
                stop);
    }

    /** Plays it with one car. */
    static Verdicts play(Scenario scenario, Vehicle car, long seed) {
        Rig rig = Rigs.of(car, scenario.about().bus(), seed, EnumSet.noneOf(Interlock.class));
        try {
            RunResult result =
                    new ScenarioRun(scenario, rig).play(car.name(), (step, timeMs) -> {}, List.of(), () -> false);
            return Verdicts.of(result);
        } catch (IOException e) {
            throw new IllegalStateException("nothing is written here, yet " + scenario.name() + " could not be", e);
        }
    }

    /** How many cars met every expectation. */
    Share share() {
        return new Share((int) cars.stream().filter(Verdicts::passed).count(), cars.size());
    }
}
