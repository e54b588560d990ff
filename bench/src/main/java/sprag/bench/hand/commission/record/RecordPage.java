package sprag.bench.hand.commission.record;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.page.Html;
import sprag.bench.page.Page;

/** The record as one self-contained page, for the screen and for paper. */
public final class RecordPage {
    private static final String STYLE = """
            <style>
            .rehearsal { border: 3px dashed var(--bad); color: var(--bad); padding: .6rem 1rem; font-weight: 700;
              border-radius: 6px; margin: 1rem 0; }
            .rehearsal small { display: block; font-weight: 400; color: var(--ink); }
            tr.skipped td, tr.not-done td { background: var(--warn-paper); }
            tr.failed td:first-child { border-left: 4px solid var(--bad); padding-left: .5rem; }
            tr.skipped td:first-child, tr.not-done td:first-child { border-left: 4px dotted var(--odd); padding-left: .5rem; }
            td.verdict { font-weight: 700; text-transform: uppercase; font-size: .8rem; white-space: nowrap; }
            td code { white-space: normal; overflow-wrap: anywhere; }
            td ul { margin: .2rem 0; padding-left: 1.1rem; }
            .steps td:nth-child(1) { width: 30%; } .steps td:nth-child(2) { width: 30%; }
            .print { overflow-wrap: anywhere; }
            .sign { display: flex; flex-wrap: wrap; gap: 2rem; margin-top: 2.5rem; }
            .sign span { flex: 1 1 12rem; border-top: 1px solid var(--ink); padding-top: .3rem; font-size: .85rem; }
            @media print { table { font-size: 8.5pt; line-height: 1.3; } td ul { margin: 0; } .sign { break-inside: avoid; } }
            @media (max-width: 640px) { .steps td:nth-child(n) { width: auto; } }
            </style>
            """;

    private final CommissionRecord record;
    private final Map<StepDescription, RecordState.LastResult> results;
    private final StringBuilder html = new StringBuilder(STYLE);

    private RecordPage(CommissionRecord record) {
        this.record = record;
        this.results = record.results();
    }

    public static String of(CommissionRecord record) {
        RecordPage page = new RecordPage(record);
        String title = record.vehicle() + ": commissioning of the low-voltage side";
        boolean rehearsal = record.state().begin().rehearsal();
        page.head();
        page.notPassed();
        page.steps();
        page.gaps();
        page.history();
        return new Page(rehearsal ? "Rehearsal, nothing real" : "Record, traction battery absent", title)
                .raw(page.html.toString())
                .cautions()
                .raw(page.sign())
                .end();
    }

    private void head() {
        JournalEntry.Begin begun = record.state().begin();
        if (begun.rehearsal()) {
            html.append(
                    "<p class=\"rehearsal\">REHEARSAL<small>Every pin in this record was simulated. It says nothing about a real"
                            + " car.</small></p>\n");
        }
        if (!record.state().changedFiles().isEmpty()) {
            html.append("<p class=\"rehearsal\">FILES CHANGED BETWEEN SESSIONS: ")
                    .append(text(String.join(", ", record.state().changedFiles())))
                    .append(
                            "<small>Steps marked <em>before the change</em> were done with the old files.</small></p>\n");
        }
        boolean passed = record.isPassed();
        html.append("<p><span class=\"badge ").append(passed ? "pass" : "fail").append("\">");
        html.append(passed ? "every step passed" : "not complete").append("</span> ");
        html.append(text(record.summary())).append("</p>\n<table>\n");
        row("vehicle", record.vehicle() + ": " + record.description());
        row("board", begun.board().isEmpty() ? "none" : begun.board());
        row("begun", begun.at());
        begun.faults().forEach(fault -> row("planted fault", fault));
        record.state().fingerprints().forEach((name, print) -> row("SHA-256 of " + name, print));
        html.append("</table>\n");
    }

    private void row(String name, String value) {
        html.append("<tr><th>").append(text(name)).append("</th><td class=\"print\">");
        html.append(text(value)).append("</td></tr>\n");
    }

    private void notPassed() {
        if (results.values().stream().allMatch(RecordState.LastResult::hasPassed)) {
            return;
        }
        html.append("<h2>What has not passed</h2>\n<table class=\"stack\">\n<tbody>\n");
        results.forEach((step, last) -> {
            if (!last.hasPassed()) {
                firstCell(step, last.result().verdict(), List.of());
                html.append("<td data-label=\"was seen\">")
                        .append(text(last.result().seen()))
                        .append("</td>");
                verdict(last.result().verdict());
            }
        });
        html.append("</tbody></table>\n");
    }

    private void steps() {
        for (StepDescription.Part part : StepDescription.Part.values()) {
            List<StepDescription> steps =
                    record.steps().stream().filter(s -> s.part() == part).toList();
            if (!steps.isEmpty()) {
                html.append("<h2>").append(text(part.heading)).append("</h2>\n");
                table(steps);
            }
        }
    }

    private void table(List<StepDescription> steps) {
        html.append("<table class=\"stack steps\">\n<thead><tr><th>step</th><th>must be seen</th><th>was seen</th>"
                + "<th>verdict</th></tr></thead>\n<tbody>\n");
        for (StepDescription step : steps) {
            RecordState.LastResult last = results.get(step);
            StepResult result = last.result();
            firstCell(step, result.verdict(), step.todo());
            html.append("<td data-label=\"must be seen\">").append(text(step.expect()));
            html.append("</td><td data-label=\"was seen\">").append(text(result.seen()));
            list(result.measures().stream().map(Measure::text).toList());
            html.append(last.isBeforeChange() ? "<br><em class=\"fail\">before the change</em>" : "");
            html.append(last.at().isEmpty() ? "" : "<div><small>" + text(last.at()) + "</small></div>");
            html.append("</td>");
            verdict(result.verdict());
        }
        html.append("</tbody></table>\n");
    }

    private void firstCell(StepDescription step, StepVerdict verdict, List<String> todo) {
        html.append("<tr class=\"").append(verdict.key().replace('_', '-')).append("\"><td><strong>");
        html.append(text(step.title()))
                .append("</strong><br><code>")
                .append(text(step.id()))
                .append("</code>");
        list(todo);
        html.append("</td>");
    }

    private void verdict(StepVerdict verdict) {
        html.append("<td class=\"verdict ").append(colour(verdict)).append("\">");
        html.append(text(verdict.word())).append("</td></tr>\n");
    }

    private static String colour(StepVerdict verdict) {
        return switch (verdict) {
            case PASSED -> "pass";
            case FAILED -> "fail";
            default -> "error";
        };
    }

    private void list(List<String> items) {
        if (!items.isEmpty()) {
            html.append("<ul>");
            items.forEach(item -> html.append("<li>").append(text(item)).append("</li>"));
            html.append("</ul>");
        }
    }

    private void gaps() {
        html.append("<h2>What this record does not cover</h2>\n<table class=\"stack\">\n<tbody>\n");
        record.gaps()
                .forEach(gap -> html.append("<tr><td><code>")
                        .append(text(gap.what()))
                        .append("</code></td><td>")
                        .append(text(gap.why()))
                        .append("</td></tr>\n"));
        html.append("</tbody></table>\n");
    }

    private void history() {
        html.append("<h2>Sessions and notes</h2>\n");
        list(record.state().history());
    }

    private String sign() {
        return String.format(
                Locale.ROOT,
                "<div class=\"sign\"><span>done by</span><span>second person</span><span>place, date</span></div>%n");
    }

    private static String text(String plain) {
        return Html.escape(plain);
    }
}
