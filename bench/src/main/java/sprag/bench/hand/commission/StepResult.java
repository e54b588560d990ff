package sprag.bench.hand.commission;

import java.util.List;

/**
 * What came of a step, and what it rests on.
 *
 * @param verdict passed, failed, skipped, not done
 * @param seen what was seen, or why it was left out
 * @param measures what was measured
 */
record StepResult(StepVerdict verdict, String seen, List<Measure> measures) {
    StepResult {
        measures = List.copyOf(measures);
    }

    static StepResult passed(String seen, Measure... measures) {
        return judged(seen, List.of(measures));
    }

    /** Passed when every measure is within its limits; else failed, naming the first that is not. */
    static StepResult judged(String seen, List<Measure> measures) {
        for (Measure measure : measures) {
            if (!measure.isWithin()) {
                return new StepResult(StepVerdict.FAILED, "out of limits, " + measure.text() + "; " + seen, measures);
            }
        }
        return new StepResult(StepVerdict.PASSED, seen, measures);
    }

    static StepResult failed(String seen) {
        return new StepResult(StepVerdict.FAILED, seen, List.of());
    }
}
