package sprag.bench.vehicle;

/** What stands in the column of defaults of a table of keys when a key has none. Both read as NaN; a table uses one of them. */
final class NoDefault {
    /** The file must give the value. */
    static final double GIVEN = Double.NaN;
    /** The file may leave the value out, and then nothing stands in for it. */
    static final double ABSENT = Double.NaN;

    private NoDefault() {}
}
