package sprag.bench.speed;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Json;
import sprag.bench.cli.Numbers;

/**
 * How a cost grows with its cause.
 *
 * @param what what costs, as in "states of the proof"
 * @param cause what is made larger, with its unit
 * @param cost what is counted, with its unit
 * @param points what was measured, the smallest cause first; at least two
 */
record Growth(String what, String cause, String cost, List<Point> points) {
    private static final String ROW = "%-39s  %s";

    /** One measurement; both are above zero. */
    record Point(double cause, double cost) {}

    /**
     * By how much the cost is multiplied when the cause is doubled: 2 to the power of the slope of a straight line through the logarithms,
     * by least squares.
     */
    double perDoubling() {
        double meanX = points.stream().mapToDouble(Growth::x).average().orElseThrow();
        double meanY = points.stream().mapToDouble(Growth::y).average().orElseThrow();
        double spread = 0;
        double both = 0;
        for (Point point : points) {
            spread += (x(point) - meanX) * (x(point) - meanX);
            both += (x(point) - meanX) * (y(point) - meanY);
        }
        return Math.pow(2, both / spread);
    }

    private static double x(Point point) {
        return Math.log(point.cause());
    }

    private static double y(Point point) {
        return Math.log(point.cost());
    }

    /** The result in one sentence. */
    String sentence() {
        return String.format(Locale.ROOT, "Twice the cause makes %.2f times the cost.", perDoubling());
    }

    /** The lines on the terminal: what is measured, a row for each point, the sentence. */
    List<String> lines() {
        List<String> lines = new ArrayList<>();
        lines.add(what);
        lines.add(String.format(Locale.ROOT, ROW, "  " + cause, cost).stripTrailing());
        points.forEach(each -> lines.add(
                String.format(Locale.ROOT, ROW, "  " + Numbers.text(each.cause()), Numbers.text(each.cost()))));
        lines.add("  " + sentence());
        return lines;
    }

    void put(ObjectNode node) {
        node.put("what", what).put("cause", cause).put("cost", cost);
        Json.number(node, "per_doubling", perDoubling());
        for (Point point : points) {
            ObjectNode each = node.withArray("points").addObject();
            Json.number(each, "cause", point.cause());
            Json.number(each, "cost", point.cost());
        }
    }
}
