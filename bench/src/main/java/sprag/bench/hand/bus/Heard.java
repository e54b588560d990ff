package sprag.bench.hand.bus;

import sprag.hal.bus.CanFrame;

/** What was heard of one identifier. */
final class Heard {
    private static final double NS_PER_MS = 1e6;

    final CanFrame last = new CanFrame();
    long total;
    long lastNs;
    /** Bit {@code i} is set when byte {@code i} has changed since the last look. */
    int changed;

    private long intervals;
    private long shortestNs = Long.MAX_VALUE;
    private long longestNs;
    private long spanNs;

    void add(CanFrame frame, long nowNs) {
        if (total > 0) {
            long intervalNs = nowNs - lastNs;
            intervals++;
            spanNs += intervalNs;
            shortestNs = Math.min(shortestNs, intervalNs);
            longestNs = Math.max(longestNs, intervalNs);
            for (int i = 0; i < CanFrame.MOST_BYTES; i++) {
                changed |= frame.data()[i] != last.data()[i] ? 1 << i : 0;
            }
        }
        total++;
        lastNs = nowNs;
        last.copyFrom(frame);
    }

    /** Frames a second since the last look, NaN when there was no interval. */
    double rateHz() {
        return intervals == 0 ? Double.NaN : intervals * 1e9 / Math.max(1, spanNs);
    }

    /** From the shortest interval to the longest since the last look. */
    double jitterMs() {
        return intervals == 0 ? Double.NaN : (longestNs - shortestNs) / NS_PER_MS;
    }

    void look() {
        changed = 0;
        intervals = 0;
        spanNs = 0;
        shortestNs = Long.MAX_VALUE;
        longestNs = 0;
    }
}
