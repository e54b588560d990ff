package sprag.bench.port.equal;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.port.translate.StateCell;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.TickListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Very many hostile ticks: what the first seconds of scenarios have shown, again and again with other signals torn away. No car answers,
 * so that most of the time goes into the comparison.
 */
final class Hostile {
    private static final int TICKS = 2048;
    private static final int SCENARIOS = 48;

    private final Vehicle vehicle;
    private final List<StateCell> cells;
    private final Comparison comparison;
    private final List<double[]> shown = new ArrayList<>();

    Hostile(Vehicle vehicle, List<StateCell> cells, Comparison comparison) {
        this.vehicle = vehicle;
        this.cells = cells;
        this.comparison = comparison;
    }

    /** Compares.
     *
     * @param scenarios whose readings are taken
     * @param ticks at least so many
     */
    void play(List<Scenario> scenarios, long ticks) throws IOException {
        for (int i = 0; i < Math.min(SCENARIOS, scenarios.size()); i++) {
            record(scenarios.get((int) ((long) i * scenarios.size() / Math.min(SCENARIOS, scenarios.size()))));
        }
        long done = 0;
        for (long seed = 1; done < ticks; seed++) {
            done += disturbed(shown.get((int) (seed % shown.size())), seed);
        }
    }

    private void record(Scenario scenario) throws IOException {
        ClosedLoop loop = ClosedLoop.on(scenario.on(vehicle), scenario.about().bus(), scenario.seed());
        double[] readings = new double[TICKS * Signal.COUNT];
        int[] count = {0};
        TickListener recorder = (tick, in, out) -> {
            if (count[0] < TICKS) {
                in.copyTo(readings, count[0] * Signal.COUNT);
                count[0]++;
            }
        };
        loop.loop().listen(recorder);
        new ScenarioRun(scenario, loop).play(vehicle.name(), (step, at) -> {}, List.of(), () -> count[0] == TICKS);
        shown.add(Arrays.copyOf(readings, count[0] * Signal.COUNT));
    }

    private int disturbed(double[] readings, long seed) {
        Supervisor supervisor = new Supervisor(vehicle.settings());
        BatchMaker maker = new BatchMaker("hostile readings of seed " + seed, supervisor, cells, comparison::must);
        Wild wild = new Wild(seed);
        Readings in = new Readings();
        Readings torn = new Readings();
        Commands out = new Commands();
        int ticks = readings.length / Signal.COUNT;
        for (int tick = 0; tick < ticks; tick++) {
            for (Signal signal : Signal.values()) {
                torn.set(signal, readings[tick * Signal.COUNT + signal.ordinal()]);
            }
            wild.disturb(torn);
            for (Signal signal : Signal.values()) {
                in.set(signal, torn.get(signal));
            }
            supervisor.step(tick, in, out);
            maker.ticked(tick, in, out);
        }
        maker.flush();
        return ticks;
    }
}
