package sprag.bench.trip.drive;

import sprag.bench.trip.trace.SpeedTrace;

/**
 * Judges how well a speed trace is kept: 40 CFR 86.115 allows 2 mph above the highest and below the lowest speed of the trace within
 * one second, and more for less than two seconds on any occasion (wording of the sister sections 40 CFR 600.109 and 86.515).
 */
public final class Keeping {
    /** The tolerance: 2 mph. */
    static final double TOLERANCE_KPH = 2 * 1.609344;

    /** From here on an occasion is one too many. */
    static final double LONG_S = 2;

    private static final double WITHIN_S = 1;
    private static final double KPH_PER_MPS = 3.6;

    private final SpeedTrace trace;
    private int row;
    private double occasionS;

    /** How long the speed was outside, and how much of that with the pedal on the floor. */
    public double outsideS;

    public double outsideAtFullPedalS;
    /** Occasions of two seconds and more, and the longest of all. */
    public int longOccasions;

    public double longestS;
    /** The greatest distance to the tolerance. */
    double worstKph;

    Keeping(SpeedTrace trace) {
        this.trace = trace;
    }

    /** Judges one moment.
     *
     * @param forS the time until the next
     */
    void judge(double atS, double speedMps, boolean fullPedal, double forS) {
        double fromS = atS - WITHIN_S;
        double toS = atS + WITHIN_S;
        row = trace.rowAt(fromS, row);
        double low = trace.speedAt(fromS, row);
        double high = low;
        for (int i = row; i < trace.rows() && trace.timeS(i) < toS; i++) {
            if (trace.timeS(i) >= fromS) {
                low = Math.min(low, trace.speedMps(i));
                high = Math.max(high, trace.speedMps(i));
            }
        }
        double last = trace.speedAt(toS, row);
        double above = (speedMps - Math.max(high, last)) * KPH_PER_MPS - TOLERANCE_KPH;
        double below = (Math.min(low, last) - speedMps) * KPH_PER_MPS - TOLERANCE_KPH;
        count(Math.max(above, below), fullPedal && below > 0, forS);
    }

    private void count(double beyondKph, boolean fullPedal, double forS) {
        if (!(beyondKph > 0)) {
            occasionS = 0;
            return;
        }
        worstKph = Math.max(worstKph, beyondKph);
        outsideS += forS;
        outsideAtFullPedalS += fullPedal ? forS : 0;
        longOccasions += occasionS < LONG_S && occasionS + forS >= LONG_S ? 1 : 0;
        occasionS += forS;
        longestS = Math.max(longestS, occasionS);
    }

    /** Whether the speed has been outside for longer than a driver may be, until now. */
    boolean isLong() {
        return occasionS >= LONG_S;
    }

    /** Whether the trace was kept. */
    public boolean kept() {
        return longOccasions == 0;
    }
}
