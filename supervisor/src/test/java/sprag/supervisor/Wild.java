package sprag.supervisor;

import java.util.Random;

/** Values for tests that sweep a whole domain: inside, at and beyond the ends, and what is no number. */
public final class Wild {
    private static final double[] ODD = {
        Double.NaN,
        Double.POSITIVE_INFINITY,
        Double.NEGATIVE_INFINITY,
        0,
        -0.0,
        Double.MAX_VALUE,
        -Double.MAX_VALUE,
        Double.MIN_VALUE
    };

    private Wild() {}

    /** Mostly within the range, at times at its ends, beyond them or odd. */
    public static double of(Random random, double min, double max) {
        return switch (random.nextInt(10)) {
            case 0 -> ODD[random.nextInt(ODD.length)];
            case 1 -> random.nextBoolean() ? min : max;
            case 2 -> min + (random.nextDouble() * 3 - 1) * (max - min);
            default -> min + random.nextDouble() * (max - min);
        };
    }

    public static double aSwitch(Random random) {
        int pick = random.nextInt(12);
        return pick == 0 ? Double.NaN : pick == 1 ? 0.5 : pick % 2;
    }
}
