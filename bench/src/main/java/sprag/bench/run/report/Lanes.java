package sprag.bench.run.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntPredicate;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.History;
import sprag.bench.page.Html;

/** Draws what is either on or off over time: the state, the contactors, who asked for what. */
final class Lanes {
    private static final int LANE_PX = 30;
    private static final int BAR_PX = 12;
    private static final double LETTER_PX = 6.4;

    private final History history;
    private final Channels channels;
    private final double startMs;
    private final double spanMs;

    private record Lane(String label, List<long[]> command, List<long[]> truth) {}

    Lanes(History history) {
        this.history = history;
        this.channels = history.channels();
        this.startMs = history.timeMs(0);
        this.spanMs = Math.max(1, history.timeMs(history.size() - 1) - startMs);
    }

    /** The state band and the lanes as one {@code svg} element; times stand below those of the plots. */
    String svg(int widthPx) {
        List<Lane> lanes = lanes();
        int leftPx = Plots.MARGIN_PX;
        int heightPx = 30 + lanes.size() * LANE_PX + 4;
        StringBuilder svg = new StringBuilder();
        svg.append(format("<svg role='img' aria-label='States and contactors over time' "));
        svg.append(format("viewBox='0 0 %d %d'>", widthPx, heightPx));
        double plotPx = widthPx - leftPx - Plots.MARGIN_PX;
        states(svg, leftPx, plotPx);
        int topPx = 28;
        for (Lane lane : lanes) {
            int barPx = topPx + 15;
            int railPx = barPx + BAR_PX;
            double rightPx = leftPx + plotPx;
            svg.append(format("<text x='%d' y='%d'>%s</text>", leftPx, topPx + 12, Html.escape(lane.label())));
            svg.append(format("<path class='rail' d='M%d %dH%.1f'/>", leftPx, railPx, rightPx));
            bars(svg, lane.command(), leftPx, plotPx, new int[] {barPx, BAR_PX}, "asked");
            bars(svg, lane.truth(), leftPx, plotPx, new int[] {barPx + 4, 4}, "closed");
            topPx += LANE_PX;
        }
        return svg.append("</svg>").toString();
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
        List<long[]> command = asked < 0 ? List.of() : spans(row -> history.value(row, asked) > 0);
        List<long[]> seen = closed < 0 ? List.of() : spans(row -> history.value(row, closed) > 0);
        if (!command.isEmpty() || !seen.isEmpty()) {
            lanes.add(new Lane(label, command, seen));
        }
    }

    private List<long[]> spans(IntPredicate on) {
        List<long[]> spans = new ArrayList<>();
        for (int row = 0; row < history.size(); row++) {
            boolean begins = on.test(row) && (row == 0 || !on.test(row - 1));
            if (begins) {
                spans.add(new long[] {history.timeMs(row), history.timeMs(history.size() - 1)});
            } else if (!on.test(row) && row > 0 && on.test(row - 1)) {
                spans.get(spans.size() - 1)[1] = history.timeMs(row);
            }
        }
        return spans;
    }

    private void states(StringBuilder svg, int leftPx, double plotPx) {
        int from = 0;
        for (int row = 1; row <= history.size(); row++) {
            boolean ends = row == history.size() || history.state(row) != history.state(from);
            if (ends) {
                long toMs = history.timeMs(Math.min(row, history.size() - 1));
                state(svg, history.state(from), x(history.timeMs(from), leftPx, plotPx), x(toMs, leftPx, plotPx));
                from = row;
            }
        }
    }

    private void state(StringBuilder svg, int state, double fromPx, double toPx) {
        String name = Html.escape(channels.states().get(state));
        double widthPx = Math.max(1, toPx - fromPx);
        svg.append(format("<g class='state%d'><title>%s</title>", state, name));
        svg.append(format("<rect x='%.1f' y='2' width='%.1f' height='22'/>", fromPx, widthPx));
        String shown =
                name.length() * LETTER_PX < widthPx ? name.replace('_', ' ').toLowerCase(Locale.ROOT) : "";
        if (!shown.isEmpty()) {
            svg.append(format("<text x='%.1f' y='17' text-anchor='middle'>%s</text>", fromPx + widthPx / 2, shown));
        }
        svg.append("</g>");
    }

    private void bars(StringBuilder svg, List<long[]> spans, int leftPx, double plotPx, int[] yPx, String style) {
        for (long[] span : spans) {
            double fromPx = x(span[0], leftPx, plotPx);
            double widthPx = Math.max(1, x(span[1], leftPx, plotPx) - fromPx);
            svg.append(format("<rect class='%s' x='%.1f' y='%d' ", style, fromPx, yPx[0]));
            svg.append(format("width='%.1f' height='%d'/>", widthPx, yPx[1]));
        }
    }

    private double x(long timeMs, int leftPx, double plotPx) {
        return leftPx + (timeMs - startMs) / spanMs * plotPx;
    }

    private static String format(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }
}
