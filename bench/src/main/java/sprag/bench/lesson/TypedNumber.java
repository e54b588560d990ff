package sprag.bench.lesson;

import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number as a pupil types it, with or without its unit.
 *
 * @param value the number, NaN when there is none
 * @param trouble what is said when it cannot be taken as it stands, else empty
 */
record TypedNumber(double value, String trouble) {
    private static final Pattern SHAPE =
            Pattern.compile("([-+]?[0-9]*[.,]?[0-9]+(?:[eE][-+]?[0-9]{1,2})?)(?![0-9.,])(.*)");
    /** 2,500 is two and a half to one reader, and two and a half thousand to another. */
    private static final Pattern TWO_MEANINGS = Pattern.compile("[-+]?[1-9][0-9]{0,2}(,[0-9]{3})+(?![0-9.,]).*");

    private static final Map<String, String> UNITS = Map.of(
            "microfarad",
            "uf",
            "ampere",
            "a",
            "amp",
            "a",
            "volt",
            "v",
            "second",
            "s",
            "sec",
            "s",
            "millisecond",
            "ms",
            "watt",
            "w",
            "kiloohm",
            "kohm",
            "degree",
            "°c");

    /** Reads it.
     *
     * @param unit the symbol of the unit that is asked for; empty when there is none to compare with
     */
    static TypedNumber of(String typed, String unit) {
        if (TWO_MEANINGS.matcher(typed).matches()) {
            return new TypedNumber(
                    Double.NaN, "A comma can mean two things there. Type the number with a decimal point.");
        }
        Matcher found = SHAPE.matcher(typed);
        if (!found.matches()) {
            String shown = typed.substring(0, Math.min(40, typed.length())).replaceAll("\\p{Cntrl}", "?");
            return new TypedNumber(
                    Double.NaN, "\"" + shown + "\" is no number. Type it with a decimal point, such as 3.7.");
        }
        String said = plain(found.group(2));
        boolean fits = unit.isEmpty() || said.isEmpty() || said.equals(plain(unit));
        return new TypedNumber(
                Double.parseDouble(found.group(1).replace(',', '.')),
                fits ? "" : "It is asked for in " + unit + ". Type the number in that unit.");
    }

    /** A unit by its symbol, small and without the letters that look different on each keyboard. */
    private static String plain(String unit) {
        String small = unit.strip()
                .toLowerCase(Locale.ROOT)
                .replace('\u00b5', 'u')
                .replace('\u03bc', 'u')
                .replace("\u03c9", "ohm");
        String one = small.length() > 3 && small.endsWith("s") ? small.substring(0, small.length() - 1) : small;
        return UNITS.getOrDefault(one, one);
    }
}
