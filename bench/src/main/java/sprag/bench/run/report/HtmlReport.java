package sprag.bench.run.report;

import java.util.List;
import java.util.Locale;
import sprag.bench.page.Cautions;
import sprag.bench.page.Html;
import sprag.bench.page.Page;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioStep;

/** One run as a page that stands alone: no other file, no network. */
public final class HtmlReport {
    private static final int WIDE_PX = 920;
    private static final int NARROW_PX = 360;

    private final RunReport run;
    private final RunTime time;
    private final StringBuilder page = new StringBuilder(1 << 18);

    private HtmlReport(RunReport run) {
        this.run = run;
        this.time = RunTime.of(run.result().endMs());
    }

    /** Writes the page.
     *
     * @param run what is told
     * @return HTML
     */
    public static String of(RunReport run) {
        HtmlReport report = new HtmlReport(run);
        report.head();
        report.expectations();
        report.story();
        report.interlocks();
        report.plots();
        report.foot();
        return report.page.toString();
    }

    private void head() {
        Scenario scenario = run.result().scenario();
        add(
                """
                <!doctype html>
                <html lang="en">
                <head>
                <meta charset="utf-8">
                <meta name="viewport" content="width=device-width, initial-scale=1">
                <title>%s: %s</title>
                <style>
                %s</style>
                </head>
                <body>
                <header>
                <p class="over">%s, on the simulated %s</p>
                <h1>%s</h1>
                %s
                <p>%s</p>
                </header>
                """,
                scenario.name(),
                run.vehicle().name(),
                raw(Page.style()),
                scenario.name(),
                run.vehicle().name(),
                scenario.about().title(),
                raw(outcome()),
                scenario.about().why().strip());
        add("<aside><h2>Before anything here is tried on a car</h2>\n<p>%s</p>\n<ul>\n", Cautions.STANDING);
        Cautions.RULES.forEach(rule -> add("<li>%s</li>\n", rule));
        add("</ul></aside>\n");
    }

    private String outcome() {
        RunResult result = run.result();
        long failed = result.count(ExpectationVerdict.Outcome.FAIL);
        long unjudged =
                result.count(ExpectationVerdict.Outcome.ERROR) + result.missed().size();
        String kind = result.passed() ? "pass" : "fail";
        String words = result.passed()
                ? "All " + result.judged().size() + " expectations are met"
                : failed + " of "
                        + result.judged().size() + " expectations failed"
                        + (unjudged > 0 ? ", " + unjudged + " could not be judged" : "");
        String cut = result.interrupted() ? " The run was stopped before its end." : "";
        return "<p class=\"badge " + kind + "\">" + words + "." + cut + "</p>";
    }

    private void expectations() {
        add(
                "<section>\n<h2>What was expected</h2>\n<table class=\"stack\">\n<thead><tr><th>Outcome</th><th>Expected</th>"
                        + "<th>Seen</th><th>Margin</th></tr></thead>\n<tbody>\n");
        for (RunResult.Judged judged : run.result().judged()) {
            ExpectationVerdict verdict = judged.verdict();
            String kind = verdict.outcome().name().toLowerCase(Locale.ROOT);
            add(
                    "<tr><td class=\"%s\">%s</td><td>%s</td><td data-label=\"seen\">%s</td><td data-label=\"margin\" class=\"num\">%s</td></tr>\n",
                    kind, kind, judged.expectation().text(), verdict.detail(), verdict.marginText());
        }
        for (ScenarioStep step : run.result().missed()) {
            add(
                    "<tr><td class=\"error\">error</td><td>%s</td><td>%s</td><td></td></tr>\n",
                    "the step \"" + step.name() + "\" is done", Outcomes.missed(step));
        }
        add("</tbody></table>\n</section>\n");
    }

    /** What happened, each cause with what followed from it. */
    private void story() {
        add("<section>\n<h2>What happened</h2>\n<ol class=\"story\">\n");
        boolean open = false;
        long causeMs = 0;
        for (Entry entry : run.timeline().entries()) {
            boolean cause = entry.kind() == Entry.Kind.DONE || !open;
            if (cause) {
                add(open ? "</ul></li>\n" : "");
                causeMs = entry.timeMs();
                open = true;
                add("<li><time>%s</time> <strong>%s</strong>\n<ul>\n", time.told(causeMs), capital(entry.full()));
            } else {
                String kind = entry.kind().name().toLowerCase(Locale.ROOT);
                String later = RunTime.later(entry.timeMs() - causeMs);
                add("<li class=\"%s\"><span class=\"later\">%s</span> %s</li>\n", kind, later, entry.full());
            }
        }
        add(open ? "</ul></li>\n" : "");
        add("</ol>\n");
        if (run.timeline().left() > 0) {
            add(
                    "<p>%s further lines are left out; trace.csv has them all.</p>\n",
                    String.valueOf(run.timeline().left()));
        }
        add(
                "<p>The run ended at %s in the state %s.</p>\n</section>\n",
                time.told(run.result().endMs()), lastState());
    }

