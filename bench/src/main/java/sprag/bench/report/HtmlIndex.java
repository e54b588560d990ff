package sprag.bench.report;

import java.util.List;
import java.util.Locale;
import sprag.bench.scenario.RunResult;

/** A page that lists several runs and leads to each one's own. */
public final class HtmlIndex {
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
        StringBuilder page = new StringBuilder();
        String name = Html.escape(vehicle);
        page.append("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
        page.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        page.append("<title>Scenarios on ")
                .append(name)
                .append("</title>\n<style>\n")
                .append(Page.style());
        page.append("</style>\n</head>\n<body>\n<h1>Scenarios on the simulated ")
                .append(name)
                .append("</h1>\n");
        page.append("<p class=\"badge ")
                .append(kind)
                .append("\">")
                .append(passed)
                .append(" of ")
                .append(runs.size());
        page.append(" scenarios as expected.</p>\n<table class=\"stack\">\n");
        page.append("<thead><tr><th>Outcome</th><th>Scenario</th><th>Expectations</th></tr></thead>\n<tbody>\n");
        runs.forEach(run -> row(page, run));
        page.append("</tbody>\n</table>\n<footer><p>")
                .append(Html.escape(Cautions.STANDING))
                .append("</p></footer>\n");
        return page.append("</body>\n</html>\n").toString();
    }

    private static void row(StringBuilder page, RunResult run) {
        String outcome = Outcomes.of(run).name().toLowerCase(Locale.ROOT);
        String name = Html.escape(run.scenario().name());
        page.append("<tr><td class=\"")
                .append(outcome)
                .append("\">")
                .append(outcome)
                .append("</td>");
        page.append("<td><a href=\"").append(name).append("/report.html\">");
        page.append(Html.escape(run.scenario().about().title()))
                .append("</a><br><code>")
                .append(name);
        page.append("</code></td><td>")
                .append(Html.escape(Terminal80.summary(run)))
                .append("</td></tr>\n");
    }
}
