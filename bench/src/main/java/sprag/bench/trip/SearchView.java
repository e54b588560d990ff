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

/** A search for people and for programs. */
final class SearchView implements FoundView {
    private static final int COLUMNS = 80;
    private static final int BAR = 40;
    private static final double SAME = 1e-9;

    private final TripReport base;
    private final Search search;

    SearchView(TripReport base, Search search) {
        this.base = base;
        this.search = search;
    }

    /** The answer in a sentence. */
    String answer() {
        String aim = search.figure() + " = " + Numbers.text(search.target());
        if (!isFound() && isFlat()) {
            return search.row().key() + " does not change " + search.figure() + " in this range: it stays "
                    + Numbers.text(search.points().get(0).result()) + ", so nothing gives " + aim + ".";
        }
        if (!isFound()) {
            Search.Point nearest = nearest();
            return "No value of " + search.row().key() + " in this range gives " + aim + "."
                    + (nearest == null
                            ? " None could be driven."
                            : " The nearest is " + Numbers.text(nearest.value()) + " with "
                                    + Numbers.text(nearest.result()) + ".");
        }
        boolean tried = search.points().stream().anyMatch(each -> each.value() == search.found());
        return search.row().key() + " = " + Numbers.text(search.found())
                + (tried ? " is the first value tried that reaches " : " gives ") + aim
                + " by the curve; driven whole, that value gives " + Numbers.text(search.confirmed()) + ".";
    }

    /** Whether several values were driven, and all gave the same. */
    private boolean isFlat() {
        List<Search.Point> points = search.points();
        double first = points.get(0).result();
        return points.size() > 1
                && points.stream().allMatch(each -> Math.abs(each.result() - first) <= SAME * Math.abs(first));
    }

    private Search.Point nearest() {
        Search.Point best = null;
        for (Search.Point each : search.points()) {
            double far = Math.abs(each.result() - search.target());
            if (!Double.isNaN(far) && (best == null || far < Math.abs(best.result() - search.target()))) {
                best = each;
            }
        }
        return best;
    }

    /** What changes with the value, and what does not. */
    String followers() {
        return new Variation(base.vehicle(), search.row()).followersTold();
    }

    @Override
    public boolean isFound() {
        return !Double.isNaN(search.found());
    }

    @Override
    public List<String> text() {
        List<String> lines = new ArrayList<>();
        lines.addAll(Wrap.lines(answer(), COLUMNS));
        lines.addAll(Wrap.lines(followers(), COLUMNS));
        lines.add("");
        double most = search.points().stream()
                .mapToDouble(Search.Point::result)
                .filter(Double::isFinite)
                .max()
                .orElse(1);
        lines.add(String.format(Locale.ROOT, "%14s %14s", "value", search.figure()));
        for (Search.Point each : search.points()) {
            int bar = (int) Math.max(0, Math.round(each.result() / most * BAR));
            String line =
                    String.format(Locale.ROOT, "%14s %14s  ", Numbers.text(each.value()), Numbers.text(each.result()));
            if (each.trouble().isEmpty()) {
                lines.add(line + "#".repeat(Math.min(BAR, bar)));
            } else {
                lines.addAll(Wrap.hanging(line, " ".repeat(31), each.trouble(), COLUMNS));
            }
        }
        return lines;
    }

    @Override
    public String json() {
        ObjectNode root = Json.object();
        root.put("vehicle", base.vehicle().name());
        root.put("key", search.row().key());
        root.put("figure", search.figure());
        Json.number(root, "target", search.target());
        Json.number(root, "found", search.found());
        Json.number(root, "confirmed", search.confirmed());
        ArrayNode points = root.putArray("points");
        for (Search.Point each : search.points()) {
            ObjectNode node = points.addObject();
            Json.number(node, "value", each.value());
            Json.number(node, search.figure(), each.result());
            if (!each.trouble().isEmpty()) {
                node.put("trouble", each.trouble());
            }
        }
        ArrayNode followers = root.putArray("followers");
        search.followers().forEach(followers::add);
        return root.toPrettyString();
    }

    @Override
    public String page() {
        boolean drawn = search.points().size() > 1;
        List<Map<String, String>> rows = search.points().stream()
                .map(each -> Map.of(
                        "value", Numbers.text(each.value()),
                        "result", Numbers.text(each.result()),
                        "trouble", each.trouble()))
                .toList();
        Map<String, Object> model = Map.of(
                "answer", answer(),
                "isFound", isFound(),
                "followers", followers(),
                "key", search.row().key(),
                "figureName", search.figure(),
                "drawings", drawn ? List.of(drawing()) : List.of(),
                "rows", rows);
        String title = search.figure() + " over " + search.row().key() + ": "
                + base.vehicle().name();
        return Page.of(SearchView.class, "search.html", "a search on the simulated car", title, model);
    }

    private TripPage.Figure drawing() {
        List<Search.Point> points = search.points();
        Line line = new Line(
                search.figure(), search.figure(), false, i -> points.get(i).result());
        Level level = new Level(search.target(), "target " + Numbers.text(search.target()), false);
        String title = search.figure() + " over " + search.row().key();
        Plot plot = new Plot(title, "", "", List.of(line), List.of(level));
        Times values = new Times(points.size(), i -> points.get(i).value());
        TimeMarks marks = new TimeMarks(List.of(), List.of());
        return new TripPage.Figure(
                title, plot.legend(), false, plot.svg(axis(true), values, marks), plot.svg(axis(false), values, marks));
    }

    private TimeAxis axis(boolean isWide) {
        double from = search.points().get(0).value();
        double to = search.points().get(search.points().size() - 1).value();
        return new TimeAxis(from, to, Numbers.symbol(search.row().unit()), 1, isWide);
    }
}
