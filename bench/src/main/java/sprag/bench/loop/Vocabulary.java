package sprag.bench.loop;

import java.util.Map;
import java.util.function.Function;
import sprag.bench.loop.trace.Channels;

/**
 * The names a scenario may use.
 *
 * @param channels signals, outputs, truths, states, interlocks
 * @param faultComplaint what is wrong with the name of a fault, empty when nothing is
 */
public record Vocabulary(Channels channels, Map<String, Range> levers, Function<String, String> faultComplaint) {
    /**
     * How far a lever goes.
     *
     * @param min the least
     */
    public record Range(double min, double max, String meaning) {}
}
