package sprag.bench.run.report;

import java.util.List;
import java.util.Map;
import sprag.bench.page.Page;
import sprag.bench.scenario.ExpectationVerdict.Outcome;
import sprag.bench.scenario.RunResult;

/** Writes a page that lists several runs with a link to each run's own page. */
public final class HtmlIndex {
    private record Row(Outcome outcome, String name, String title, String summary) {}

    private HtmlIndex() {}

    /** Writes the page.
     *
     * @param runs the results; each run's page stands in the folder with the scenario's name
     */
    public static String of(String vehicle, List<RunResult> runs) {
        List<Row> rows = runs.stream()
                .map(run -> new Row(
                        Outcomes.of(run),
                        run.scenario().name(),
                        run.scenario().about().title(),
                        Terminal80.summary(run)))
                .toList();
        long passed = runs.stream().filter(RunResult::passed).count();
        Map<String, Object> model =
                Map.of("rows", rows, "passed", passed, "all", runs.size(), "well", passed == runs.size());
        return Page.of(HtmlIndex.class, "index.html", "on the simulated " + vehicle, "Results of the scenarios", model);
    }
}
