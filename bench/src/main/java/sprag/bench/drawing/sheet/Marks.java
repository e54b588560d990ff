package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import sprag.bench.drawing.paper.SheetFont;
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
    public record Mark(int number, Weight weight) {
        private static final double LEAST_MM = 5.4;
        private static final double FREE_MM = 0.4;
        /** The width of a triangle where its number is highest, as a share of its base. */
        private static final double TRIANGLE = 0.46;

        String words() {
            return String.valueOf(number);
        }

        /** How wide the sign is, so that its number lies within it. */
        double widthMm() {
            double numberMm = SheetFont.widthMm(words(), BoxBuilder.TEXT_MM) + FREE_MM;
            return Math.max(LEAST_MM, FREE_MM + (weight == Weight.CAUTION ? numberMm / TRIANGLE : numberMm));
        }

        /** How far below the middle of the sign its number stands. */
        double baseMm() {
            return weight == Weight.CAUTION ? 1.4 : 1.1;
        }
    }

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
