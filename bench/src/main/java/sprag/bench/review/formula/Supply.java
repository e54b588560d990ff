package sprag.bench.review.formula;

/** What charging asks of the supply. */
public final class Supply {
    /** Charging is a continuous load: NEC 625.42 with 210.20(A). */
    public static final double CONTINUOUS = 1.25;
    /** Standard ratings of over-current devices, NEC 240.6(A), up to 400 A (from memory, except those in the test). */
    private static final int[] STANDARD_A = {
        15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400
    };

    private Supply() {}

    /** The least over-current device for a load that lasts for hours. 32 A gives 40 A. */
    public static double leastBreakerA(double loadA) {
        return CONTINUOUS * loadA;
    }

    /**
     * The standard rating that is at least this. 41.25 A gives 45 A.
     *
     * @param leastA rating wanted (A), up to 400
     */
    public static double standardA(double leastA) {
        for (int ratedA : STANDARD_A) {
            if (ratedA >= leastA - 1e-9) {
                return ratedA;
            }
        }
        throw new IllegalArgumentException("no standard rating up to 400 A is as large as " + leastA + " A");
    }

    /**
     * Current from the supply for some direct-current power: P / (efficiency power-factor V phases). 6600 W at 0.92, 0.98,
     * 230 V and one phase give 31.83 A.
     *
     * @param supplyV phase voltage (V, rms)
     * @param phases how many phases share the load
     * @return current in each phase (A, rms)
     */
    public static double phaseA(double dcW, double efficiency, double powerFactor, double supplyV, double phases) {
        return dcW / (efficiency * powerFactor * supplyV * phases);
    }
}
