package sprag.bench.scenario;

/**
 * What a scenario must lead to. Times count from {@link #anchor}.
 *
 * <pre>
 *  REACHED   anchor ----[from .......... X ......... to]          X: at some tick within, then kept until keepToMs
 *  HELD      anchor ----[XXXXXXXXXXXXXXXXXXXXXXXXXXX to]          at every tick within, or at every tick of `during`
 *  AT        anchor ----------------X                             at the first tick not before `from`
 * </pre>
 *
 * @param text what is expected, in words
 * @param condition what must be seen
 */
public record Expectation(String text, int line, Condition condition, Mode mode, Anchor anchor, Span span) {
    /** The end of the run, whenever that is. */
    public static final long END = Long.MAX_VALUE;

    /** How often the condition must hold. */
    public enum Mode {
        /** At some tick. */
        REACHED,
        /** At every tick. */
        HELD,
        /** At one tick. */
        AT
    }

    /**
     * Which times count.
     *
     * @param fromMs from here on, after the anchor
     * @param toMs up to here, this included; {@link #END} for the end of the run
     * @param keepToMs once reached, kept up to here; 0 when it need not be kept
     * @param during only ticks at which this holds count; null for every tick
     * @param settleMs so long after {@code during} began to hold, ticks do not count yet
     */
    public record Span(long fromMs, long toMs, long keepToMs, Condition during, long settleMs) {
        /** From one time to another. */
        public static Span between(long fromMs, long toMs) {
            return new Span(fromMs, toMs, 0, null, 0);
        }
    }
}
