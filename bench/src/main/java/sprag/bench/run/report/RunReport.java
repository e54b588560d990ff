package sprag.bench.run.report;

import sprag.bench.loop.trace.History;
import sprag.bench.scenario.RunResult;
import sprag.bench.vehicle.Vehicle;

/**
 * Everything that a report shows of one run.
 *
 * @param history the frames that were kept
 */
public record RunReport(Vehicle vehicle, RunResult result, Timeline timeline, History history) {
    /** The same without the frames, which take most of the memory. */
    public RunReport withoutHistory() {
        return new RunReport(vehicle, result, timeline, new History(history.channels()));
    }
}
