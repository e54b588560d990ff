package sprag.bench.hand.commission.record;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonValue;
import sprag.bench.cli.Numbers;

/**
 * A measured value and its limits.
 *
 * @param value the value, NaN when unknown
 * @param max the greatest good value; infinite when there is no upper limit
 */
public record Measure(String name, double value, String unit, double min, double max) {
    /** As it stands in files. JSON has no infinity and no NaN: such a number is left out. */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    private record Json(String name, String unit, Double value, Double min, Double max, boolean within) {}

    public boolean isWithin() {
        return value >= min && value <= max;
    }

    @JsonValue
    Json json() {
        return new Json(name, unit, finite(value), finite(min), finite(max), isWithin());
    }

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    static Measure of(Json json) {
        return new Measure(
                json.name,
                json.value == null ? Double.NaN : json.value,
                json.unit,
                json.min == null ? Double.NEGATIVE_INFINITY : json.min,
                json.max == null ? Double.POSITIVE_INFINITY : json.max);
    }

    private static Double finite(double number) {
        return Double.isFinite(number) ? number : null;
    }

    /** E.g. {@code closes after: 30 ms (0 to 80 ms)}. */
    public String text() {
        String range = Double.isInfinite(max)
                ? "at least " + Numbers.text(min)
                : Numbers.text(min) + " to " + Numbers.text(max);
        return name + ": " + Numbers.text(value) + " " + unit + " (" + range + " " + unit + ")";
    }
}
