package sprag.bench.car;

import java.util.Arrays;

/** Gives back what was put in a fixed time ago, to the millisecond. */
final class DelayLine {
    private final double[] ring;
    private long lastMs = -1;

    DelayLine(int delayMs) {
        ring = new double[delayMs + 1];
    }

    /** Puts what is true now and gives what was true then; before that, the first there was. */
    double pass(double value, long nowMs) {
        if (lastMs < 0) {
            Arrays.fill(ring, value);
        }
        long from = lastMs < 0 ? nowMs : Math.max(lastMs + 1, nowMs - ring.length + 1);
        for (long t = from; t <= nowMs; t++) {
            ring[(int) (t % ring.length)] = value;
        }
        lastMs = nowMs;
        return ring[(int) ((nowMs + 1) % ring.length)];
    }
}
