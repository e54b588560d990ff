package sprag.bench.page;

import java.util.Set;

/**
 * The time axis of a drawing. All drawings of one stretch of time use the same, so that equal times stand below each other.
 *
 * @param unitMs how long that unit is
 * @param isWide whether it is for a wide screen and for paper; otherwise it is for a telephone
 */
public record TimeAxis(double fromMs, double toMs, String unit, double unitMs, boolean isWide) {
    private static final int WIDE_PX = 1016;
    private static final int NARROW_PX = 368;
    private static final int WIDE_LEFT_PX = 58;
    private static final int NARROW_LEFT_PX = 44;
    /** Room for the numbers of an axis at the right. */
    static final int AXIS_PX = 46;

    private static final int LABELS_PX = 160;

    /** What the values are drawn over, to end a title: time, or nothing when the unit is none of time. */
    String over() {
        return Set.of("ms", "s", "min", "h").contains(unit) ? " over time" : "";
    }

    /** The width of the whole drawing. */
    public int widthPx() {
        return isWide ? WIDE_PX : NARROW_PX;
    }

    /** Where the time begins. */
    public int leftPx() {
        return isWide ? WIDE_LEFT_PX : NARROW_LEFT_PX;
    }

    /** Where the time ends. */
    public int rightPx() {
        return widthPx() - AXIS_PX - (isWide ? LABELS_PX : 0);
    }

    /** Where a time stands.
     *
     * @param ms a time between the ends
     * @return pixels from the left edge of the drawing
     */
    public double x(double ms) {
        return leftPx() + (ms - fromMs) / (toMs - fromMs) * (rightPx() - leftPx());
    }

    /**
     * A drawing on this axis. The attributes let the page's script turn a place into a time. Returns a drawing without
     * content.
     */
    public Svg drawing(String label, int heightPx) {
        return new Svg("plot", label, widthPx(), heightPx)
                .with("tabindex", 0)
                .with("data-left", leftPx())
                .with("data-right", rightPx())
                .with("data-from", fromMs / unitMs)
                .with("data-to", toMs / unitMs)
                .with("data-unit", unit)
                .begin();
    }

    /** Draws the numbers and the vertical grid. */
    void draw(Svg svg, double topPx, double bottomPx) {
        Scale scale = Scale.between(fromMs / unitMs, toMs / unitMs, isWide ? 12 : 5);
        for (double tick : scale.ticks()) {
            String x = Svg.px(x(tick * unitMs));
            svg.add("<path class=\"grid\" d=\"M%s %sV%s\"/>", x, Svg.px(topPx), Svg.px(bottomPx));
            svg.add("<text class=\"mid\" x=\"%s\" y=\"%s\">%s</text>", x, Svg.px(bottomPx + 16), scale.text(tick));
        }
        svg.add("<text x=\"%d\" y=\"%s\">%s</text>", rightPx() + (isWide ? 12 : 16), Svg.px(bottomPx + 16), unit);
    }
}
