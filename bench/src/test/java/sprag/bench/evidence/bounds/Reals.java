package sprag.bench.evidence.bounds;

/**
 * All values that a {@code double} of the running code can have: every number from {@code lo} to {@code hi}, and NaN too where
 * {@code nan} says so. {@code lo} above {@code hi} means no number.
 *
 * <p>Sums, products and quotients are rounded as the code rounds them, to the nearest. That rounding never turns an order around, so
 * the least and the greatest corner enclose what the code itself computes, with no allowance on top.
 *
 * <p>{@code fall} and {@code rise} enclose how steeply the value follows one watched quantity: the slope of the formula, wherever it
 * has one.
 */
record Reals(double lo, double hi, boolean nan, double fall, double rise) {
    private static final double INF = Double.POSITIVE_INFINITY;
    static final Reals NONE = new Reals(INF, -INF, false, 0, 0);
    static final Reals NAN = new Reals(INF, -INF, true, 0, 0);
    /** Any double at all: each number, both infinities, NaN. */
    static final Reals ANY = new Reals(-INF, INF, true, 0, 0);

    static Reals of(double value) {
        return value == value ? new Reals(value, value, false, 0, 0) : NAN;
    }

    static Reals between(double lo, double hi) {
        return new Reals(lo, hi, false, 0, 0);
    }

    Reals orNan() {
        return new Reals(lo, hi, true, fall, rise);
    }

    /** The quantity that slopes are told against. */
    Reals watched() {
        return new Reals(lo, hi, nan, 1, 1);
    }

    boolean isEmpty() {
        return lo > hi;
    }

    boolean isNothing() {
        return isEmpty() && !nan;
    }

    boolean has(double value) {
        return lo <= value && value <= hi;
    }

    private boolean hasInfinity() {
        return !isEmpty() && (lo == -INF || hi == INF);
    }

    double width() {
        return hi - lo;
    }

    private boolean still() {
        return fall == 0 && rise == 0;
    }

    Reals join(Reals b) {
        if (isEmpty() || b.isEmpty()) {
            Reals full = isEmpty() ? b : this;
            return new Reals(full.lo, full.hi, nan || b.nan, full.fall, full.rise);
        }
        return new Reals(
                Math.min(lo, b.lo), Math.max(hi, b.hi), nan || b.nan, Math.min(fall, b.fall), Math.max(rise, b.rise));
    }

    /** Only what lies between two numbers. */
    Reals meet(double from, double to, boolean keepsNan) {
        double newLo = Math.max(lo, from);
        double newHi = Math.min(hi, to);
        return newLo <= newHi ? new Reals(newLo, newHi, nan && keepsNan, fall, rise) : nan && keepsNan ? NAN : NONE;
    }

    Reals negate() {
        return isEmpty() ? this : new Reals(0 - hi, 0 - lo, nan, -rise, -fall);
    }

    Reals plus(Reals b) {
        boolean undefined = nan || b.nan || hi == INF && b.lo == -INF || lo == -INF && b.hi == INF;
        if (isEmpty() || b.isEmpty()) {
            return undefined ? NAN : NONE;
        }
        double least = lo + b.lo;
        double most = hi + b.hi;
        return new Reals(
                least == least ? least : -INF, most == most ? most : INF, undefined, fall + b.fall, rise + b.rise);
    }

    Reals minus(Reals b) {
        return plus(b.negate());
    }

    Reals times(Reals b) {
        boolean undefined = nan || b.nan || has(0) && b.hasInfinity() || b.has(0) && hasInfinity();
        if (isEmpty() || b.isEmpty()) {
            return undefined ? NAN : NONE;
        }
        double[] range = corners(lo, hi, b.lo, b.hi);
        double[] mine = still() ? new double[2] : corners(fall, rise, b.lo, b.hi);
        double[] other = b.still() ? new double[2] : corners(b.fall, b.rise, lo, hi);
        return new Reals(range[0], range[1], undefined, mine[0] + other[0], mine[1] + other[1]);
    }

    private static double[] corners(double a, double b, double c, double d) {
        double[] products = {a * c, a * d, b * c, b * d};
        double least = INF;
        double most = -INF;
        for (double p : products) {
            double known =
                    p == p ? p : 0; // nothing times infinity: the NaN is told apart, the neighbours are corners too
            least = Math.min(least, known);
            most = Math.max(most, known);
        }
        return new double[] {least, most};
    }

    Reals over(Reals b) {
        boolean undefined = nan || b.nan || has(0) && b.has(0) || hasInfinity() && b.hasInfinity();
        if (isEmpty() || b.isEmpty()) {
            return undefined ? NAN : NONE;
        }
        if (b.has(0)) {
            boolean flat = still() && b.still();
            return new Reals(-INF, INF, undefined, flat ? 0 : -INF, flat ? 0 : INF);
        }
        double[] quotients = {lo / b.lo, lo / b.hi, hi / b.lo, hi / b.hi};
        double least = INF;
        double most = -INF;
        for (double q : quotients) {
            double known = q == q ? q : 0;
            least = Math.min(least, known);
            most = Math.max(most, known);
        }
        Reals inverse = new Reals(Math.min(1 / b.lo, 1 / b.hi), Math.max(1 / b.lo, 1 / b.hi), false, 0, 0);
        Reals slope = between(fall, rise).times(inverse);
        if (!b.still()) {
            Reals bySquare = between(lo, hi).times(inverse).times(inverse);
            slope = slope.minus(bySquare.times(between(b.fall, b.rise)));
        }
        boolean known = !slope.nan;
        return new Reals(least, most, undefined, known ? slope.lo : -INF, known ? slope.hi : INF);
    }

    Reals abs() {
        if (isEmpty() || lo >= 0) {
            return this;
        }
        Reals turned = negate();
        if (hi <= 0) {
            return turned;
        }
        Reals whole = join(turned);
        return new Reals(0, whole.hi, nan, whole.fall, whole.rise);
    }

    Reals apply(java.util.function.DoubleUnaryOperator rising) {
        return isEmpty()
                ? this
                : new Reals(rising.applyAsDouble(lo), rising.applyAsDouble(hi), nan, 0, still() ? 0 : INF);
    }

    @Override
    public String toString() {
        String range = isEmpty() ? "no number" : lo == hi ? Double.toString(lo) : lo + " to " + hi;
        return range + (nan ? " or NaN" : "") + (still() ? "" : ", slope " + fall + " to " + rise);
    }
}
