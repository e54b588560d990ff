package sprag.bench.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Numbers;
import sprag.bench.page.Page;
import sprag.bench.page.Plot;
import sprag.bench.page.TimeAxis;
import sprag.bench.page.TimeMarks;
import sprag.bench.page.Times;

/** The curves of how costs grow, for a browser. */
final class GrowthPage {
    /** A drawing with its words, for the template. */
    record Curve(
            String title,
            String heading,
            String sentence,
            String cause,
            String cost,
            List<Plot.Legend> legend,
            boolean isLanes,
            String wide,
            String narrow,
            List<Map<String, String>> rows) {}

    private GrowthPage() {}

    /** The whole page.
     *
     * @param machine where it was measured
     */
    static String of(List<Growth> growths, String machine) {
        List<Curve> curves = new ArrayList<>();
        growths.forEach(each -> curves.add(curve(each)));
        return Page.of(
                GrowthPage.class, "growth.html", "measured on " + machine, "How costs grow", Map.of("curves", curves));
    }

    private static Curve curve(Growth growth) {
        List<Growth.Point> points = growth.points();
        Plot.Line line = new Plot.Line(
                growth.cost(), growth.cost(), false, i -> points.get(i).cost());
        Growth.Point first = points.get(0);
        double each = first.cost() / first.cause();
        Plot.Line even = new Plot.Line(
                "in proportion",
                "what it would be if each part of the cause cost as much as in the first measurement",
                false,
                i -> each * points.get(i).cause());
        String title = growth.what() + " over " + growth.cause();
        Plot plot = new Plot(title, "", "", List.of(line, even), List.of());
        Times causes = new Times(points.size(), i -> points.get(i).cause());
        TimeMarks marks = new TimeMarks(List.of(), List.of());
        List<Map<String, String>> rows = points.stream()
                .map(row -> Map.of("cause", Numbers.text(row.cause()), "cost", Numbers.text(row.cost())))
                .toList();
        return new Curve(
                growth.cost(),
                title,
                growth.sentence(),
                growth.cause(),
                growth.cost(),
                plot.legend(),
                false,
                plot.svg(axis(points, true), causes, marks),
                plot.svg(axis(points, false), causes, marks),
                rows);
    }

    private static TimeAxis axis(List<Growth.Point> points, boolean isWide) {
        return new TimeAxis(points.get(0).cause(), points.get(points.size() - 1).cause(), "", 1, isWide);
    }
}
