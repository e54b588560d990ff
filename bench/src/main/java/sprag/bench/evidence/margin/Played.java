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
 */
record Played(Scenario scenario, Fleet fleet, Verdicts drawn, List<Verdicts> cars) {
    /** Plays it on every core.
     *
     * @param done told how many cars are done
     */
    static Played of(Scenario scenario, Fleet fleet, IntConsumer done, BooleanSupplier stop) {
        Verdicts drawn = play(scenario, fleet.vehicle(), scenario.seed());
        List<Verdicts> cars = Cores.each(
                fleet.size(),
                car -> play(scenario, fleet.vehicle().withCar(fleet.rows(car)), fleet.seed(car)),
                done,
                stop);
        return new Played(scenario, fleet, drawn, cars);
    }

    private static Verdicts play(Scenario scenario, Vehicle car, long seed) {
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

    /** Each expectation over all cars, in the file's order. */
    List<Spread> spreads() {
        return IntStream.range(0, scenario.expectations().size())
                .mapToObj(i -> Spread.of(this, i))
                .toList();
    }
}
