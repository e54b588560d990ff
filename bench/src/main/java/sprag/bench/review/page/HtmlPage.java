package sprag.bench.review.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import sprag.bench.cli.Numbers;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.JudgedFinding;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.review.wiring.Wire;

/** The review as one web page that needs nothing else: no script, no other file. */
public final class HtmlPage {
    private final CheckReport report;
    private final StringBuilder html = new StringBuilder();
    private final Map<Spot, List<Map.Entry<Integer, Finding>>> onDiagram = new EnumMap<>(Spot.class);

    private HtmlPage(CheckReport report) {
        this.report = report;
        List<JudgedFinding> findings = report.findings();
        Set<Spot> drawn = OneLine.spots(report);
        Map<String, Wire> wires = new HashMap<>();
        if (report.schedule() != null) {
            report.schedule().wires().forEach(w -> wires.putIfAbsent(w.id(), w));
        }
        for (int i = 0; i < findings.size(); i++) {
            Finding finding = findings.get(i).finding();
            Spot spot = Spot.of(finding, report.schedule(), wires);
            if (spot != null && drawn.contains(spot)) {
                onDiagram.computeIfAbsent(spot, s -> new ArrayList<>()).add(Map.entry(i + 1, finding));
            }
        }
    }

    /** Writes the review.
     *
     * @param report what was found
     * @return a whole page
     */
    public static String of(CheckReport report) {
        HtmlPage page = new HtmlPage(report);
        page.head();
        page.diagram();
        page.findings();
        page.lostCover();
        page.calculations();
        page.html.append("</main>\n</body>\n</html>\n");
        return page.html.toString();
    }

    private static String e(String text) {
        return Html.escape(text);
    }

    private void head() {
        String name = e(report.vehicle().name());
        html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
                .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
                .append("<title>Design review of ")
                .append(name)
                .append("</title>\n<style>\n")
                .append(style())
                .append("</style>\n</head>\n<body>\n<main>\n<h1>Design review of ")
                .append(name)
                .append("</h1>\n");
        if (!report.vehicle().description().isEmpty()) {
            html.append("<p>").append(e(report.vehicle().description())).append(".</p>\n");
        }
        html.append("<p class=\"verdict ")
                .append(report.stops() ? "stop" : "clear")
                .append("\">")
                .append(e(Summary.of(report)))
                .append("</p>\n<p class=\"caution-box\">")
                .append(e(Summary.CAUTION))
                .append("</p>\n");
    }

    private void diagram() {
        html.append("<h2>Where the findings sit</h2>\n<p class=\"hint\">Both poles are drawn as one line. ")
                .append("Octagons stop, triangles caution, circles note; the numbers lead to the findings.</p>\n")
                .append("<div class=\"diagram\" tabindex=\"0\">\n")
                .append(OneLine.of(report, onDiagram))
                .append("</div>\n");
        Set<Integer> shown = onDiagram.values().stream()
                .flatMap(List::stream)
                .map(Map.Entry::getKey)
                .collect(Collectors.toSet());
        String elsewhere = IntStream.rangeClosed(1, report.findings().size())
                .filter(n -> !shown.contains(n))
                .mapToObj(n -> "<a href=\"#f" + n + "\">" + n + "</a>")
                .collect(Collectors.joining(" "));
        if (!elsewhere.isEmpty()) {
            html.append("<p>Not on the diagram: ").append(elsewhere).append("</p>\n");
        }
    }

    private void findings() {
        html.append("<h2>Findings</h2>\n");
        if (report.findings().isEmpty()) {
            html.append("<p>None.</p>\n");
            return;
        }
        html.append("<ol class=\"findings\">\n");
        for (int i = 0; i < report.findings().size(); i++) {
            finding(i + 1, report.findings().get(i));
        }
        html.append("</ol>\n");
    }

