package sprag.bench.scenario;

import sprag.bench.cli.Numbers;

/**
 * The result of an expectation.
 *
 * @param outcome pass, fail, or could not be judged
 * @param detail what was seen, in words
 * @param margin how far from the limit, positive inside; NaN when there is nothing to measure
 * @param unit what the margin is measured in
 * @param atS when it was decided or nearest to its limit, NaN for no moment
 */
public record ExpectationVerdict(Outcome outcome, String detail, double margin, String unit, double atS) {
    /** The three answers; only one of them is good. */
    public enum Outcome {
        /** What was expected was seen. */
        PASS,
        /** The contrary was seen. */
        FAIL,
        /** It could not be judged: what it waits for never came, or the run was too short. Never taken for a pass. */
        ERROR
    }

    static ExpectationVerdict error(String detail) {
        return new ExpectationVerdict(Outcome.ERROR, detail, Double.NaN, "", Double.NaN);
    }

    /** Whether all is well. */
    public boolean passed() {
        return outcome == Outcome.PASS;
    }

    /** The margin with its unit. For example {@code 1.9 V}, empty when there is nothing to measure. */
    public String marginText() {
        return Double.isNaN(margin) ? "" : Numbers.text(margin) + (unit.isEmpty() ? "" : " " + unit);
    }
}
