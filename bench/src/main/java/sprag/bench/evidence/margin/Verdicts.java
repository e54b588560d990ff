package sprag.bench.evidence.margin;

import java.util.List;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.RunResult;

/**
 * What came of one car in one scenario.
 *
 * @param verdicts one for each expectation, in the file's order
 * @param passed whether all was done and all was as expected
 */
record Verdicts(List<ExpectationVerdict> verdicts, boolean passed) {
    static Verdicts of(RunResult result) {
        return new Verdicts(
                result.judged().stream().map(RunResult.Judged::verdict).toList(), result.passed());
    }
}
