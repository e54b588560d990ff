package sprag.bench.hand.commission;

import sprag.bench.cli.Numbers;

/**
 * A measured value and what it must be.
 *
 * @param name what was measured
 * @param value the value
 * @param unit its unit
 * @param min the least that is good
 * @param max the greatest that is good; infinite for none
 */
record Measure(String name, double value, String unit, double min, double max) {
    boolean isWithin() {
        return value >= min && value <= max;
    }

    /** E.g. {@code closes after: 30 ms (0 to 80 ms)}. */
    String text() {
        return name + ": " + Numbers.text(value) + " " + unit + " (" + limits() + ")";
    }

    /** E.g. {@code 0 to 80 ms}, {@code at least 54 kohm}. */
    String limits() {
        String range = Double.isInfinite(max)
                ? "at least " + Numbers.text(min)
                : Numbers.text(min) + " to " + Numbers.text(max);
        return range + " " + unit;
    }
}
