package sprag.bench.evidence.bounds;

/** What a boolean of the running code can be: true, false, or either. */
record Truth(boolean canHold, boolean canFail) {
    static final Truth YES = new Truth(true, false);
    static final Truth NO = new Truth(false, true);
    static final Truth EITHER = new Truth(true, true);

    static Truth of(boolean value) {
        return value ? YES : NO;
    }

    Truth join(Truth b) {
        return new Truth(canHold || b.canHold, canFail || b.canFail);
    }

    Truth not() {
        return new Truth(canFail, canHold);
    }
}
