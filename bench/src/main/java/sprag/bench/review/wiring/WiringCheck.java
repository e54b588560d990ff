package sprag.bench.review.wiring;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.wiring.circuit.Bonds;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.bench.review.wiring.schedule.Schedule;

/** Reviews a wiring schedule by every rule. */
public final class WiringCheck {
    private WiringCheck() {}

    /**
     * What a person must know before the outputs are tried: that nothing takes the coils' supply away. Returns a
     * sentence; empty when a relay held by the heartbeat lies in that supply.
     */
    public static Optional<String> unguardedOutputs(Schedule schedule) {
        // This rule follows wires only; it asks nothing of the vehicle's limits.
        return ControlRules.unguarded(new Review(schedule, null)).stream()
                .map(Hit::sentence)
                .findFirst();
    }

    /** Applies every rule.
     *
     * @param limits what the vehicle asks of it
     * @return the findings, in the order of the rules
     */
    public static List<Finding> findings(Schedule schedule, RuleLimits limits) {
        Bonds bonds = new Bonds(schedule, limits);
        List<Finding> findings = new ArrayList<>();
        for (Rule rule : Rule.values()) {
            findings.addAll(rule.findings(bonds.clean(), bonds));
        }
        return findings;
    }
}
