package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;

import java.util.List;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.BoardReference;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** What the board in a vehicle's folder can measure. */
public final class BoardCalculations {
    private static final double PEDAL_SUPPLY_V = 5;

    private BoardCalculations() {}

    /** Those of the board file in the vehicle's folder, empty when there is none.
     *
     * @throws BadInput when that file cannot be read
     */
    public static List<Calculation> of(Vehicle vehicle) throws BadInput {
        return BoardReference.of(vehicle.folder())
                .map(reference -> List.of(error(vehicle, reference)))
                .orElse(List.of());
    }

    /** With a greater error a sound 5 V reference of the pedal counts as wrong, or a wrong one as sound. */
    private static Calculation error(Vehicle vehicle, BoardReference reference) {
        boolean measured = reference.isMeasured();
        Calculation sum = new Calculation(
                vehicle,
                "board-reference",
                "what the board's readings may be wrong by, with its reference voltage "
                        + (measured ? "measured" : "not measured"));
        sum.in("nominal reference", reference.nominalV(), "V");
        if (measured) {
            sum.in(BoardReference.KEY, reference.measuredV(), "V");
        }
        double lowV = sum.in(Parameter.PEDAL_SUPPLY_MIN_V);
        double highV = sum.in(Parameter.PEDAL_SUPPLY_MAX_V);
        double bearsPercent = 100 * Math.min(1 - lowV / PEDAL_SUPPLY_V, highV / PEDAL_SUPPLY_V - 1);
        return sum.formula(measured ? "error of a simple meter" : "nominal voltage / least voltage of a USB port - 1")
                .gives(Math.max(reference.highPercent(), reference.lowPercent()), "%")
                .atMost("the window of the pedal's supply", bearsPercent)
                .otherwise(
                        CAUTION,
                        "every analogue reading is in proportion to it: measure it as docs/boards.md says and write "
                                + BoardReference.KEY)
                .at(BoardReference.FILE, BoardReference.KEY, reference.line())
                .source("USB 2.0, table 7-7: 4.40 V to 5.25 V (from memory); meters: common practice");
    }
}
