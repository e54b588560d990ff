package sprag.bench.scenario;

import java.util.List;
import sprag.bench.scenario.ExpectationVerdict.Outcome;

/**
 * The result of a run.
 *
 * @param judged every expectation with its verdict, in the file's order
 * @param missed the steps that were never done
 * @param endMs the time of the last tick
 * @param interrupted whether it was stopped from outside before its end
 */
public record RunResult(
        Scenario scenario,
        String vehicle,
        List<Judged> judged,
        List<ScenarioStep> missed,
        long endMs,
        boolean interrupted) {
    /** An expectation with its verdict. */
    public record Judged(Expectation expectation, ExpectationVerdict verdict) {}

    /** How many expectations came out in a certain way. */
    public long count(Outcome outcome) {
        return judged.stream().filter(j -> j.verdict().outcome() == outcome).count();
    }

    /** Whether all was done and all was as expected. */
    public boolean passed() {
        return count(Outcome.PASS) == judged.size() && missed.isEmpty() && !interrupted;
    }
}
