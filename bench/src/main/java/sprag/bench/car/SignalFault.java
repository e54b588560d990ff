package sprag.bench.car;

import java.util.Locale;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** What can go wrong between a sensor and the connector. One row each. */
public enum SignalFault {
    // @formatter:off
    //            on switches  what it is
    OPEN         (true,   "the wire is broken"),
    SHORT_LOW    (false,  "the wire is shorted to ground; for a measured quantity the least reading there is"),
    SHORT_HIGH   (true,   "the wire is shorted to its supply; for a measured quantity the greatest reading there is"),
    STUCK        (true,   "shows for ever what it showed when the fault came"),
    BIAS         (false,  "shows more than is true by the magnitude, in the signal's unit"),
    NOISE        (false,  "shows the truth plus or minus up to the magnitude, in the signal's unit"),
    DELAY        (true,   "shows what was true the magnitude ago, in milliseconds"),
    INTERMITTENT (true,   "is broken half of the time; the magnitude is the period in milliseconds"),
    STALE        (true,   "is not sampled any more");
    // @formatter:on

    /** Whether it makes sense for a switch and differs there from the others. */
    public final boolean onSwitches;
    /** One sentence for people. */
    public final String meaning;

    SignalFault(boolean onSwitches, String meaning) {
        this.onSwitches = onSwitches;
        this.meaning = meaning;
    }

    /** The part of the name behind the signal, e.g. {@code short_low}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** What the magnitude on a certain signal is given in; a switch when there is none. */
    public Unit unit(Signal signal) {
        if (this == DELAY || this == INTERMITTENT) {
            return Unit.MILLISECOND;
        }
        return this == BIAS || this == NOISE ? signal.unit : Unit.SWITCH;
    }
}