    private void finding(int number, JudgedFinding judged) {
        Finding finding = judged.finding();
        String accepted = judged.isAccepted() ? " accepted" : "";
        html.append("<li id=\"f")
                .append(number)
                .append("\" class=\"")
                .append(finding.weight().word())
                .append(accepted)
                .append("\">\n<p class=\"tag\"><b>")
                .append(number)
                .append("</b> ")
                .append(finding.weight().word())
                .append(judged.isAccepted() ? ", accepted" : "")
                .append(" <code>")
                .append(e(finding.id()))
                .append("</code> <code>")
                .append(e(finding.where()))
                .append("</code> <span>")
                .append(e(finding.place().toString()))
                .append("</span></p>\n<p>")
                .append(e(finding.sentence()))
                .append("</p>\n");
        if (judged.isAccepted()) {
            html.append("<p class=\"why\">Accepted ")
                    .append(judged.acceptance().date())
                    .append(": ")
                    .append(e(judged.acceptance().reason()))
                    .append("</p>\n");
        }
        if (!finding.why().isEmpty()) {
            html.append("<p class=\"why\">Why it matters: ")
                    .append(e(finding.why()))
                    .append(".</p>\n");
        }
        html.append("<p class=\"source\">Source: ").append(e(finding.source())).append(".</p>\n</li>\n");
    }

    private void lostCover() {
        if (report.lostCover().isEmpty()) {
            return;
        }
        html.append(
                "<h2>Loss of cover</h2>\n<p class=\"hint\">What this vehicle cannot detect, signal by signal.</p>\n<dl>\n");
        report.lostCover()
                .forEach((signal, lost) -> html.append("<dt>without <code>")
                        .append(e(signal.key()))
                        .append("</code></dt><dd>")
                        .append(e(lost))
                        .append("</dd>\n"));
        html.append("</dl>\n");
    }

    private void calculations() {
        html.append(
                        "<h2>Calculations</h2>\n<div class=\"table\" tabindex=\"0\">\n<table>\n<thead><tr><th>what</th><th>result</th>")
                .append("<th>limit</th><th>margin</th></tr></thead>\n<tbody>\n");
        for (Calculation sum : report.calculations()) {
            String inputs = sum.inputs().stream()
                    .map(i -> i.name() + " " + i)
                    .distinct()
                    .collect(Collectors.joining(", "));
            String limit = sum.limit() == null ? "" : (sum.isAtMost() ? "at most " : "at least ") + sum.limit();
            html.append("<tr class=\"")
                    .append(sum.verdict().name().toLowerCase(Locale.ROOT))
                    .append("\"><td><details><summary>")
                    .append(e(sum.title()))
                    .append("</summary><p>")
                    .append(e(sum.formula()))
                    .append("</p><p>From ")
                    .append(e(inputs))
                    .append(".</p><p>Source: ")
                    .append(e(sum.source()))
                    .append(".</p></details></td><td>")
                    .append(e(sum.result().toString()))
                    .append("</td><td>")
                    .append(e(limit))
                    .append("</td><td>")
                    .append(margin(sum))
                    .append("</td></tr>\n");
        }
        html.append("</tbody>\n</table>\n</div>\n");
    }

    private static String margin(Calculation sum) {
        return Double.isNaN(sum.margin()) || Double.isInfinite(sum.margin())
                ? switch (sum.verdict()) {
                    case UNKNOWN -> "not judged";
                    case BROKEN -> "none";
                    default -> "";
                }
                : Numbers.text(Math.round(sum.margin() * 1000) / 10.0) + " %";
    }

    private static String style() {
        try (InputStream in = HtmlPage.class.getResourceAsStream("check.css")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read check.css beside " + HtmlPage.class, e);
        }
    }

    /** How many findings of a weight sit on the diagram, for the page's test. */
    static long onDiagram(CheckReport report, Weight weight) {
        return new HtmlPage(report)
                .onDiagram.values().stream()
                        .flatMap(List::stream)
                        .filter(n -> n.getValue().weight() == weight)
                        .count();
    }
}
