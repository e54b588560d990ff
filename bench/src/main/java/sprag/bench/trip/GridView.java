package sprag.bench.trip;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.cli.Json;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.Wrap;
import sprag.bench.page.Page;
import sprag.bench.page.Plot;
import sprag.bench.page.Plot.Level;
import sprag.bench.page.Plot.Line;
import sprag.bench.page.TimeAxis;
import sprag.bench.page.TimeMarks;
import sprag.bench.page.Times;

/** Two values that were tried together, for people and for programs. */
final class GridView implements FoundView {
    private static final int COLUMNS = 80;

    private final TripReport base;
    private final Grid grid;
    private final Search any;

    /** A view of a grid with at least one curve. */
    GridView(TripReport base, Grid grid) {
        this.base = base;
        this.grid = grid;
        this.any = grid.driven().get(0).search();
    }

    @Override
    public boolean isFound() {
        return grid.driven().stream()
                .anyMatch(each -> !Double.isNaN(each.search().found()));
    }

    /** For each value of the second key, which of the first reaches the aim. */
    List<String> answers() {
        String aim = any.figure() + " = " + Numbers.text(any.target());
        List<String> all = new ArrayList<>();
        for (Grid.Curve each : grid.curves()) {
            String with = "With " + grid.second().key() + " = " + Numbers.text(each.value());
            if (each.search() == null) {
                all.add(with + " nothing was driven: " + each.trouble() + ".");
            } else if (Double.isNaN(each.search().found())) {
                all.add(with + " no value of " + any.row().key() + " in this range gives " + aim + ".");
            } else {
                all.add(with + ", " + any.row().key() + " = "
                        + Numbers.text(each.search().found()) + " gives " + aim + ".");
            }
        }
        all.add("By straight lines between what was tried.");
        all.addAll(Variation.followersTold(
                new Variation(base.vehicle(), any.row()), new Variation(base.vehicle(), grid.second())));
        return all;
    }

    @Override
    public List<String> text() {
        List<String> lines = new ArrayList<>();
        answers().forEach(each -> lines.addAll(Wrap.lines(each, COLUMNS)));
        lines.add("");
        lines.add(any.figure() + "; down: " + any.row().key() + ", across: "
                + grid.second().key());
        StringBuilder head = new StringBuilder(" ".repeat(12));
        grid.driven().forEach(each -> head.append(cell(each.value())));
        lines.add(head.toString());
        for (int i = 0; i < any.points().size(); i++) {
            StringBuilder row = new StringBuilder(cell(any.points().get(i).value()));
            for (Grid.Curve each : grid.driven()) {
                row.append(cell(each.search().points().get(i).result()));
            }
            lines.add(row.toString());
        }
        return lines;
    }

    private static String cell(double value) {
        return String.format(Locale.ROOT, "%12s", Double.isNaN(value) ? "-" : Numbers.text(value));
    }

    @Override
    public String json() {
        ObjectNode root = Json.object();
        root.put("vehicle", base.vehicle().name());
        root.put("key", any.row().key());
        root.put("second", grid.second().key());
        root.put("figure", any.figure());
        Json.number(root, "target", any.target());
        ArrayNode curves = root.putArray("curves");
        for (Grid.Curve each : grid.curves()) {
            ObjectNode curve = curves.addObject();
            Json.number(curve, "second", each.value());
            if (each.search() == null) {
                curve.put("trouble", each.trouble());
                continue;
            }
            Json.number(curve, "found", each.search().found());
            ArrayNode points = curve.putArray("points");
            for (Search.Point point : each.search().points()) {
                ObjectNode node = points.addObject();
                Json.number(node, "value", point.value());
                Json.number(node, any.figure(), point.result());
                if (!point.trouble().isEmpty()) {
                    node.put("trouble", point.trouble());
                }
            }
        }
        return root.toPrettyString();
    }

    @Override
    public String page() {
        List<Map<String, String>> rows = new ArrayList<>();
        for (Grid.Curve each : grid.driven()) {
            for (Search.Point point : each.search().points()) {
                rows.add(Map.of(
                        "second", Numbers.text(each.value()),
                        "value", Numbers.text(point.value()),
                        "result", Numbers.text(point.result()),
                        "trouble", point.trouble()));
            }
        }
        Map<String, Object> model = Map.of(
                "answers", answers(),
                "isFound", isFound(),
                "key", any.row().key(),
                "secondKey", grid.second().key(),
                "figureName", any.figure(),
                "drawings", any.points().size() > 1 ? List.of(drawing()) : List.of(),
                "rows", rows);
        String title = any.figure() + " over " + any.row().key() + " and "
                + grid.second().key() + ": " + base.vehicle().name();
        return Page.of(GridView.class, "grid.html", "a search on the simulated car", title, model);
    }

    private TripPage.Figure drawing() {
        List<Line> lines = new ArrayList<>();
        for (Grid.Curve each : grid.driven()) {
            String name = grid.second().key() + " = " + Numbers.text(each.value());
            lines.add(new Line(
                    Numbers.text(each.value()),
                    name,
                    false,
                    i -> each.search().points().get(i).result()));
        }
        Level level = new Level(any.target(), "target " + Numbers.text(any.target()), false);
        String title = any.figure() + " over " + any.row().key() + ", a line for each "
                + grid.second().key();
        Plot plot = new Plot(title, "", "", lines, List.of(level));
        Times values = new Times(any.points().size(), i -> any.points().get(i).value());
        TimeMarks marks = new TimeMarks(List.of(), List.of());
        return new TripPage.Figure(
                title, plot.legend(), false, plot.svg(axis(true), values, marks), plot.svg(axis(false), values, marks));
    }

    private TimeAxis axis(boolean isWide) {
        double from = any.points().get(0).value();
        double to = any.points().get(any.points().size() - 1).value();
        return new TimeAxis(from, to, Numbers.symbol(any.row().unit()), 1, isWide);
    }
}
