package sprag.bench.loop.trace;

import java.util.Locale;
import sprag.supervisor.vocabulary.Unit;

/** Numbers as people read them: few digits, the unit behind, the same in every language of the machine. */
public final class Numbers {
    private Numbers() {}

    /** A value with its unit.
     *
     * @param value the value
     * @param unit what it is measured in
     * @return for example {@code 93.2 V}, {@code on}, {@code unknown}
     */
    public static String show(double value, Unit unit) {
        if (Double.isNaN(value)) {
            return "unknown";
        }
        if (unit == Unit.SWITCH) {
            return value != 0 ? "on" : "off";
        }
        String symbol = symbol(unit);
        return symbol.isEmpty() ? brief(value) : brief(value) + " " + symbol;
    }

    /** A number with about four digits and no exponent where that is readable.
     *
     * @param value the number
     * @return its text, a decimal point whatever the machine's language
     */
    public static String brief(double value) {
        if (Double.isNaN(value)) {
            return "unknown";
        }
        if (Double.isInfinite(value)) {
            return value > 0 ? "infinite" : "-infinite";
        }
        double size = Math.abs(value);
        int digits = size >= 1000 ? 0 : size >= 100 ? 1 : size >= 1 ? 2 : 3;
        String text = String.format(Locale.ROOT, "%." + digits + "f", value);
        if (text.indexOf('.') >= 0) {
            text = text.replaceAll("0+$", "").replaceAll("\\.$", "");
        }
        return text.equals("-0") ? "0" : text;
    }

    /** The symbol of a unit as printed behind a number.
     *
     * @param unit the unit
     * @return for example {@code V}, {@code km/h}; empty for a pure number
     */
    public static String symbol(Unit unit) {
        return switch (unit) {
            case SWITCH, CHOICE, NUMBER -> "";
            case VOLT -> "V";
            case AMPERE -> "A";
            case NEWTON_METRE -> "Nm";
            case RPM -> "rpm";
            case CELSIUS -> "°C";
            case OHM -> "ohm";
            case KILO_OHM -> "kohm";
            case MICROFARAD -> "µF";
            case JOULE -> "J";
            case WATT -> "W";
            case AMPERE_HOUR -> "Ah";
            case MILLISECOND -> "ms";
            case SECOND -> "s";
            case MINUTE -> "min";
            case KPH -> "km/h";
            case METRE -> "m";
            case MPS2 -> "m/s²";
            case KILOGRAM -> "kg";
        };
    }
}
