package sprag.bench.page;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import sprag.bench.cli.Wrap;

/**
 * A plot of values over time. It is drawn as SVG with the colours of the page, so that light and dark both read well.
 *
 * @param unit the unit of the axis at the left
 * @param rightUnit the unit of the axis at the right, empty for none
 */
public record Plot(String title, String unit, String rightUnit, List<Line> lines, List<Level> levels) {
    /** The dashes of the first, second, third line and so on. No two lines of a plot look the same without colour. */
    static final List<String> DASHES = List.of("", "7 3", "2 2.5", "10 3 2 3", "14 4", "5 2 2 2 2 2");

    private static final int TOP_PX = 20;
    private static final int HEIGHT_PX = 210;
    private static final int BOTTOM_PX = HEIGHT_PX - 24;
    private static final int SAMPLE_PX = 22;
    private static final int LABEL_CHARS = 18;
    private static final int LABEL_LINE_PX = 14;
    private static final double LEAST_SPAN = 1;

    /**
     * One line.
     *
     * @param meaning what it shows, in more words
     * @param isRight whether it belongs to the axis at the right
     * @param value the value at each of the times, NaN when unknown
     */
    public record Line(String label, String meaning, boolean isRight, IntToDoubleFunction value) {}

    /**
     * A value across the plot.
     *
     * @param isRight whether it belongs to the axis at the right
     */
    public record Level(double value, String label, boolean isRight) {}

    /**
     * A line with its place in the legend.
     *
     * @param label what it is called, with the unit where it belongs to the axis at the right
     * @param number the number of its colour, from 1
     */
    public record Legend(String label, String meaning, int number, String dash) {}

    private record Axis(Scale scale, boolean isRight) {
        double y(double value) {
            return BOTTOM_PX - (value - scale.low()) / (scale.high() - scale.low()) * (BOTTOM_PX - TOP_PX);
        }
    }

    private record Label(int number, double yPx, List<String> words) {
        double heightPx() {
            return words.size() * LABEL_LINE_PX + 3.0;
        }
    }

    /** The lines for a legend beside the plot. */
    public List<Legend> legend() {
        List<Legend> all = new ArrayList<>();
        for (Line line : lines) {
            String axis = line.isRight() ? " (" + rightUnit + ", right)" : "";
            all.add(new Legend(line.label() + axis, line.meaning(), all.size() + 1, DASHES.get(all.size())));
        }
        return all;
    }

    /** Draws the plot.
     *
     * @param marks what is drawn behind the lines
     * @return an {@code svg} element
     */
    public String svg(TimeAxis axis, Times times, TimeMarks marks) {
        Svg svg = axis.drawing(title + axis.over(), HEIGHT_PX);
        marks.draw(svg, axis, TOP_PX, BOTTOM_PX);
        axis.draw(svg, TOP_PX, BOTTOM_PX);
        Axis left = values(axis, times, false);
        Axis right = rightUnit.isEmpty() ? null : values(axis, times, true);
        numbers(svg, axis, left);
        if (right != null) {
            numbers(svg, axis, right);
        }
        levels(svg, axis, left, right);
        List<Label> labels = new ArrayList<>();
        for (Legend each : legend()) {
            Line line = lines.get(each.number() - 1);
            Axis values = line.isRight() ? right : left;
            PixelPath path = new PixelPath(axis, values::y);
            path.addAll(times, line.value());
            Scale scale = values.scale();
            svg.add("<path class=\"line l%d\" stroke-dasharray=\"%s\" ", each.number(), each.dash());
            svg.add("data-name=\"%s\" data-unit=\"%s\" ", line.label(), line.isRight() ? rightUnit : unit);
            svg.add("data-low=\"%s\" data-high=\"%s\" ", scale.low(), scale.high());
            svg.add("data-top=\"%d\" data-bottom=\"%d\" d=\"%s\"/>", TOP_PX, BOTTOM_PX, path);
            labels.add(new Label(each.number(), path.lastY(), Wrap.lines(each.label(), LABEL_CHARS)));
        }
        if (axis.isWide()) {
            labels(svg, axis, labels);
        }
        return svg.end();
    }

