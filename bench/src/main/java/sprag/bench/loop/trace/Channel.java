package sprag.bench.loop.trace;

import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.Unit;

/**
 * One column of a trace.
 *
 * @param key its name, lower case with its unit, unique within its source
 * @param unit what it is measured in
 * @param switchesPower whether it is an output that switches power: a contactor, a relay, an enable, a pump
 */
public record Channel(Source source, String key, Unit unit, String meaning, boolean switchesPower) {
    /** Where a column comes from. */
    public enum Source {
        /** What the supervisor was told. */
        SIGNAL,
        /** What the supervisor asked for. */
        OUTPUT,
        /** What was true in the simulated car, whatever its sensors said. */
        QUANTITY;

        /** The word for it in files: {@code signal}, {@code output}, {@code quantity}. */
        public String key() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** A column that switches no power. */
    public Channel(Source source, String key, Unit unit, String meaning) {
        this(source, key, unit, meaning, false);
    }

    /**
     * The heading in a trace; truths stand apart from readings of the same name. Returns the key, with {@code car.}
     * before it for a truth.
     */
    public String column() {
        return source == Source.QUANTITY ? "car." + key : key;
    }

    /** Whether it is a switch rather than a quantity. */
    public boolean isSwitch() {
        return unit == Unit.SWITCH;
    }

    /** A value with its unit, as short as it can be read. For example {@code 93.2 V}, {@code on}, {@code unknown}. */
    public String show(double value) {
        return Numbers.show(value, unit);
    }
}
