package sprag.bench.panel.session;

/** Where the reading of a signal comes from. The order is the number in a frame. */
public enum Source {
    /** The vehicle does not have it. */
    NOT_FITTED("not fitted"),
    /** The simulated car. */
    SIMULATED("simulated"),
    /** The pins of a board. */
    BOARD("board"),
    /** A person at the panel, for a limited time. */
    FORCED("forced"),
    /** The loop, about itself. */
    LOOP("loop");

    /** The same for people. */
    public final String words;

    Source(String words) {
        this.words = words;
    }
}
