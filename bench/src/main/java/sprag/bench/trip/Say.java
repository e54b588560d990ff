package sprag.bench.trip;

import java.util.Locale;

/** How the figures of a trip are written: as many decimals as they deserve. */
final class Say {
    private static final double S_PER_H = 3600;

    private Say() {}

    /** A number with fixed decimals; a word when it is unknown. */
    static String number(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return "unknown";
        }
        String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
        boolean isNothing = text.matches("-0(\\.0*)?");
        return isNothing ? text.substring(1) : text;
    }

    /** A number with its unit; no unit follows what is unknown. */
    static String number(double value, int decimals, String unit) {
        return Double.isFinite(value) ? number(value, decimals) + " " + unit : "unknown";
    }

    /** A duration, e.g. {@code 22:49} or {@code 7:59:00}. */
    static String minutes(double seconds) {
        if (!Double.isFinite(seconds)) {
            return "unknown";
        }
        long whole = Math.round(seconds);
        return seconds < S_PER_H
                ? String.format(Locale.ROOT, "%d:%02d min", whole / 60, whole % 60)
                : String.format(Locale.ROOT, "%d:%02d h", whole / 3600, whole % 3600 / 60);
    }

    /** A share in percent. */
    static String percent(double share, int decimals) {
        return number(100 * share, decimals, "%");
    }
}
