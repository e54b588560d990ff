package sprag.bench.report;

import sprag.bench.scenario.Anchor;
import sprag.bench.scenario.Step;

/** Words about outcomes that the terminal, the page and the result files share. */
public final class Outcomes {
    private Outcomes() {}

    /** Why a step was not done.
     *
     * @param step the step
     * @return a clause
     */
    public static String missed(Step step) {
        String waits = step.anchor() instanceof Anchor.Start
                ? "its time"
                : step.anchor().words();
        return "it was not done, or not as often as asked: it waits for " + waits;
    }
}
