package sprag.bench.page;

import java.util.List;
import java.util.Locale;

/**
 * What happens over time, drawn behind every line of a plot.
 *
 * @param bands the states, each as long as it lasts
 */
public record TimeMarks(List<Band> bands, List<Event> events) {
    private static final double TOGETHER_PX = 7;

    /**
     * A state.
     *
     * @param fromMs when it begins
     * @param toMs when it ends
     * @param style the number of its colour in the style sheet
     */
    public record Band(double fromMs, double toMs, int style, String name) {}

    /** What sort of event it is. Each has a sign of its own shape. */
    public enum Kind {
        /** The state changed: a line and no sign. */
        STATE(""),
        /** An interlock began to act: a triangle. */
        INTERLOCK("M-5 5h10l-5 -10z"),
        /** A fault was injected: a diamond. */
        FAULT("M0 -6l5 6l-5 6l-5 -6z");

        private final String sign;

        Kind(String sign) {
            this.sign = sign;
        }
    }

    /**
     * An event.
     *
     * @param atMs when
     */
    public record Event(double atMs, Kind kind, String words) {}

    /** Draws the bands and the events behind what is drawn next. The signs stand just above the top. */
    public void draw(Svg svg, TimeAxis axis, int topPx, int bottomPx) {
        for (Band band : bands) {
            if (band.toMs() > axis.fromMs() && band.fromMs() < axis.toMs()) {
                double fromPx = axis.x(Math.max(band.fromMs(), axis.fromMs()));
                double widthPx = Math.max(0.5, axis.x(Math.min(band.toMs(), axis.toMs())) - fromPx);
                svg.add("<rect class=\"band state%d\" x=\"%s\" ", band.style(), Svg.px(fromPx));
                svg.add("y=\"%d\" width=\"%s\" ", topPx, Svg.px(widthPx));
                svg.add("height=\"%d\"><title>%s</title></rect>", bottomPx - topPx, band.name());
            }
        }
        for (Kind kind : Kind.values()) {
            double lastPx = Double.NEGATIVE_INFINITY;
            StringBuilder words = new StringBuilder();
            for (Event event : events) {
                if (event.kind() == kind && event.atMs() >= axis.fromMs() && event.atMs() <= axis.toMs()) {
                    double px = axis.x(event.atMs());
                    if (px - lastPx > TOGETHER_PX) {
                        sign(svg, kind, lastPx, words, topPx, bottomPx);
                        lastPx = px;
                        words.setLength(0);
                    }
                    words.append(words.length() == 0 ? "" : "\n").append(event.words());
                }
            }
            sign(svg, kind, lastPx, words, topPx, bottomPx);
        }
    }

    /** Events that stand too close to be told apart share one mark with the words of all. */
    private static void sign(Svg svg, Kind kind, double px, StringBuilder words, int topPx, int bottomPx) {
        if (words.length() > 0) {
            svg.add("<g class=\"event %s\">", kind.name().toLowerCase(Locale.ROOT));
            svg.add("<title>%s</title><path class=\"at\" d=\"M%s %dV%d\"/>", words, Svg.px(px), topPx, bottomPx);
            if (!kind.sign.isEmpty()) {
                svg.add("<path transform=\"translate(%s %d)\" d=\"%s\"/>", Svg.px(px), topPx - 7, kind.sign);
            }
            svg.raw("</g>");
        }
    }
}
