package sprag.bench.port.equal;

import java.io.IOException;
import java.util.List;
import java.util.function.Consumer;
import sprag.bench.evidence.campaign.CampaignRuns;
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

/** Ticks to compare: scenarios and runs of the campaign as they are, and the same with disturbed readings. */
final class Material {
    private final Vehicle vehicle;
    private final List<StateCell> cells;
    private final Consumer<Batch> to;
    private final boolean single;

    /**
     * Material of one vehicle.
     *
     * @param vehicle which one
     * @param cells what a supervisor remembers
     * @param to who gets it
     */
    Material(Vehicle vehicle, List<StateCell> cells, Consumer<Batch> to) {
        this(vehicle, cells, to, false);
    }

    /** The same.
     *
     * @param single whether a disturbed reading is such as single precision can hold: otherwise rounding alone carries most of those
     *     that lie exactly at an end across it
     */
    Material(Vehicle vehicle, List<StateCell> cells, Consumer<Batch> to, boolean single) {
        this.vehicle = vehicle;
        this.cells = cells;
        this.to = to;
        this.single = single;
    }

    /** Plays a scenario.
     *
     * @param scenario which one
     * @param seed 0 for the readings as they are, another number to disturb them
     */
    void play(Scenario scenario, long seed) throws IOException {
        ClosedLoop loop = ClosedLoop.on(scenario.on(vehicle), scenario.about().bus(), scenario.seed());
        Runnable end = listen(scenario.name(), loop, seed);
        new ScenarioRun(scenario, loop).play(vehicle.name(), (step, at) -> {}, List.of(), () -> false);
        end.run();
    }

    /** Plays a run of the campaign.
     *
     * @param runs of the vehicle
     * @param index which one
     * @param seed 0 for the readings as they are, another number to disturb them
     */
    void play(CampaignRuns runs, int index, long seed) {
        runs.play(index, (name, loop) -> listen(name, loop, seed));
    }

    /** Listens to a loop that has not begun. What is returned is to be called after the last tick. */
    private Runnable listen(String played, ClosedLoop loop, long seed) {
        Supervisor supervisor = seed == 0 ? loop.supervisor() : new Supervisor(vehicle.settings());
        String name = played + (seed == 0 ? "" : " disturbed by seed " + seed);
        BatchMaker maker = new BatchMaker(name, supervisor, cells, to);
        loop.loop().listen(seed == 0 ? maker : disturbed(supervisor, maker, seed));
        return maker::flush;
    }

    private TickListener disturbed(Supervisor supervisor, BatchMaker maker, long seed) {
        Wild wild = new Wild(seed);
        Readings torn = new Readings();
        Readings in = new Readings();
        Commands out = new Commands();
        return (tick, seen, commands) -> {
            torn.copyFrom(seen);
            wild.disturb(torn);
            for (Signal signal : Signal.values()) {
                double reading = torn.get(signal);
                in.set(signal, single ? (float) reading : reading); // a copy would not keep the sign of a zero
            }
            supervisor.step(tick, in, out);
            maker.ticked(tick, in, out);
        };
    }
}
