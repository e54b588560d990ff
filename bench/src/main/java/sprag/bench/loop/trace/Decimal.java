package sprag.bench.loop.trace;

/** Writes numbers quickly and short: four decimals at most, no trailing zeros, no exponent for common sizes. */
final class Decimal {
    private static final double SCALE = 10_000;
    private static final double LARGEST = 1e12;

    private Decimal() {}

    /** Appends a number; a NaN or an infinity as Java spells it. */
    static void append(StringBuilder to, double value) {
        if (!(Math.abs(value) < LARGEST)) {
            to.append(value);
            return;
        }
        long scaled = Math.round(value * SCALE);
        if (scaled < 0) {
            to.append('-');
            scaled = -scaled;
        }
        to.append(scaled / (long) SCALE);
        long rest = scaled % (long) SCALE;
        if (rest == 0) {
            return;
        }
        to.append('.');
        for (long digit = (long) SCALE / 10; rest > 0; digit /= 10) {
            to.append((char) ('0' + rest / digit));
            rest %= digit;
        }
    }
}
