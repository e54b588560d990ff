package sprag.bench.review.formula;

/** What a fuse does, by points of its time-current curve. */
public final class Fuse {
    private final double[] currentA;
    private final double[] timeS;

    /** A fuse by points of its curve, current rising. */
    public Fuse(double[] currentA, double[] timeS) {
        this.currentA = currentA.clone();
        this.timeS = timeS.clone();
    }

    /**
     * Time to melt, on straight lines in double-logarithmic scales; beyond the last point with constant I² t, before the
     * first one the line is prolonged. A fuse of 10 s at 200 A and 0.1 s at 2000 A melts in 1 s at 632.5 A.
     */
    public double secondsAt(double throughA) {
        int last = currentA.length - 1;
        if (throughA >= currentA[last] || last == 0) {
            return timeS[last] * Math.pow(currentA[last] / throughA, 2);
        }
        int above = 1;
        while (currentA[above] < throughA) {
            above++;
        }
        double share = Math.log(throughA / currentA[above - 1]) / Math.log(currentA[above] / currentA[above - 1]);
        return timeS[above - 1] * Math.pow(timeS[above] / timeS[above - 1], share);
    }

    /**
     * Prospective short-circuit current of a pack: open-circuit voltage over everything in the way. 400 V and 0.1 ohm give
     * 4000 A. Leaves out the inductance, which limits the rise but not the end value.
     *
     * @param loopOhm pack, cables, contacts (ohm)
     */
    public static double shortCircuitA(double packV, double loopOhm) {
        return packV / loopOhm;
    }
}
