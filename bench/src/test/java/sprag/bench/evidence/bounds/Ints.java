package sprag.bench.evidence.bounds;

/** All values that a whole number of the running code can have. */
record Ints(int lo, int hi) {
    static Ints of(int value) {
        return new Ints(value, value);
    }

    boolean isOne() {
        return lo == hi;
    }

    Ints join(Ints b) {
        return new Ints(Math.min(lo, b.lo), Math.max(hi, b.hi));
    }

    Reals real() {
        return Reals.between(lo, hi);
    }
}
