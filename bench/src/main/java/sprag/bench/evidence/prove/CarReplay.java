package sprag.bench.evidence.prove;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;

/** Plays a counterexample on the simulated car, so that its file can say what comes of it there. */
final class CarReplay {
    private CarReplay() {}

    /** Whether everything comes out as the file expects. */
    static boolean passes(String toml, Vehicle vehicle, Set<Interlock> without) {
        try {
            Scenario scenario = ScenarioReader.parse(Path.of("counterexample.toml"), toml, FrameColumns.VOCABULARY);
            ClosedLoop loop = new ClosedLoop(vehicle, scenario.seed(), without);
            return new ScenarioRun(scenario, loop)
                    .play(vehicle.name(), (step, timeMs) -> {}, List.of(), () -> false)
                    .passed();
        } catch (BadInput | IOException e) {
            throw new IllegalStateException("the program cannot read its own counterexample: " + e.getMessage(), e);
        }
    }
}
