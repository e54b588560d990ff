package sprag.bench.evidence.margin;

import sprag.bench.cli.Numbers;
import sprag.bench.page.Svg;

/** Draws how a margin is spread: a bar for each class of margins, the limit at zero, and the car as it is drawn. */
final class Dots {
    private static final int WIDTH_PX = 340;
    private static final int HEIGHT_PX = 96;
    private static final int LEFT_PX = 8;
    private static final int BASE_PX = 74;
    private static final int BARS = 32;

    private Dots() {}

    /** The drawing; empty when there is nothing to draw. */
    static String svg(Spread spread) {
        double[] margins = spread.margins();
        if (margins.length == 0) {
            return "";
        }
        double low = Math.min(0, margins[0]);
        double high = Math.max(0, margins[margins.length - 1]);
        double span = high > low ? high - low : 1;
        int[] count = new int[BARS];
        for (double margin : margins) {
            count[Math.min(BARS - 1, (int) ((margin - low) / span * BARS))]++;
        }
        int most = 1;
        for (int each : count) {
            most = Math.max(most, each);
        }
        String label = "Margins of " + margins.length + " cars from " + text(margins[0], spread) + " to "
                + text(margins[margins.length - 1], spread);
        Svg svg = new Svg("plot", label, WIDTH_PX, HEIGHT_PX).begin();
        double barPx = (WIDTH_PX - 2.0 * LEFT_PX) / BARS;
        for (int bar = 0; bar < BARS; bar++) {
            if (count[bar] > 0) {
                double heightPx = Math.max(2, 56.0 * count[bar] / most);
                svg.add("<rect class=\"asked\" x=\"%s\" ", Svg.px(LEFT_PX + bar * barPx));
                svg.add("y=\"%s\" width=\"%s\" ", Svg.px(BASE_PX - heightPx), Svg.px(barPx - 1));
                svg.add("height=\"%s\"/>", Svg.px(heightPx));
            }
        }
        svg.add("<path class=\"axis\" d=\"M%d %dH%d\"/>", LEFT_PX, BASE_PX, WIDTH_PX - LEFT_PX);
        mark(svg, x(0, low, span), "limit", "axis");
        if (!Double.isNaN(spread.drawn())) {
            mark(svg, x(Math.max(low, Math.min(high, spread.drawn())), low, span), "", "line l2");
        }
        svg.add("<text x=\"%d\" y=\"%d\">%s</text>", LEFT_PX, BASE_PX + 17, low == 0 ? "" : text(low, spread));
        svg.add("<text class=\"end\" x=\"%d\" y=\"%d\">", WIDTH_PX - LEFT_PX, BASE_PX + 17);
        svg.add("%s</text>", high == 0 ? "" : text(high, spread));
        return svg.end();
    }

    private static double x(double value, double low, double span) {
        return LEFT_PX + (value - low) / span * (WIDTH_PX - 2.0 * LEFT_PX);
    }

    private static void mark(Svg svg, double xPx, String words, String style) {
        svg.add("<path class=\"%s\" d=\"M%s 14V%d\"/>", style, Svg.px(xPx), BASE_PX);
        boolean right = xPx > WIDTH_PX / 2.0;
        svg.add("<text class=\"%s\" x=\"%s\" y=\"11\">", right ? "end" : "", Svg.px(xPx));
        svg.add("%s</text>", words);
    }

    private static String text(double value, Spread spread) {
        return Numbers.text(value, spread.unit());
    }
}
