package sprag.bench.drawing.sheet;

import java.util.List;
import java.util.Map;
import sprag.bench.review.finding.Weight;

/**
 * What is written beside wires and parts, beyond what the schedule says of them.
 *
 * @param onWires findings by number of the wire
 * @param onParts findings by name of the part
 * @param changes what became of wires since another schedule, by number; the others stayed
 */
public record Marks(Map<String, List<Mark>> onWires, Map<String, List<Mark>> onParts, Map<String, Change> changes) {
    /** Nothing beside anything. */
    public static final Marks NONE = new Marks(Map.of(), Map.of(), Map.of());

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

    List<Mark> of(String wireOrPart, boolean isWire) {
        return (isWire ? onWires : onParts).getOrDefault(wireOrPart, List.of());
    }

    String sign(String wire) {
        return changes.containsKey(wire) ? changes.get(wire).sign + " " : "";
    }
}
