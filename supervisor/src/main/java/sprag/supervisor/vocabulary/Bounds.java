package sprag.supervisor.vocabulary;

/**
 * Smaller, greater, in between. As {@link Math#min(double, double)} and its like, NaN in gives NaN out; but by comparisons that a
 * processor foresees, where those work out the sign of a zero each time, and that is a good part of a tick.
 */
public final class Bounds {
    private Bounds() {}

    /** The smaller of two values.
     *
     * @param a one
     * @param b the other
     * @return NaN when either is NaN
     */
    public static double least(double a, double b) {
        if (a < b) {
            return a;
        }
        return b <= a ? b : Double.NaN;
    }

    /** The greater of two values.
     *
     * @param a one
     * @param b the other
     * @return NaN when either is NaN
     */
    public static double greatest(double a, double b) {
        if (a > b) {
            return a;
        }
        return b >= a ? b : Double.NaN;
    }

    /** A value held between two limits.
     *
     * @param value what is to be held
     * @param lowest the lower limit
     * @param highest the upper limit; wins where the limits contradict
     * @return NaN when any of them is NaN
     */
    public static double between(double value, double lowest, double highest) {
        return least(greatest(value, lowest), highest);
    }

    /** A count that must not outgrow the bits that stand for it. A table that does fails here, when its class is loaded.
     *
     * @param count how many there are
     * @param most how many the bits can tell apart
     * @param what of what, for the message
     * @return the count
     */
    public static int counted(int count, int most, String what) {
        if (count > most) {
            throw new IllegalStateException(
                    count + " " + what + ", but the bits that stand for them can tell only " + most + " apart");
        }
        return count;
    }

    /** A value held between 0 and 1.
     *
     * @param value what is to be held
     * @return NaN for NaN
     */
    public static double share(double value) {
        return between(value, 0, 1);
    }
}