    private String lastState() {
        int last = run.history().state(run.history().size() - 1);
        return run.history().channels().states().get(last);
    }

    private void interlocks() {
        List<Timeline.Acted> acted =
                run.timeline().acted().stream().filter(a -> !a.rule().quiet()).toList();
        add("<section>\n<h2>Interlocks that acted</h2>\n");
        if (acted.isEmpty()) {
            add("<p>None.</p>\n</section>\n");
            return;
        }
        add(
                "<table class=\"stack\">\n<thead><tr><th>Interlock</th><th>From</th><th>To</th><th>Cause and response</th></tr>"
                        + "</thead>\n<tbody>\n");
        for (Timeline.Acted each : acted.subList(0, Math.min(200, acted.size()))) {
            String to = each.lasting() ? "the end" : time.told(each.toMs());
            add(
                    "<tr><td><code>%s</code></td><td data-label=\"from\" class=\"num\">%s</td><td data-label=\"to\" class=\"num\">%s</td>",
                    each.rule().name(), time.told(each.fromMs()), to);
            add(
                    "<td>%s. It %s: %s.</td></tr>\n",
                    capital(each.rule().cause()),
                    each.rule().response(),
                    each.rule().why());
        }
        add("</tbody></table>\n</section>\n");
    }

    private void plots() {
        add(
                "<section>\n<h2>How it went</h2>\n<h3>State and contactors</h3>\n<p class=\"legend\"><span><i class=\"asked\"></i>"
                        + "asked for</span><span><i class=\"closed\"></i>truly closed</span></p>\n");
        Lanes lanes = new Lanes(run.history());
        both(lanes.svg(WIDE_PX), lanes.svg(NARROW_PX));
        Plots plots = new Plots(run.history());
        for (PlotSpec spec : PlotSpec.all(run.history(), run.vehicle())) {
            add("<h3>%s</h3>\n<p class=\"legend\">", spec.title());
            for (PlotSpec.Series series : spec.series()) {
                String unit = series.right() ? " (" + spec.rightUnit() + ", right)" : "";
                add(
                        "<span title=\"%s\"><i style=\"background:var(--s%s)\"></i>%s</span>",
                        PlotSpec.meaning(run.history(), series),
                        String.valueOf(series.colour()),
                        series.label() + unit);
            }
            add("</p>\n");
            both(plots.svg(spec, WIDE_PX), plots.svg(spec, NARROW_PX));
        }
        add("</section>\n");
    }

    private void both(String wide, String narrow) {
        add("<div class=\"wide\">%s</div>\n<div class=\"narrow\">%s</div>\n", raw(wide), raw(narrow));
    }

    private void foot() {
        Scenario scenario = run.result().scenario();
        add(
                "<section>\n<h2>The files beside this page</h2>\n<ul>\n<li><code>trace.csv</code>: every kept tick, for a spreadsheet"
                        + "</li>\n<li><code>trace.vcd</code>: the same for a wave viewer (IEEE 1364)</li>\n</ul>\n");
        add(
                "<p>The same seed (%s) on the same vehicle gives the same run, bit for bit.",
                String.valueOf(scenario.seed()));
        add(
                scenario.about().hazards().isEmpty() ? "</p>\n" : " The scenario is about the hazards %s.</p>\n",
                String.join(", ", scenario.about().hazards()));
        add("</section>\n<footer><p>%s</p></footer>\n</body>\n</html>\n", Cautions.STANDING);
    }

    private static String capital(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    /** HTML that is put into the page as it stands. */
    private record Raw(String html) {}

    private static Raw raw(String html) {
        return new Raw(html);
    }

    /** Adds a piece of the page; every text put into it is escaped. */
    private void add(String pattern, Object... values) {
        Object[] safe = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            safe[i] = values[i] instanceof Raw raw ? raw.html() : Html.escape(String.valueOf(values[i]));
        }
        page.append(values.length == 0 ? pattern : String.format(Locale.ROOT, pattern, safe));
    }
}
