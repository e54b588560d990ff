package sprag.bench.run.report;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Rectangle2D;
import java.util.Locale;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.svg.SVGGraphics2D;
import sprag.bench.loop.trace.History;
import sprag.bench.page.Html;

/** Draws plots as SVG that stands in the page and takes its colours from it, so that light and dark both read well. */
final class Plots {
    /** Room for the numbers of an axis; the lanes keep the same, so that times stand below each other. */
    static final int MARGIN_PX = 56;

    private static final Color AXIS = new Color(1, 1, 1);
    private static final Color GRID = new Color(2, 2, 2);
    private static final Color CLEAR = new Color(0, 0, 0, 0);
    private static final BasicStroke SOLID = new BasicStroke(1.5f);
    private static final BasicStroke DASHED =
            new BasicStroke(1.5f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, new float[] {5, 5}, 0);
    private static final int SERIES_RED = 3;
    private static final int HEIGHT_PX = 190;

    private final History history;
    private final RunTime unit;
    private final double start;
    private final double end;
    private int drawn;

    Plots(History history) {
        this.history = history;
        long startMs = history.timeMs(0);
        long endMs = Math.max(startMs + 1, history.timeMs(history.size() - 1));
        this.unit = RunTime.of(endMs - startMs);
        this.start = unit.onAxis(startMs);
        this.end = unit.onAxis(endMs);
    }

    /** A plot as an {@code svg} element. */
    String svg(PlotSpec spec, int widthPx) {
        XYPlot plot = new XYPlot();
        NumberAxis time = axis(unit.unit);
        time.setRange(start, end);
        plot.setDomainAxis(time);
        boolean twoAxes = !spec.rightUnit().isEmpty();
        layer(plot, spec, 0, widthPx);
        if (twoAxes) {
            layer(plot, spec, 1, widthPx);
        }
        look(plot, twoAxes);
        JFreeChart chart = new JFreeChart(null, null, plot, false);
        chart.setBackgroundPaint(null);
        chart.setPadding(RectangleInsets.ZERO_INSETS);
        SVGGraphics2D canvas = new SVGGraphics2D(widthPx, HEIGHT_PX);
        canvas.setGeomDoubleConverter(Plots::pixels);
        canvas.setTransformDoubleConverter(Plots::pixels);
        canvas.setDefsKeyPrefix("p" + ++drawn + "w" + widthPx);
        chart.draw(canvas, new Rectangle2D.Double(0, 0, widthPx, HEIGHT_PX));
        return themed(canvas.getSVGElement(), spec, widthPx);
    }

    private void layer(XYPlot plot, PlotSpec spec, int index, int widthPx) {
        XYSeriesCollection data = new XYSeriesCollection();
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        for (PlotSpec.Series series : spec.series()) {
            if (series.right() == (index == 1)) {
                renderer.setSeriesPaint(data.getSeriesCount(), new Color(SERIES_RED, 0, series.colour()));
                renderer.setSeriesStroke(data.getSeriesCount(), series.dashed() ? DASHED : SOLID);
                data.addSeries(thinned(series, Math.max(100, widthPx / 3)));
            }
        }
        NumberAxis values = axis(index == 0 ? spec.unit() : spec.rightUnit());
        values.setAutoRangeIncludesZero(false);
        values.setAutoRangeMinimumSize(spec.unit().equals("share") ? 0.02 : 1);
        for (PlotSpec.Mark mark : spec.marks()) {
            if (mark.right() == (index == 1)) {
                plot.addRangeMarker(index, marker(mark), Layer.FOREGROUND);
            }
        }
        plot.setRangeAxis(index, values);
        plot.setDataset(index, data);
        plot.setRenderer(index, renderer);
        plot.mapDatasetToRangeAxis(index, index);
    }

