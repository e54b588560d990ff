package sprag.bench.review.wiring.circuit;

import java.util.Map;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * A place where a rule is broken.
 *
 * @param where the wire, terminal, part or net
 * @param sentence what is wrong, with the numbers
 */
public record Hit(String where, String file, int line, String sentence, Map<String, Double> numbers) {
    public static Hit at(Wire wire, String sentence, Map<String, Double> numbers) {
        return new Hit(wire.id(), Schedule.WIRES_FILE, wire.line(), sentence, numbers);
    }

    public static Hit at(Wire wire, String sentence) {
        return at(wire, sentence, Map.of());
    }
}
