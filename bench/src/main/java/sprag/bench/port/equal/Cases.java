package sprag.bench.port.equal;

/**
 * Ticks that have nothing to do with each other: each begins with a memory that is given.
 *
 * @param count how many
 * @param before what is remembered before each
 * @param readings a number for each signal of each
 * @param result what the Java made of it
 */
record Cases(int count, long[] before, double[] readings, Result result) {
    /** No more fit into one question. */
    static final int MOST = 64;

    /**
     * What came of the ticks.
     *
     * @param possible whether the memory was possible: the step came to its end
     * @param decided the commands and the packed state of each
     * @param after what is remembered after each
     */
    record Result(boolean[] possible, Batch.Decided decided, long[] after) {}
}
