package sprag.bench.evidence.campaign;

import java.util.List;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.page.JUnitXml;
import sprag.bench.page.JUnitXml.Outcome;
import sprag.bench.vehicle.Vehicle;

/** A campaign for a build server: a case is a run, and it fails when the fault could hurt or was noticed too late. */
final class CampaignXml {
    private CampaignXml() {}

    static String of(Vehicle vehicle, List<FaultOutcome> outcomes) {
        List<JUnitXml.Case> cases = outcomes.stream().map(o -> one(vehicle, o)).toList();
        return JUnitXml.of(
                "sprag campaign", List.of(new JUnitXml.Suite("campaign." + vehicle.name(), Double.NaN, cases)));
    }

    private static JUnitXml.Case one(Vehicle vehicle, FaultOutcome o) {
        String group = o.vehicle() + "." + o.moment();
        if (!o.isFinding()) {
            Outcome outcome = o.verdict() == Verdict.DORMANT ? Outcome.SKIPPED : Outcome.PASSED;
            return new JUnitXml.Case(group, o.fault(), outcome, "");
        }
        String message = o.verdict() + ", noticed by " + (o.interlock().isEmpty() ? "nothing" : o.interlock())
                + ", margin " + Math.round(o.marginMs()) + " ms, " + CampaignPage.amount(vehicle, o);
        return new JUnitXml.Case(group, o.fault(), Outcome.FAILED, message);
    }
}
