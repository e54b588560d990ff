package sprag.bench.run.report;

/**
 * One line of a timeline.
 *
 * @param timeMs when
 * @param text what happened, in words
 * @param detail what helps to follow it: levers, volts, speed; may be empty
 */
public record Entry(long timeMs, Kind kind, String text, String detail) {
    /** What sort of thing a line tells. */
    public enum Kind {
        /** Something was done to the car. */
        DONE(">"),
        /** Something was broken on purpose. */
        FAULT(">"),
        /** The state changed. */
        STATE("="),
        /** An interlock began or ceased to act. */
        INTERLOCK("!"),
        /** The supervisor asked for something else than before. */
        COMMAND("-"),
        /** A contactor stays where it was not asked to be. */
        SEEN("*");

        /** The sign before the line on the terminal. */
        public final String sign;

        Kind(String sign) {
            this.sign = sign;
        }
    }

    /** Whether it was done to the car, and not by the supervisor. */
    public boolean isDone() {
        return kind == Kind.DONE || kind == Kind.FAULT;
    }

    /** Everything in one line. Returns the text, the detail behind it in brackets. */
    public String full() {
        return detail.isEmpty() ? text : text + " (" + detail + ")";
    }
}
