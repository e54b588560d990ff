package sprag.bench.review.finding;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/** FindingNumbers as people read them, and as a finding carries them. */
public final class FindingNumbers {
    private FindingNumbers() {}

    /** A number to four significant digits, without exponent and without trailing zeros: 0.29957 becomes 0.2996.
     *
     * @param value any number
     * @return text
     */
    public static String text(double value) {
        if (Double.isNaN(value)) {
            return "unknown";
        }
        if (Double.isInfinite(value)) {
            return "infinite";
        }
        if (value == 0) {
            return "0";
        }
        int digitsBefore = (int) Math.floor(Math.log10(Math.abs(value))) + 1;
        int decimals = Math.max(0, Math.min(9, 4 - digitsBefore));
        String plain = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return plain.indexOf('.') < 0 ? plain : plain.replaceAll("0+$", "").replaceAll("\\.$", "");
    }

    /** A number with its unit.
     *
     * @param value any number
     * @param unit its symbol, empty for a pure number
     * @return text such as {@code 4.2 A}
     */
    public static String text(double value, String unit) {
        return unit.isEmpty() || Double.isNaN(value) || Double.isInfinite(value)
                ? text(value)
                : text(value) + " " + unit;
    }

    /** Pairs of names and numbers as a map that keeps their order.
     *
     * @param namesAndNumbers a name, a number, a name, a number ...
     * @return the map
     */
    public static Map<String, Double> of(Object... namesAndNumbers) {
        Map<String, Double> map = new LinkedHashMap<>();
        for (int i = 0; i < namesAndNumbers.length; i += 2) {
            map.put((String) namesAndNumbers[i], ((Number) namesAndNumbers[i + 1]).doubleValue());
        }
        return map;
    }
}
