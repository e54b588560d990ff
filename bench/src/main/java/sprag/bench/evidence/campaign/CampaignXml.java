package sprag.bench.evidence.campaign;

import java.util.List;
import sprag.bench.evidence.campaign.FaultOutcome.Verdict;
import sprag.bench.page.JUnitXml;
import sprag.bench.page.JUnitXml.Outcome;

/** A campaign for a build server: a case is a run, and it fails when the fault could hurt or was noticed too late. */
final class CampaignXml {
    private CampaignXml() {}

    static String of(String vehicle, List<FaultOutcome> outcomes) {
        List<JUnitXml.Case> cases = outcomes.stream().map(CampaignXml::one).toList();
        return JUnitXml.of("sprag campaign", List.of(new JUnitXml.Suite("campaign." + vehicle, Double.NaN, cases)));
    }

    private static JUnitXml.Case one(FaultOutcome o) {
        String group = o.vehicle() + "." + o.moment();
        if (!o.isFinding()) {
            Outcome outcome = o.verdict() == Verdict.DORMANT ? Outcome.SKIPPED : Outcome.PASSED;
            return new JUnitXml.Case(group, o.fault(), outcome, "");
        }
        String message = o.verdict() + ", noticed by " + (o.interlock().isEmpty() ? "nothing" : o.interlock())
                + ", margin " + Math.round(o.marginMs()) + " ms, harm: " + CampaignPage.harm(o);
        return new JUnitXml.Case(group, o.fault(), Outcome.FAILED, message);
    }
}
