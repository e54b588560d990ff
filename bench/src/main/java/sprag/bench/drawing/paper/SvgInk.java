package sprag.bench.drawing.paper;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import sprag.bench.page.Html;

/** Draws as SVG, one unit a millimetre. */
public final class SvgInk implements Ink {
    private final StringBuilder svg = new StringBuilder();

    /** Begins a drawing of a size (mm).
     *
     * @param label what it shows, for a reader who cannot see it
     */
    public SvgInk(String label, double widthMm, double heightMm) {
        svg.append(String.format(
                Locale.ROOT,
                "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"sheet\" role=\"img\" aria-label=\"%s\" width=\"%smm\""
                        + " height=\"%smm\" viewBox=\"0 0 %s %s\">\n",
                Html.escape(label),
                number(widthMm),
                number(heightMm),
                number(widthMm),
                number(heightMm)));
    }

    /** The style rules of the drawings. Returns rules for a style sheet, without the letters. */
    public static String style() {
        StringBuilder css = new StringBuilder("svg.sheet{background:#fff;font-family:" + SheetFont.FAMILY
                + ",\"Liberation Sans\",Arial,sans-serif}svg.sheet text{fill:#1c2126}"
                + "svg.sheet path,svg.sheet circle{stroke-linejoin:round;stroke-linecap:butt}\n");
        for (Pen pen : Pen.values()) {
            String dashes = join(pen.dashesMm());
            css.append("svg.sheet .")
                    .append(pen.style)
                    .append("{fill:none;stroke:")
                    .append(hex(pen.colour))
                    .append(";stroke-width:")
                    .append(number(pen.widthMm))
                    .append(dashes.isEmpty() ? "" : ";stroke-dasharray:" + dashes)
                    .append("}\n");
            if (pen.hasCore()) {
                css.append("svg.sheet .")
                        .append(pen.style)
                        .append("-core{fill:none;stroke:")
                        .append(hex(pen.coreColour))
                        .append(";stroke-width:")
                        .append(number(pen.coreWidthMm))
                        .append("}\n");
            }
        }
        for (Fill fill : Fill.values()) {
            css.append("svg.sheet .f-")
                    .append(fill.name().toLowerCase(Locale.ROOT))
                    .append("{fill:")
                    .append(fill == Fill.NONE ? "none" : hex(fill.colour))
                    .append("}\n");
        }
        return css.toString();
    }

    private static String join(double[] lengthsMm) {
        return java.util.Arrays.stream(lengthsMm).mapToObj(SvgInk::number).collect(Collectors.joining(" "));
    }

    @Override
    public void line(Pen pen, List<Point> points) {
        path(pen.style, "", points, "");
        if (pen.hasCore()) {
            path(pen.style + "-core", "", points, "");
        }
    }

    @Override
    public void shape(Pen pen, Fill fill, List<Point> points) {
        path(pen.style, fillClass(fill), points, "Z");
    }

    private void path(String style, String fill, List<Point> points, String close) {
        svg.append("<path class=\"").append(style).append(fill).append("\" d=\"");
        for (int i = 0; i < points.size(); i++) {
            Point point = points.get(i);
            svg.append(i == 0 ? "M" : "L").append(number(point.x())).append(' ').append(number(point.y()));
        }
        svg.append(close).append("\"/>\n");
    }

    @Override
    public void circle(Pen pen, Fill fill, Point centre, double radiusMm) {
        svg.append(String.format(
                Locale.ROOT,
                "<circle class=\"%s%s\" cx=\"%s\" cy=\"%s\" r=\"%s\"/>%n",
                pen.style,
                fillClass(fill),
                number(centre.x()),
                number(centre.y()),
                number(radiusMm)));
    }

    @Override
    public void text(Point at, double sizeMm, Anchor anchor, Fill colour, String words) {
        String place =
                anchor == Anchor.START ? "" : " text-anchor=\"" + anchor.name().toLowerCase(Locale.ROOT) + "\"";
        String fill = colour == Fill.INK ? "" : " class=\"f-" + colour.name().toLowerCase(Locale.ROOT) + "\"";
        svg.append("<text x=\"")
                .append(number(at.x()))
                .append("\" y=\"")
                .append(number(at.y()))
                .append("\" font-size=\"")
                .append(number(sizeMm))
                .append("\"")
                .append(place)
                .append(fill)
                .append(">")
                .append(Html.escape(words))
                .append("</text>\n");
    }

    @Override
    public void begin(String kind, String name, int net) {
        svg.append("<g class=\"").append(kind).append("\"");
        if (net >= 0) {
            svg.append(" data-net=\"").append(net).append("\"");
        }
        svg.append("><title>").append(Html.escape(name)).append("</title>\n");
    }

    @Override
    public void end() {
        svg.append("</g>\n");
    }

    /** Ends the drawing. Returns an {@code svg} element for a page that has the style rules. */
    public String inPage() {
        return svg + "</svg>\n";
    }

    /** Ends the drawing. Returns a file that stands alone. */
    public String alone() {
        int after = svg.indexOf("\n") + 1;
        return svg.substring(0, after) + "<style>" + SheetFont.styleRule() + style() + "</style>\n"
                + svg.substring(after) + "</svg>\n";
    }

    private static String fillClass(Fill fill) {
        return fill == Fill.NONE ? "" : " f-" + fill.name().toLowerCase(Locale.ROOT);
    }

    private static String hex(int colour) {
        return String.format(Locale.ROOT, "#%06x", colour);
    }

    /** At most two decimals. */
    private static String number(double value) {
        long hundredths = Math.round(value * 100);
        if (hundredths % 100 == 0) {
            return Long.toString(hundredths / 100);
        }
        return String.valueOf(hundredths / 100.0);
    }
}
