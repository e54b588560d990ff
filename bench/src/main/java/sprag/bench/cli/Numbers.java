package sprag.bench.cli;

import java.util.Locale;
import sprag.supervisor.vocabulary.Unit;

/** How the bench prints numbers: few digits, no exponent, a decimal point whatever the language of the machine. */
public final class Numbers {
    private static final int SIGNIFICANT_DIGITS = 4;
    private static final int MOST_DECIMALS = 6;
    private static final long TRACE_SCALE = 10_000;
    private static final double TRACE_LARGEST = 1e12;

    private Numbers() {}

    /** A value with its unit. For example {@code 93.2 V}, {@code on}, {@code unknown}. */
    public static String show(double value, Unit unit) {
        if (unit == Unit.SWITCH && !Double.isNaN(value)) {
            return value != 0 ? "on" : "off";
        }
        return text(value, symbol(unit));
    }

    /**
     * A number with the symbol of its unit.
     *
     * @param symbol of the unit, empty for a pure number
     * @return for example {@code 4.2 A}; no symbol follows what is unknown or infinite
     */
    public static String text(double value, String symbol) {
        return symbol.isEmpty() || !Double.isFinite(value) ? text(value) : text(value) + " " + symbol;
    }

    /**
     * A number with four significant digits, at most six of them decimals, and no zeros at its end. For example {@code
     * 0.2996} for 0.29957; a whole number keeps all its digits.
     */
    public static String text(double value) {
        if (!Double.isFinite(value)) {
            return Double.isNaN(value) ? "unknown" : value > 0 ? "infinite" : "-infinite";
        }
        int before = value == 0 ? 1 : (int) Math.floor(Math.log10(Math.abs(value))) + 1;
        int decimals = Math.max(0, Math.min(MOST_DECIMALS, SIGNIFICANT_DIGITS - before));
        String plain = String.format(Locale.ROOT, "%." + decimals + "f", value);
        String brief = plain.indexOf('.') < 0 ? plain : plain.replaceAll("\\.?0+$", "");
        return brief.equals("-0") ? "0" : brief;
    }

    /**
     * Appends a number to a line of a trace: at most four decimals. Written by hand because a trace has millions of them.
     *
     * @param value the number; a NaN, an infinity or a number from 1e12 on stands there as Java writes it
     */
    public static void append(StringBuilder to, double value) {
        if (!(Math.abs(value) < TRACE_LARGEST)) {
            to.append(value);
            return;
        }
        long scaled = Math.round(value * TRACE_SCALE);
        if (scaled < 0) {
            to.append('-');
        }
        to.append(Math.abs(scaled) / TRACE_SCALE);
        int rest = (int) (Math.abs(scaled) % TRACE_SCALE);
        if (rest != 0) {
            to.append('.');
            decimals(to, rest);
        }
    }

    /** Up to four decimals without the zeros at their end. */
    private static void decimals(StringBuilder to, int tenThousandths) {
        to.append((char) ('0' + tenThousandths / 1000));
        if (tenThousandths % 1000 != 0) {
            to.append((char) ('0' + tenThousandths / 100 % 10));
        }
        if (tenThousandths % 100 != 0) {
            to.append((char) ('0' + tenThousandths / 10 % 10));
        }
        if (tenThousandths % 10 != 0) {
            to.append((char) ('0' + tenThousandths % 10));
        }
    }

    /**
     * The symbol of a unit as people write it behind a number. For example {@code V}, {@code km/h}; empty for a pure
     * number.
     */
    public static String symbol(Unit unit) {
        return switch (unit) {
            case VOLT, AMPERE, JOULE, WATT -> unit.symbol.toUpperCase(Locale.ROOT);
            case NEWTON_METRE -> "Nm";
            case CELSIUS -> "°C";
            case MICROFARAD -> "µF";
            case AMPERE_HOUR -> "Ah";
            case KPH -> "km/h";
            case MPS2 -> "m/s²";
            default -> unit.symbol;
        };
    }
}
