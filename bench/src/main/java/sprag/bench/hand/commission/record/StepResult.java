package sprag.bench.hand.commission.record;

import java.util.List;

/**
 * The verdict on a step, and what it rests on.
 *
 * @param verdict passed, failed, skipped, not done
 * @param seen what was seen, or why it was left out
 */
public record StepResult(StepVerdict verdict, String seen, List<Measure> measures) {
    public StepResult {
        measures = List.copyOf(measures);
    }

    /** Without measures. */
    public static StepResult of(StepVerdict verdict, String seen) {
        return new StepResult(verdict, seen, List.of());
    }

    public static StepResult passed(String seen) {
        return of(StepVerdict.PASSED, seen);
    }

    public static StepResult failed(String seen) {
        return of(StepVerdict.FAILED, seen);
    }

    /** Passed when every measure is within its limits; else failed, naming the first that is not. */
    public static StepResult judged(String seen, List<Measure> measures) {
        for (Measure measure : measures) {
            if (!measure.isWithin()) {
                return new StepResult(StepVerdict.FAILED, "out of limits, " + measure.text() + "; " + seen, measures);
            }
        }
        return new StepResult(StepVerdict.PASSED, seen, measures);
    }
}
