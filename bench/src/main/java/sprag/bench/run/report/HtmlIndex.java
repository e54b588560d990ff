package sprag.bench.run.report;

import java.util.List;
import java.util.Locale;
import sprag.bench.page.Html;
import sprag.bench.page.Page;
import sprag.bench.scenario.RunResult;

/** A page that lists several runs and leads to each one's own. */
public final class HtmlIndex {
    private static final String ROW = """
            <tr><td class="%1$s">%1$s</td><td><a href="%2$s/report.html">%3$s</a><br><code>%2$s</code></td><td>%4$s</td></tr>
            """;

    private HtmlIndex() {}

    /** Writes the page.
     *
     * @param vehicle the vehicle's name
     * @param runs what came of them; each one's page stands in the folder of its scenario's name
     * @return HTML
     */
    public static String of(String vehicle, List<RunResult> runs) {
        long passed = runs.stream().filter(RunResult::passed).count();
        String kind = passed == runs.size() ? "pass" : "fail";
        Page page = new Page("on the simulated " + vehicle, "Scenarios and what came of them");
        page.raw("<p class=\"badge " + kind + "\">" + passed + " of " + runs.size() + " scenarios as expected.</p>\n");
        page.cautions();
        page.raw(
                "<table class=\"stack\">\n<thead><tr><th>Outcome</th><th>Scenario</th><th>Expectations</th></tr></thead>\n");
        runs.forEach(run -> page.raw(row(run)));
        return page.raw("</table>\n").end();
    }

    private static String row(RunResult run) {
        return String.format(
                Locale.ROOT,
                ROW,
                Outcomes.of(run).name().toLowerCase(Locale.ROOT),
                Html.escape(run.scenario().name()),
                Html.escape(run.scenario().about().title()),
                Html.escape(Terminal80.summary(run)));
    }
}
