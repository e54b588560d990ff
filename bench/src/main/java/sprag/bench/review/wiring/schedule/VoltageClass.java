package sprag.bench.review.wiring.schedule;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** What a wire belongs to, as the schedule says. */
public enum VoltageClass {
    /** The traction side: pack, bus and everything joined to it, whatever its voltage. */
    TRACTION("traction"),
    /** The low-voltage supply and what it feeds. */
    LOW_VOLTAGE("12v"),
    /** Measured values, switch loops, data. */
    SIGNAL("signal"),
    /** Alternating current between inlet and chargers. */
    MAINS("mains"),
    /** Bonds to the chassis and protective earth. */
    EARTH("earth");

    /** The words of the column {@code class}. */
    public static final List<String> WORDS =
            Arrays.stream(values()).map(c -> c.word).toList();

    /** The word in the schedule. */
    public final String word;

    VoltageClass(String word) {
        this.word = word;
    }

    /** The class of a word, or null. */
    public static VoltageClass of(String word) {
        int index = WORDS.indexOf(word.toLowerCase(Locale.ROOT));
        return index < 0 ? null : values()[index];
    }
}
