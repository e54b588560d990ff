package sprag.bench.drawing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;
import sprag.bench.cli.Wrap;
import sprag.bench.drawing.live.BrokenPromise;
import sprag.bench.drawing.live.FaultResult;
import sprag.bench.drawing.live.LivePromise;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.drawing.live.LiveTable;
import sprag.bench.drawing.live.Situation;

/** What is live when, for a terminal of 80 columns. */
final class LiveText {
    private static final int NAME_WIDTH = 25;
    private static final int LEAST_CELL_WIDTH = 6;
    /** Faults shown for each promise; the page has all. */
    private static final int MOST_FAULTS = 8;

    private final List<String> lines = new ArrayList<>();

    private LiveText() {}

    static List<String> of(String name, LiveReport report) {
        LiveText text = new LiveText();
        text.lines.add("What is live when: " + name);
        text.lines.add("");
        text.table(report.table());
        text.promises(report);
        text.faults(report);
        text.wrapped(LivePage.CAUTION);
        return text.lines;
    }

    /** The situations with a fuse out have their own lines: what they change. */
    private void table(LiveTable.Table table) {
        int cellWidth = cellWidth(table);
        int columns = Math.min(
                (Wrap.TERMINAL_COLUMNS - NAME_WIDTH) / cellWidth,
                table.situations().size());
        IntStream.range(0, columns)
                .forEach(s -> lines.add(String.format(
                        Locale.ROOT, "  %d  %s", s + 1, table.titles().get(s))));
        lines.add("");
        StringBuilder heading = new StringBuilder(" ".repeat(NAME_WIDTH));
        IntStream.range(0, columns).forEach(s -> heading.append(cell(String.valueOf(s + 1), cellWidth)));
        lines.add(heading.toString().stripTrailing());
        for (LiveTable.Row row : table.rows()) {
            StringBuilder line = new StringBuilder(shortened(row.net()));
            row.cells().subList(0, columns).forEach(c -> line.append(cell(c.text(), cellWidth)));
            lines.add(line.toString().stripTrailing());
        }
        wrapped(LivePage.LEGEND);
        lines.add("");
        int driving = table.first(Situation.Sort.DRIVING);
        for (int s = columns; s < table.situations().size(); s++) {
            changes(table, s, driving);
        }
        lines.add("");
    }

    private void changes(LiveTable.Table table, int situation, int driving) {
        List<String> changed = table.rows().stream()
                .filter(r -> !r.cells().get(situation).equals(r.cells().get(driving)))
                .map(r -> r.net() + " " + r.cells().get(situation).text())
                .toList();
        hanging(table.titles().get(situation) + ": "
                + (changed.isEmpty() ? "no net changes" : String.join(", ", changed)));
    }

    /** Every cell is shown whole: where a net has two sources, fewer situations stand side by side. */
    private static int cellWidth(LiveTable.Table table) {
        return table.rows().stream()
                .flatMap(row -> row.cells().stream())
                .mapToInt(cell -> cell.text().length() + 1)
                .reduce(LEAST_CELL_WIDTH, Math::max);
    }

    private static String cell(String text, int width) {
        return String.format(Locale.ROOT, "%-" + width + "s", text);
    }

    private static String shortened(String net) {
        String text = net.length() < NAME_WIDTH ? net : net.substring(0, NAME_WIDTH - 2) + "…";
        return String.format(Locale.ROOT, "%-" + NAME_WIDTH + "s", text);
    }

    private void promises(LiveReport report) {
        wrapped(LivePage.covered(report));
        lines.add("");
        for (LivePromise promise : report.kept()) {
            hanging("kept    " + promise.words);
        }
        for (BrokenPromise broken : report.broken()) {
            hanging("BROKEN  " + broken.promise().words + ": " + broken.when() + ", " + broken.happens());
            broken.ways().forEach(way -> hanging("          way: " + way));
        }
        lines.add("");
    }

    private void faults(LiveReport report) {
        if (report.faultsTried() == 0) {
            return;
        }
        wrapped(LivePage.faultSummary(report));
        lines.add("");
        Map<LivePromise, List<String>> by = new LinkedHashMap<>();
        for (LivePromise promise : LivePromise.values()) {
            for (FaultResult fault : report.faults()) {
                if (fault.broken().stream().anyMatch(b -> b.promise() == promise)) {
                    by.computeIfAbsent(promise, p -> new ArrayList<>()).add(fault.fault());
                }
            }
        }
        by.forEach((promise, faults) -> {
            int shown = Math.min(MOST_FAULTS, faults.size());
            String more = faults.size() > shown ? ", and " + (faults.size() - shown) + " more" : "";
            hanging(promise.words + ". Not so after " + faults.size() + (faults.size() == 1 ? " fault: " : " faults: ")
                    + String.join(", ", faults.subList(0, shown)) + more);
        });
        lines.add("");
    }

    private void wrapped(String text) {
        lines.addAll(Wrap.lines(text, Wrap.TERMINAL_COLUMNS));
    }

    private void hanging(String text) {
        lines.addAll(Wrap.hanging("  ", "          ", text, Wrap.TERMINAL_COLUMNS));
    }
}
