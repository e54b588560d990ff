package sprag.bench.review.page;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import sprag.bench.cli.Numbers;
import sprag.bench.page.Page;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.formula.VoltageBand;
import sprag.bench.review.report.Acceptance;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.JudgedFinding;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.review.wiring.schedule.Wire;

/** Writes a review as a page. */
public final class HtmlPage {
    private final CheckReport report;
    private final Map<Spot, List<Map.Entry<Integer, Finding>>> onDiagram = new EnumMap<>(Spot.class);

    private record Numbered(int number, Finding finding, Acceptance acceptance) {}

    private record Lost(String signal, String words) {}

    private record Sum(Calculation sum, String inputs, String limit, String margin) {}

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

    /** Writes the review. */
    public static String of(CheckReport report) {
        HtmlPage page = new HtmlPage(report);
        Map<String, Object> model = new HashMap<>(Map.of(
                "description", report.vehicle().description(),
                "pins", report.pins(),
                "stops", report.stops(),
                "summary", Summary.of(report),
                "caution", Summary.CAUTION,
                "diagram", OneLine.of(report, page.onDiagram),
                "elsewhere", page.elsewhere(),
                "findings", page.numbered(),
                "lost", page.lost(),
                "calculations",
                        report.calculations().stream().map(HtmlPage::sum).toList()));
        model.put("voltage", Summary.voltage(report.vehicle()));
        model.put("band", VoltageBand.of(report.vehicle()));
        String name = report.vehicle().name();
        return Page.of(HtmlPage.class, "check.html", "sizes, limits and wiring", "Design review of " + name, model);
    }

    /** The numbers of the findings that have no place on the diagram. */
    private List<Integer> elsewhere() {
        Set<Integer> shown = onDiagram.values().stream()
                .flatMap(List::stream)
                .map(Map.Entry::getKey)
                .collect(Collectors.toSet());
        return IntStream.rangeClosed(1, report.findings().size())
                .filter(n -> !shown.contains(n))
                .boxed()
                .toList();
    }

    private List<Numbered> numbered() {
        List<Numbered> all = new ArrayList<>();
        for (JudgedFinding judged : report.findings()) {
            all.add(new Numbered(all.size() + 1, judged.finding(), judged.acceptance()));
        }
        return all;
    }

    private List<Lost> lost() {
        List<Lost> all = new ArrayList<>();
        report.lostCover().forEach((signal, words) -> all.add(new Lost(signal.key(), words)));
        return all;
    }

    private static Sum sum(Calculation sum) {
        String inputs =
                sum.inputs().stream().map(i -> i.name() + " " + i).distinct().collect(Collectors.joining(", "));
        String limit = sum.limit() == null ? "" : (sum.isAtMost() ? "at most " : "at least ") + sum.limit();
        return new Sum(sum, inputs, limit, margin(sum));
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
}
