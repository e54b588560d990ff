package sprag.bench.run.report;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.page.JUnitXml;
import sprag.bench.page.JUnitXml.Case;
import sprag.bench.page.JUnitXml.Outcome;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.ScenarioStep;

/** Results for a build server: a suite is a scenario, and a case is an expectation. Times are simulated seconds. */
public final class RunXml {
    private RunXml() {}

    /** Writes results. */
    public static String of(List<RunResult> runs) {
        return JUnitXml.of("sprag run", runs.stream().map(RunXml::suite).toList());
    }

    private static JUnitXml.Suite suite(RunResult run) {
        String name = run.vehicle() + "." + run.scenario().name();
        List<Case> cases = new ArrayList<>();
        for (RunResult.Judged judged : run.judged()) {
            String margin = judged.verdict().marginText();
            String message = judged.verdict().detail() + (margin.isEmpty() ? "" : "; margin " + margin);
            Outcome outcome = switch (judged.verdict().outcome()) {
                case PASS -> Outcome.PASSED;
                case FAIL -> Outcome.FAILED;
                case ERROR -> Outcome.ERROR;
            };
            cases.add(new Case(name, judged.expectation().text(), outcome, message));
        }
        for (ScenarioStep step : run.missed()) {
            cases.add(new Case(name, Outcomes.expected(step), Outcome.ERROR, Outcomes.missed(step)));
        }
        if (run.interrupted()) {
            cases.add(new Case(name, "the run goes on to its end", Outcome.ERROR, "it was stopped before its end"));
        }
        return new JUnitXml.Suite(name, run.endMs() / 1000.0, cases);
    }
}
