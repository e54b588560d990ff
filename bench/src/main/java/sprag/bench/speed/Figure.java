package sprag.bench.speed;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import sprag.bench.cli.Json;

/**
 * One line of the table.
 *
 * @param what what was measured
 * @param value the best of all rounds; NaN when it could not be measured
 * @param aim what it should be, at most for a time and at least for a rate
 * @param unit of value, baseline and aim
 * @param baseline the same measure of something plain, in the same run; NaN for none
 * @param beside what the baseline is, or why there is no value
 */
record Figure(String what, double value, double aim, String unit, double baseline, String beside) {
    private static final double WHOLE = 100;

    /** Whether more of it is better. */
    private boolean isRate() {
        return unit.contains("/s");
    }

    /** Whether the aim is reached. */
    boolean isReached() {
        return isRate() ? value >= aim : value <= aim;
    }

    /** The line on the terminal. */
    String line() {
        String aimed = (isRate() ? "over " : "under ") + number(aim);
        return String.format(
                        Locale.ROOT,
                        "%-27s %8s %-4s %-12s %s",
                        what,
                        number(value),
                        unit,
                        aimed,
                        Double.isNaN(baseline) ? beside : number(baseline) + " " + beside)
                .stripTrailing();
    }

    private static String number(double value) {
        return Double.isNaN(value)
                ? "-"
                : String.format(Locale.ROOT, value >= WHOLE ? "%,.0f" : value >= 1 ? "%.1f" : "%.2f", value);
    }

    void put(ObjectNode node) {
        node.put("what", what).put("unit", unit);
        Json.number(node, "value", value);
        Json.number(node, "aim", aim);
        node.put("reached", isReached());
        Json.number(node, "baseline", baseline);
        node.put("beside", beside);
    }
}
