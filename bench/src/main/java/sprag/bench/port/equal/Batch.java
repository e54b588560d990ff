package sprag.bench.port.equal;

/**
 * Some ticks in a row, as the Java decided them.
 *
 * @param name what was played
 * @param fresh whether a supervisor has woken up before the first tick
 * @param firstTick the number of the first tick
 * @param ticks how many
 * @param readings a number for each signal of each tick
 * @param decided the commands and the packed state of each tick
 * @param remembered everything that is remembered after the last tick
 */
record Batch(
        String name, boolean fresh, long firstTick, int ticks, double[] readings, Decided decided, long[] remembered) {
    /**
     * What came of the ticks.
     *
     * @param outputs a number for each output of each tick
     * @param states the packed state after each tick
     */
    record Decided(double[] outputs, long[] states) {}
}
