package sprag.bench.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A stretch of numbers with round steps.
 *
 * @param step the distance of the numbers that are written at an axis: 1, 2 or 5 times a power of ten
 */
record Scale(double low, double high, double step) {
    /** So much of a step may a value lie outside the ends: noise around zero shall not add a step below it. */
    private static final double TOLERATED = 0.02;

    /** A scale with exactly these ends. */
    static Scale between(double low, double high, int mostSteps) {
        double rough = (high - low) / mostSteps;
        double power = Math.pow(10, Math.floor(Math.log10(rough)));
        double step =
                rough <= power ? power : rough <= 2 * power ? 2 * power : rough <= 5 * power ? 5 * power : 10 * power;
        return new Scale(low, high, step);
    }

    /** A scale that holds these numbers, with ends on round steps.
     *
     * @param leastSpan how far its ends are apart at least, so that the noise of a steady value does not fill a plot
     */
    static Scale around(double low, double high, double leastSpan, int mostSteps) {
        double lack = Math.max(0, leastSpan - (high - low)) / 2;
        double step = between(low - lack, high + lack, mostSteps).step;
        double lowest = Math.floor((low - lack) / step + TOLERATED) * step;
        double highest = Math.ceil((high + lack) / step - TOLERATED) * step;
        return new Scale(lowest, highest, step);
    }

    /** The numbers that are written at the axis. */
    List<Double> ticks() {
        List<Double> ticks = new ArrayList<>();
        for (long n = (long) Math.ceil(low / step - 1e-9); n * step <= high + step * 1e-9; n++) {
            ticks.add(n * step);
        }
        return ticks;
    }

    /** How many decimals a number needs here. */
    int decimals() {
        return (int) Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
    }

    /** A number as it is written at the axis. */
    String text(double value) {
        return String.format(Locale.ROOT, "%." + decimals() + "f", value + 0.0);
    }
}
