package sprag.bench.review.report;

import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;

/**
 * A finding, and whether somebody accepted it.
 *
 * @param acceptance the acceptance, null when there is none
 */
public record JudgedFinding(Finding finding, Acceptance acceptance) {
    /** Whether it is accepted. */
    public boolean isAccepted() {
        return acceptance != null;
    }

    /** Whether it stops the build of the vehicle. */
    public boolean stops() {
        return finding.weight() == Weight.STOP && !isAccepted();
    }
}
