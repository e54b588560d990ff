package sprag.bench.run.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntPredicate;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.History;
import sprag.bench.page.Svg;
import sprag.bench.page.TimeAxis;
import sprag.bench.page.TimeMarks;

/** Draws what is either on or off over time: the state, the contactors, and what the supervisor asked for. */
final class Lanes {
    private static final int LANE_PX = 31;
    private static final int BAR_PX = 12;
    private static final int TOP_PX = 44;
    private static final double LETTER_PX = 7.2;

    private final History history;
    private final Channels channels;
    private final TimeMarks marks;

    private record Span(double fromMs, double toMs) {}

    private record Lane(String label, List<Span> asked, List<Span> closed) {}

    Lanes(History history, TimeMarks marks) {
        this.history = history;
        this.channels = history.channels();
        this.marks = marks;
    }

    /** The states and the lanes as one {@code svg} element; times stand below those of the plots. */
    String svg(TimeAxis axis) {
        List<Lane> lanes = lanes();
        int heightPx = TOP_PX + lanes.size() * LANE_PX + 4;
        Svg svg = axis.drawing("States and contactors over time", heightPx);
        new TimeMarks(List.of(), marks.events()).draw(svg, axis, TOP_PX - 28, heightPx);
        marks.bands().forEach(band -> state(svg, axis, band));
        int topPx = TOP_PX;
        for (Lane lane : lanes) {
            int railPx = topPx + 15 + BAR_PX;
            svg.add("<text class=\"lane\" x=\"%d\" y=\"%d\">%s</text>", axis.leftPx() + 2, topPx + 12, lane.label());
            svg.add("<path class=\"rail\" d=\"M%d %dH%d\"/>", axis.leftPx(), railPx, axis.rightPx());
            bars(svg, axis, lane, Bar.ASKED, topPx);
            bars(svg, axis, lane, Bar.CLOSED, topPx);
            topPx += LANE_PX;
        }
        return svg.end();
    }

    private List<Lane> lanes() {
        List<Lane> lanes = new ArrayList<>();
        lane(lanes, "negative contactor", "negative_contactor", "negative_closed");
        lane(lanes, "precharge relay", "precharge_relay", "precharge_closed");
        lane(lanes, "positive contactor", "positive_contactor", "positive_closed");
        lane(lanes, "inverter", "inverter_enable", "");
        lane(lanes, "charger", "charger_enable", "station_closed");
        lane(lanes, "brake lamps", "brake_lamp", "");
        return lanes;
    }

    private void lane(List<Lane> lanes, String label, String output, String truth) {
        int asked = channels.indexOf(Source.OUTPUT, output);
        int closed = channels.indexOf(Source.QUANTITY, truth);
        Lane lane = new Lane(
                label,
                asked < 0 ? List.of() : spans(row -> history.value(row, asked) > 0),
                closed < 0 ? List.of() : spans(row -> history.value(row, closed) > 0));
        if (!lane.asked().isEmpty() || !lane.closed().isEmpty()) {
            lanes.add(lane);
        }
    }

    private List<Span> spans(IntPredicate isOn) {
        List<Span> spans = new ArrayList<>();
        int from = -1;
        for (int row = 0; row <= history.size(); row++) {
            boolean on = row < history.size() && isOn.test(row);
            if (on && from < 0) {
                from = row;
            } else if (!on && from >= 0) {
                int end = Math.min(row, history.size() - 1);
                spans.add(new Span(history.timeMs(from), history.timeMs(end)));
                from = -1;
            }
        }
        return spans;
    }

    private static void state(Svg svg, TimeAxis axis, TimeMarks.Band band) {
        double fromPx = axis.x(Math.max(band.fromMs(), axis.fromMs()));
        double widthPx = axis.x(Math.min(band.toMs(), axis.toMs())) - fromPx;
        if (band.toMs() < axis.fromMs() || band.fromMs() > axis.toMs()) {
            return;
        }
        String name = band.name().replace('_', ' ').toLowerCase(Locale.ROOT);
        svg.add("<g class=\"state%d\"><rect x=\"%s\" y=\"%d\" ", band.style(), Svg.px(fromPx), TOP_PX - 28);
        svg.add("width=\"%s\" height=\"22\"><title>%s</title></rect>", Svg.px(Math.max(1, widthPx)), band.name());
        if (name.length() * LETTER_PX < widthPx) {
            String middle = Svg.px(fromPx + widthPx / 2);
            svg.add("<text class=\"mid\" x=\"%s\" y=\"%d\">%s</text>", middle, TOP_PX - 12, name);
        }
        svg.raw("</g>");
    }

    /** The two bars of a lane, one drawn over the other. */
    private enum Bar {
        ASKED(15, BAR_PX, "asked for"),
        CLOSED(19, 4, "truly closed");

        final int belowTopPx;
        final int heightPx;
        final String words;

        Bar(int belowTopPx, int heightPx, String words) {
            this.belowTopPx = belowTopPx;
            this.heightPx = heightPx;
            this.words = words;
        }
    }

    private static void bars(Svg svg, TimeAxis axis, Lane lane, Bar bar, int topPx) {
        String style = bar.name().toLowerCase(Locale.ROOT);
        for (Span span : bar == Bar.ASKED ? lane.asked() : lane.closed()) {
            if (span.toMs() >= axis.fromMs() && span.fromMs() <= axis.toMs()) {
                double fromPx = axis.x(Math.max(span.fromMs(), axis.fromMs()));
                double widthPx = Math.max(1, axis.x(Math.min(span.toMs(), axis.toMs())) - fromPx);
                svg.add("<rect class=\"%s\" x=\"%s\" y=\"%d\" ", style, Svg.px(fromPx), topPx + bar.belowTopPx);
                svg.add("width=\"%s\" height=\"%d\">", Svg.px(widthPx), bar.heightPx);
                svg.add("<title>%s: %s</title></rect>", lane.label(), bar.words);
            }
        }
    }
}
