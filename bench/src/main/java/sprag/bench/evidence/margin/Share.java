package sprag.bench.evidence.margin;

import java.util.Locale;
import org.hipparchus.distribution.continuous.BetaDistribution;

/**
 * How many of a number of cars did something, and where the true share lies with a certainty of 95 %: the interval of Clopper and
 * Pearson (1934).
 */
record Share(int count, int of) {
    private static final double CERTAINTY = 0.95;
    private static final double ACCURACY = 1e-12;

    double value() {
        return (double) count / of;
    }

    /** The lower end of the interval. */
    double low() {
        return low(count, of, CERTAINTY);
    }

    /** The upper end of the interval. */
    double high() {
        return high(count, of, CERTAINTY);
    }

    static double low(int count, int of, double certainty) {
        return count == 0
                ? 0
                : new BetaDistribution(count, of - count + 1.0, ACCURACY)
                        .inverseCumulativeProbability((1 - certainty) / 2);
    }

    static double high(int count, int of, double certainty) {
        return count == of
                ? 1
                : new BetaDistribution(count + 1.0, of - count, ACCURACY)
                        .inverseCumulativeProbability(1 - (1 - certainty) / 2);
    }

    /** E.g. {@code 99.7 % (99.1 to 99.9 %)}. */
    String text() {
        return percent(value()) + " % (" + percent(low()) + " to " + percent(high()) + " %)";
    }

    /** A share in percent. What is not all and not none is never written as if it were. */
    static String percent(double share) {
        if (share == 0 || share == 1) {
            return share == 0 ? "0" : "100";
        }
        double percent = Math.max(0.01, Math.min(99.99, share * 100));
        return String.format(Locale.ROOT, percent < 0.1 || percent > 99.9 ? "%.2f" : "%.1f", percent);
    }
}
