package sprag.bench.evidence.margin;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Json;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.Wrap;
import sprag.bench.page.Page;
import sprag.bench.page.Svg;
import sprag.bench.scenario.Scenario;

/** Tells of the limits: in a terminal, as JSON, as a page. */
record LimitReport(Fleet fleet, Scenario scenario, List<LimitCurve> curves) {
    private static final int PLOT_PX = 340;
    private static final int BASE_PX = 96;
    private static final int TOP_PX = 18;
    private static final int LEFT_PX = 34;

    private record Row(String key, String present, String words, String proposal, String plot, List<Value> values) {}

    private record Value(String value, String alarms, String noticed, String median, String worst, String style) {}

    private static final String CAUTION =
            "A value that is clean here was tried against one fault only. Keep a distance to"
                    + " the edge, and run check and campaign after every change.";

    void print(PrintWriter out) {
        for (LimitCurve curve : curves) {
            out.println();
            out.println(curve.limit().parameter.key() + " = " + curve.text(curve.present()));
            Wrap.hanging("  ", "  ", curve.words(), Wrap.TERMINAL_COLUMNS).forEach(out::println);
            if (!curve.proposal().isEmpty()) {
                Wrap.hanging("  ", "  ", curve.proposal(), Wrap.TERMINAL_COLUMNS)
                        .forEach(out::println);
            }
        }
        out.println();
        Wrap.lines(CAUTION, Wrap.TERMINAL_COLUMNS).forEach(out::println);
    }

    String json() {
        ObjectNode root = Json.object();
        root.put("vehicle", fleet.vehicle().name()).put("cars", fleet.size()).put("scenario", scenario.name());
        ArrayNode limits = root.putArray("limits");
        for (LimitCurve curve : curves) {
            ObjectNode node =
                    limits.addObject().put("key", curve.limit().parameter.key());
            node.put("present", curve.present())
                    .put("left_out", curve.aside())
                    .put("fault", curve.limit().fault)
                    .put("words", curve.words());
            ArrayNode points = node.putArray("points");
            for (LimitCurve.Point point : curve.points()) {
                ObjectNode each = points.addObject().put("value", point.value());
                each.put("false_alarms", point.alarms().count())
                        .put("noticed", point.noticed().count());
                Json.number(each, "median_ms", point.medianMs());
                Json.number(each, "worst_ms", point.worstMs());
            }
        }
        return root.toPrettyString();
    }

    String page() {
        return Page.of(
                LimitReport.class,
                "limits.html",
                fleet.size() + " cars of one drawing, on the simulated "
                        + fleet.vehicle().name(),
                "Limits: " + fleet.vehicle().name(),
                Map.of(
                        "cars",
                        fleet.size(),
                        "scenario",
                        scenario.name(),
                        "caution",
                        CAUTION,
                        "rows",
                        curves.stream().map(this::row).toList()));
    }

    private Row row(LimitCurve curve) {
        return new Row(
                curve.limit().parameter.key(),
                curve.text(curve.present()),
                curve.words(),
                curve.proposal(),
                plot(curve),
                curve.points().stream().map(point -> value(curve, point)).toList());
    }

    private static Value value(LimitCurve curve, LimitCurve.Point point) {
        return new Value(
                curve.text(point.value()),
                Share.percent(point.alarms().value()) + " %",
                Share.percent(point.noticed().value()) + " %",
                Numbers.text(point.medianMs(), "ms"),
                Numbers.text(point.worstMs(), "ms"),
                point.value() == curve.present() ? "skipped" : "");
    }

    /** Both curves over the value: share of false alarms, and time to notice as a share of the longest. */
    private static String plot(LimitCurve curve) {
        List<LimitCurve.Point> points = curve.points();
        if (points.size() < 2) {
            return "";
        }
        double low = Math.log(points.get(0).value());
        double high = Math.log(points.get(points.size() - 1).value());
        double longestMs = points.stream()
                .mapToDouble(LimitCurve.Point::medianMs)
                .filter(Double::isFinite)
                .max()
                .orElse(1);
        Svg svg = new Svg(
                        "plot",
                        "False alarms and time to notice over "
                                + curve.limit().parameter.key(),
                        PLOT_PX,
                        124)
                .begin();
        svg.add("<path class=\"axis\" d=\"M%d %dH%d\"/>", LEFT_PX, BASE_PX, PLOT_PX - 8);
        StringBuilder alarms = new StringBuilder();
        StringBuilder times = new StringBuilder();
        for (LimitCurve.Point point : points) {
            double x = LEFT_PX + (Math.log(point.value()) - low) / (high - low) * (PLOT_PX - 8.0 - LEFT_PX);
            alarms.append(alarms.isEmpty() ? "M" : "L")
                    .append(Svg.px(x))
                    .append(' ')
                    .append(Svg.px(y(point.alarms().value())));
            if (Double.isFinite(point.medianMs())) {
                times.append(times.isEmpty() ? "M" : "L")
                        .append(Svg.px(x))
                        .append(' ')
                        .append(Svg.px(y(point.medianMs() / longestMs)));
            }
            if (point.value() == curve.present()) {
                svg.add("<path class=\"level\" d=\"M%s %dV%d\"/>", Svg.px(x), TOP_PX, BASE_PX);
            }
        }
        svg.add("<path class=\"line l5\" d=\"%s\"/>", alarms);
        svg.add("<path class=\"line l1\" stroke-dasharray=\"7 3\" d=\"%s\"/>", times);
        svg.add("<text class=\"end\" x=\"%d\" y=\"%d\">100 %%</text>", LEFT_PX + 6, TOP_PX - 6);
        svg.add(
                "<text class=\"end\" x=\"%d\" y=\"%d\">%s</text>",
                PLOT_PX - 8, TOP_PX - 6, Numbers.text(longestMs, "ms"));
        svg.add(
                "<text x=\"%d\" y=\"%d\">%s</text>",
                LEFT_PX, BASE_PX + 18, curve.text(points.get(0).value()));
        svg.add("<text class=\"end\" x=\"%d\" y=\"%d\">", PLOT_PX - 8, BASE_PX + 18);
        svg.add("%s</text>", curve.text(points.get(points.size() - 1).value()));
        return svg.end();
    }

    private static double y(double share) {
        return BASE_PX - share * (BASE_PX - TOP_PX);
    }
}
