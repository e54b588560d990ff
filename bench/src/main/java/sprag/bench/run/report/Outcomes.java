package sprag.bench.run.report;

import sprag.bench.scenario.Anchor;
import sprag.bench.scenario.ExpectationVerdict.Outcome;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.ScenarioStep;

/** Words about outcomes that the terminal, the page and the result files share. */
public final class Outcomes {
    private Outcomes() {}

    /**
     * The outcome of a whole run: the worst thing in it. Returns pass only when all was done and all was as expected.
     */
    public static Outcome of(RunResult run) {
        return run.passed() ? Outcome.PASS : run.count(Outcome.FAIL) > 0 ? Outcome.FAIL : Outcome.ERROR;
    }

    /** What is expected of a step that was not done. */
    public static String expected(ScenarioStep step) {
        return "the step \"" + step.name() + "\" is done";
    }

    /** Why a step was not done. */
    public static String missed(ScenarioStep step) {
        String waits = step.anchor() instanceof Anchor.Start
                ? "its time"
                : step.anchor().words();
        return "it was not done, or not as often as asked: it waits for " + waits;
    }
}
