package sprag.bench.review.page;

import java.util.Locale;
import sprag.bench.page.Html;

/** Symbols of our own drawing, in the manner of IEC 60617; each is drawn around a point, with leads 30 units either way. */
final class Symbols {
    private Symbols() {}

    private static String at(double x, double y, String body) {
        return String.format(Locale.ROOT, "<g transform=\"translate(%.0f %.0f)\">%s</g>%n", x, y, body);
    }

    /** A straight conductor. */
    static String line(double x1, double y1, double x2, double y2) {
        return String.format(Locale.ROOT, "<path class=\"wire\" d=\"M%.0f %.0f L%.0f %.0f\"/>%n", x1, y1, x2, y2);
    }

    /** A joint. */
    static String joint(double x, double y) {
        return String.format(Locale.ROOT, "<circle class=\"joint\" cx=\"%.0f\" cy=\"%.0f\" r=\"4\"/>%n", x, y);
    }

    /** Cells: long and short plates. */
    static String battery(double x, double y) {
        return at(
                x, y, "<path class=\"sym\" d=\"M-30 0 H-15 M-15 -18 V18 M-7 -9 V9 M3 -18 V18 M11 -9 V9 M11 0 H30\"/>");
    }

    /** A rectangle with the conductor through it. */
    static String fuse(double x, double y) {
        return at(x, y, "<path class=\"sym\" d=\"M-30 0 H30 M-18 -8 H18 V8 H-18 Z\"/>");
    }

    /** A rectangle. */
    static String resistor(double x, double y) {
        return at(x, y, "<path class=\"sym\" d=\"M-30 0 H-18 M18 0 H30 M-18 -8 H18 V8 H-18 Z\"/>");
    }

    /** A resistor with two taps. */
    static String shunt(double x, double y) {
        return at(
                x,
                y,
                "<path class=\"sym\" d=\"M-30 0 H-18 M18 0 H30 M-18 -6 H18 V6 H-18 Z M-12 6 V20 M12 6 V20\"/>"
                        + "<circle class=\"joint\" cx=\"-12\" cy=\"22\" r=\"2.5\"/>"
                        + "<circle class=\"joint\" cx=\"12\" cy=\"22\" r=\"2.5\"/>");
    }

    /** A make contact of a contactor: the half circle at the fixed side tells it from a relay's. */
    static String contactor(double x, double y) {
        return at(x, y, "<path class=\"sym\" d=\"M-30 0 H-14 L14 -16 M14 0 H30 M14 0 a5 5 0 0 1 -10 0\"/>");
    }

    /** A make contact. */
    static String contact(double x, double y) {
        return at(x, y, "<path class=\"sym\" d=\"M-30 0 H-14 L14 -16 M14 0 H30\"/>");
    }

    /** A break contact that a person opens: the cut-off. */
    static String cutOff(double x, double y) {
        return at(
                x,
                y,
                "<path class=\"sym\" d=\"M-30 0 H-14 L16 -10 M14 -12 V0 H30 M0 -6 V-20 M-9 -20 a9 7 0 0 1 18 0 Z\"/>");
    }

    /** A converter: a square with a diagonal and what comes in and goes out. */
    static String converter(double x, double y, String in, String out) {
        return at(
                x,
                y,
                "<path class=\"sym\" d=\"M-24 -24 H24 V24 H-24 Z M-24 24 L24 -24\"/>" + word(-10, -6, in)
                        + word(10, 18, out));
    }

    /** A machine: a circle. */
    static String motor(double x, double y) {
        return at(x, y, "<circle class=\"sym\" r=\"26\"/>" + word(0, -1, "M") + word(0, 15, "3~"));
    }

    /** A heating element: a resistor in four parts. */
    static String heater(double x, double y) {
        return at(x, y, "<path class=\"sym\" d=\"M-24 -10 H24 V10 H-24 Z M-12 -10 V10 M0 -10 V10 M12 -10 V10\"/>");
    }

    /** A socket of the inlet. */
    static String inlet(double x, double y) {
        return at(
                x,
                y,
                "<path class=\"sym\" d=\"M-16 -12 a16 16 0 0 0 32 0\"/><circle class=\"joint\" cy=\"-8\" r=\"3\"/>");
    }

    /** The body of the car. */
    static String chassis(double x, double y) {
        return at(x, y, "<path class=\"sym\" d=\"M0 -14 V0 M-16 0 H16 M-12 0 l-6 9 M0 0 l-6 9 M12 0 l-6 9\"/>");
    }

    /** Capacitors of the bus. */
    static String capacitor(double x, double y) {
        return at(x, y, "<path class=\"sym\" d=\"M0 -22 V-4 M-14 -4 H14 M-14 4 H14 M0 4 V22\"/>");
    }

    /** A box for anything else. */
    static String box(double x, double y, double width, String words) {
        return at(
                x,
                y,
                String.format(
                                Locale.ROOT,
                                "<rect class=\"sym\" x=\"%.0f\" y=\"-20\" width=\"%.0f\" height=\"40\" rx=\"4\"/>",
                                -width / 2,
                                width)
                        + word(0, 5, words));
    }

    /** Words in the middle of a point. */
    static String word(double x, double y, String words) {
        return String.format(
                Locale.ROOT, "<text class=\"in\" x=\"%.0f\" y=\"%.0f\">%s</text>", x, y, Html.escape(words));
    }

    /** A label. */
    static String label(double x, double y, String words) {
        return String.format(
                Locale.ROOT, "<text class=\"label\" x=\"%.0f\" y=\"%.0f\">%s</text>%n", x, y, Html.escape(words));
    }
}