    /** A line across the plot at a value that something hangs on. */
    private static ValueMarker marker(PlotSpec.Mark mark) {
        ValueMarker marker = new ValueMarker(mark.value(), AXIS, new BasicStroke(0.7f));
        marker.setLabel(mark.label());
        marker.setLabelOffset(new RectangleInsets(3, 3, 8, 3));
        marker.setLabelFont(new Font(Font.SANS_SERIF, Font.PLAIN, 11));
        marker.setLabelPaint(AXIS);
        marker.setLabelBackgroundColor(CLEAR);
        marker.setLabelAnchor(mark.right() ? RectangleAnchor.BOTTOM_RIGHT : RectangleAnchor.TOP_RIGHT);
        marker.setLabelTextAnchor(mark.right() ? TextAnchor.TOP_RIGHT : TextAnchor.BOTTOM_RIGHT);
        return marker;
    }

    private static NumberAxis axis(String label) {
        NumberAxis axis = new NumberAxis(label);
        axis.setLabelFont(new Font(Font.SANS_SERIF, Font.PLAIN, 11));
        axis.setTickLabelFont(new Font(Font.SANS_SERIF, Font.PLAIN, 11));
        axis.setLabelPaint(AXIS);
        axis.setTickLabelPaint(AXIS);
        axis.setAxisLinePaint(AXIS);
        axis.setTickMarkPaint(AXIS);
        return axis;
    }

    private static void look(XYPlot plot, boolean twoAxes) {
        plot.setBackgroundPaint(null);
        plot.setOutlineVisible(false);
        plot.setDomainGridlinePaint(GRID);
        plot.setRangeGridlinePaint(GRID);
        plot.setDomainGridlineStroke(new BasicStroke(0.7f));
        plot.setRangeGridlineStroke(new BasicStroke(0.7f));
        plot.setRangeZeroBaselineVisible(true);
        plot.setRangeZeroBaselinePaint(AXIS);
        plot.setInsets(RectangleInsets.ZERO_INSETS);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        AxisSpace space = new AxisSpace();
        space.setLeft(MARGIN_PX);
        space.setRight(MARGIN_PX);
        plot.setFixedRangeAxisSpace(space);
    }

    /** The lowest and the highest value of every short stretch of time, so that no peak is lost. */
    private XYSeries thinned(PlotSpec.Series from, int stretches) {
        XYSeries thin = new XYSeries(from.label(), false);
        double width = (end - start) / stretches;
        int row = 0;
        for (int stretch = 0; stretch <= stretches && row < history.size(); stretch++) {
            double until = start + (stretch + 1) * width;
            int low = row;
            int high = row;
            int first = row;
            for (; row < history.size() && unit.onAxis(history.timeMs(row)) < until; row++) {
                double value = history.value(row, from.column());
                low = !(value >= history.value(low, from.column())) ? row : low;
                high = !(value <= history.value(high, from.column())) ? row : high;
            }
            if (row > first) {
                add(thin, Math.min(low, high), from.column(), from.factor());
                if (low != high) {
                    add(thin, Math.max(low, high), from.column(), from.factor());
                }
            }
        }
        return thin;
    }

    private void add(XYSeries thin, int row, int column, double factor) {
        thin.add(unit.onAxis(history.timeMs(row)), factor * history.value(row, column), false);
    }

    private static String pixels(double px) {
        String text = String.format(Locale.ROOT, "%.1f", px);
        return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
    }

    /** Puts the page's colours in place of the stand-ins and leaves out what the page's style says anyway. */
    private static String themed(String svg, PlotSpec spec, int widthPx) {
        String themed = svg.replace("rgb(1,1,1)", "var(--axis)")
                .replace("rgb(2,2,2)", "var(--grid)")
                .replaceAll("rgb\\(" + SERIES_RED + ",0,(\\d+)\\)", "var(--s$1)")
                .replaceAll("(stroke|fill)-opacity: ?1.0;", "")
                .replaceAll("stroke-(linecap:square|miterlimit:10);", "")
                .replaceAll("shape-rendering:\\w+;?", "")
                .replaceAll("stroke-width:([0-9]+\\.[0-9])[0-9]*", "stroke-width:$1")
                .replaceAll(" ?font-family: sans-serif;", "")
                .replaceAll(" clip-path='url\\(#\\w+clip-0\\)'", "");
        String label = Html.escape(spec.title() + " over time");
        return themed.replaceFirst(
                "<svg [^>]*>",
                "<svg role='img' aria-label='" + label + "' viewBox='0 0 " + widthPx + " " + HEIGHT_PX + "'>");
    }
}
