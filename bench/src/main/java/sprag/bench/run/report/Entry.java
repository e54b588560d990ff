package sprag.bench.run.report;

/**
 * One line of a timeline.
 *
 * @param timeMs when
 * @param state the new state, where the state changed; else empty
 * @param what what happened, in words; where the state changed, why
 * @param detail what helps to follow it: levers, volts, speed; may be empty
 */
public record Entry(long timeMs, Kind kind, String state, String what, String detail) {
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

    /** What happened, with the new state before it. */
    public String text() {
        return state.isEmpty() ? what : what.isEmpty() ? state : state + ": " + what;
    }

    /** Everything in one line. Returns the text, the detail behind it in brackets. */
    public String full() {
        return withDetail(text());
    }

    /** The same for a table in which the new state has a column of its own. */
    public String besideState() {
        return withDetail(what);
    }

    private String withDetail(String words) {
        return detail.isEmpty() ? words : (words + " (" + detail + ")").strip();
    }
}