    private Axis values(TimeAxis axis, Times times, boolean isRight) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Line line : lines) {
            for (int row = 0; line.isRight() == isRight && row < times.size(); row++) {
                double timeMs = times.timeMs().applyAsDouble(row);
                double value = line.value().applyAsDouble(row);
                if (timeMs >= axis.fromMs() && timeMs <= axis.toMs() && !Double.isNaN(value)) {
                    low = Math.min(low, value);
                    high = Math.max(high, value);
                }
            }
        }
        return new Axis(low > high ? Scale.around(0, 1, 1, 5) : Scale.around(low, high, LEAST_SPAN, 5), isRight);
    }

    private void numbers(Svg svg, TimeAxis axis, Axis values) {
        int x = values.isRight() ? axis.rightPx() + 6 : axis.leftPx() - 6;
        String side = values.isRight() ? "start" : "end";
        for (double tick : values.scale().ticks()) {
            String y = Svg.px(values.y(tick));
            if (!values.isRight()) {
                String style = Math.abs(tick) < values.scale().step() / 2 ? "axis" : "grid";
                svg.add("<path class=\"%s\" d=\"M%d %sH%d\"/>", style, axis.leftPx(), y, axis.rightPx());
            }
            String text = values.scale().text(tick);
            svg.add("<text class=\"%s\" x=\"%d\" y=\"%s\">%s</text>", side, x, Svg.px(values.y(tick) + 4), text);
        }
        svg.add("<text class=\"%s\" x=\"%d\" y=\"%d\">", side, x, TOP_PX - 8);
        svg.add("%s</text>", values.isRight() ? rightUnit : unit);
    }

    private void levels(Svg svg, TimeAxis axis, Axis left, Axis right) {
        for (Level level : levels) {
            Axis values = level.isRight() ? right : left;
            double y = values == null ? -1 : values.y(level.value());
            if (y >= TOP_PX && y <= BOTTOM_PX) {
                svg.add("<path class=\"level\" d=\"M%d %sH%d\"/>", axis.leftPx(), Svg.px(y), axis.rightPx());
                int below = y < TOP_PX + 18 || level.isRight() && y < BOTTOM_PX - 18 ? 15 : -5;
                svg.add("<text class=\"end\" x=\"%d\" y=\"%s\">", axis.rightPx() - 6, Svg.px(y + below));
                svg.add("%s</text>", level.label());
            }
        }
    }

    /** Writes each line's name beside its end. Names that would overlap move apart. */
    private void labels(Svg svg, TimeAxis axis, List<Label> labels) {
        double[] top = new double[labels.size()];
        List<Label> sorted =
                labels.stream().sorted(Comparator.comparingDouble(Label::yPx)).toList();
        double next = TOP_PX - 6;
        for (int i = 0; i < top.length; i++) {
            top[i] = Math.max(next, sorted.get(i).yPx() - sorted.get(i).heightPx() / 2);
            next = top[i] + sorted.get(i).heightPx();
        }
        double limit = BOTTOM_PX + 8;
        for (int i = top.length - 1; i >= 0; i--) {
            top[i] = Math.min(top[i], limit - sorted.get(i).heightPx());
            limit = top[i];
        }
        int x = axis.rightPx() + (rightUnit.isEmpty() ? 8 : TimeAxis.AXIS_PX);
        for (int i = 0; i < top.length; i++) {
            Label label = sorted.get(i);
            double y = top[i] + 11;
            String dash = DASHES.get(label.number() - 1);
            svg.add("<g><title>%s</title>", lines.get(label.number() - 1).meaning());
            svg.add("<path class=\"sample l%d\" stroke-dasharray=\"%s\" ", label.number(), dash);
            svg.add("d=\"M%d %sh%d\"/>", x, Svg.px(y - 4), SAMPLE_PX);
            for (String words : label.words()) {
                svg.add("<text x=\"%d\" y=\"%s\">%s</text>", x + SAMPLE_PX + 5, Svg.px(y), words);
                y += LABEL_LINE_PX;
            }
            svg.raw("</g>");
        }
    }
}
