package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import sprag.bench.review.finding.Weight;

/**
 * What is written beside wires and parts, beyond what the schedule says of them.
 *
 * @param onWires findings by number of the wire
 * @param onTerminals findings by name of a terminal that has a wire
 * @param onParts findings by name of the part
 * @param changes what became of wires since another schedule, by number; the others stayed
 */
public record Marks(
        Map<String, List<Mark>> onWires,
        Map<String, List<Mark>> onTerminals,
        Map<String, List<Mark>> onParts,
        Map<String, Change> changes) {
    /** Nothing beside anything. */
    public static final Marks NONE = new Marks(Map.of(), Map.of(), Map.of(), Map.of());

    /** A finding: its number in the list and how heavy it is. */
    public record Mark(int number, Weight weight) {}

    /** What became of a wire. */
    public enum Change {
        ADDED("+"),
        REMOVED("-"),
        CHANGED("~");

        /** Stands before the number of the wire. */
        public final String sign;

        Change(String sign) {
            this.sign = sign;
        }
    }

    /** In the head of a part, the heaviest first. */
    List<Mark> of(String part) {
        return sorted(onParts.getOrDefault(part, List.of()));
    }

    /** At one end of a wire: what is about the whole wire, and what is about the terminal there. */
    List<Mark> at(Slot slot) {
        List<Mark> here = new ArrayList<>(onWires.getOrDefault(slot.wire().id(), List.of()));
        here.addAll(onTerminals.getOrDefault(slot.terminal(), List.of()));
        return sorted(here);
    }

    private static List<Mark> sorted(List<Mark> some) {
        return some.stream()
                .sorted(Comparator.comparing(Mark::weight).thenComparingInt(Mark::number))
                .toList();
    }

    String sign(String wire) {
        return changes.containsKey(wire) ? changes.get(wire).sign + " " : "";
    }
}
