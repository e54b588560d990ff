package sprag.bench.port.equal;

import java.util.SplittableRandom;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Readings that no car would give. Some signals are torn away from what they were, each for a while: unknown, infinite, beyond their
 * range, exactly at its ends, close to them, or anything within.
 */
final class Wild {
    private static final double MOST_AT_ONCE = 0.02;
    private static final int LONGEST_TICKS = 200;

    private final SplittableRandom chance;
    private final double share;
    private final double[] held = new double[Signal.COUNT];
    private final int[] leftTicks = new int[Signal.COUNT];

    /**
     * Begins with nothing torn away.
     *
     * @param seed where chance starts
     */
    Wild(long seed) {
        chance = new SplittableRandom(seed);
        share = MOST_AT_ONCE * chance.nextDouble() * chance.nextDouble();
    }

    /** Disturbs the readings of one tick. */
    void disturb(Readings in) {
        for (Signal signal : Signal.values()) {
            int i = signal.ordinal();
            if (leftTicks[i] == 0 && chance.nextDouble() < share) {
                leftTicks[i] = 1 + chance.nextInt(LONGEST_TICKS);
                held[i] = value(signal);
            }
            if (leftTicks[i] > 0) {
                leftTicks[i]--;
                in.set(signal, held[i]);
            }
        }
    }

    private double value(Signal signal) {
        double width = signal.max - signal.min;
        return switch (chance.nextInt(12)) {
            case 0 -> Double.NaN;
            case 1 -> Double.POSITIVE_INFINITY;
            case 2 -> Double.NEGATIVE_INFINITY;
            case 3 -> signal.min;
            case 4 -> signal.max;
            case 5 -> signal.max + width * chance.nextDouble();
            case 6 -> signal.min - width * chance.nextDouble();
            case 7 -> Math.nextUp(signal.max);
            case 8 -> (chance.nextDouble() - 0.5) * 1e300;
            case 9 -> -0.0;
            default -> signal.isSwitch() ? chance.nextInt(2) : signal.min + width * chance.nextDouble();
        };
    }
}
