package sprag.bench.panel.bench;

/**
 * Something that happened, told as cause and consequence.
 *
 * @param index 0 is the first ever
 * @param car which car it belongs to: 0 is the first, each new car counts one more
 * @param timeMs when, in the time of the car
 * @param tick the tick it belongs to
 * @param cause why it happened, a clause; may be empty
 * @param consequence what comes of it, a clause; may be empty
 */
public record Note(
        long index, int car, long timeMs, long tick, Kind kind, String what, String cause, String consequence) {
    /** What sort of thing happened. */
    enum Kind {
        /** The supervisor changed its state. */
        STATE,
        /** An interlock began to act. */
        INTERLOCK,
        /** Start was pressed and nothing started. */
        REFUSED,
        /** A person moved a lever. */
        LEVER,
        /** A fault came or went. */
        FAULT,
        /** A signal was forced or let go. */
        FORCED,
        /** A scenario did something, or was judged. */
        SCENARIO,
        /** The panel itself. */
        PANEL
    }
}
