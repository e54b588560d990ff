package sprag.bench.car;

import java.util.Locale;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Unit;

/** What can go wrong between the connector and what is driven. One row each. */
public enum OutputFault {
    /** The drive is on whatever is commanded; a quantity stands at the magnitude. */
    STUCK_ON("driven whatever is commanded; a quantity stands at the magnitude"),
    /** The drive is off whatever is commanded. */
    STUCK_OFF("never driven whatever is commanded"),
    /** The drive follows late. */
    DELAY("follows the command later by the magnitude, in milliseconds");

    /** One sentence for people. */
    public final String meaning;

    OutputFault(String meaning) {
        this.meaning = meaning;
    }

    /** The part of the name behind the output, e.g. {@code stuck_on}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** What the magnitude on a certain output is given in; a switch when there is none. */
    public Unit unit(Output output) {
        return this == DELAY ? Unit.MILLISECOND : this == STUCK_ON ? output.unit : Unit.SWITCH;
    }
}
