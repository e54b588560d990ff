package sprag.bench.commission;

import java.util.List;

/**
 * What came of a step, and what it rests on.
 *
 * @param verdict passed, failed, skipped, not done
 * @param seen what was seen, or why it was left out
 * @param measures what was measured
 */
record Outcome(Verdict verdict, String seen, List<Measure> measures) {
    Outcome {
        measures = List.copyOf(measures);
    }

    static Outcome passed(String seen, Measure... measures) {
        return judged(seen, List.of(measures));
    }

    /** Passed when every measure is within its limits; else failed, naming the first that is not. */
    static Outcome judged(String seen, List<Measure> measures) {
        for (Measure measure : measures) {
            if (!measure.isWithin()) {
                return new Outcome(Verdict.FAILED, "out of limits, " + measure.text() + "; " + seen, measures);
            }
        }
        return new Outcome(Verdict.PASSED, seen, measures);
    }

    static Outcome failed(String seen) {
        return new Outcome(Verdict.FAILED, seen, List.of());
    }
}
