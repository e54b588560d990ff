package sprag.bench.trip.drive;

import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;

/**
 * The charge after a trip, by the same supervisor, from a station that gives what the inlet takes.
 *
 * @param seconds from the plug to the end of the current
 * @param mainsJ taken from the station
 * @param cellsJ what the chemistry of the cells took
 * @param endSoc state of charge at the end
 * @param trouble why it did not end, else empty
 */
public record Charging(double seconds, double mainsJ, double cellsJ, double endSoc, String trouble) {
    private static final double MOST_S = 48 * 3600.0;
    private static final double BEGINS_WITHIN_S = 60;
    /** No current for so long is the end: a pause to rest or to balance is shorter. */
    private static final double ENDED_S = 600;

    private static final double LOOKS_EVERY_S = 1;

    /** Parks a car, plugs it in and waits for the end. Without an inlet nothing can be plugged in. */
    public static Charging of(Vehicle vehicle, Ride ride, BooleanSupplier stop) {
        if (vehicle.is(Parameter.INLET_KIND, "none")) {
            return none("the car has no inlet (inlet.kind = \"none\"): its pack is taken out to be charged");
        }
        ride.levers.set(Lever.HEATER, 0);
        ride.turnOff();
        ride.levers.set(Lever.GRADE_PERCENT, 0);
        ride.pass(20);
        double mainsJ = ride.truth(Quantity.AC_ENERGY_J);
        double cellsJ = ride.truth(Quantity.PACK_STORED_OUT_J);
        ride.levers.set(Lever.PLUG, 1);
        double s = 0;
        double lastS = -1;
        double soc = ride.truth(Quantity.SOC);
        while (s < MOST_S && s - Math.max(lastS, 0) < (lastS < 0 ? BEGINS_WITHIN_S : ENDED_S)) {
            if (stop.getAsBoolean()) {
                return none("it was interrupted");
            }
            ride.pass(LOOKS_EVERY_S);
            s += LOOKS_EVERY_S;
            if (ride.car.arrives(Output.CHARGER_ENABLE) != 0 && ride.truth(Quantity.AC_CURRENT_A) > 0) {
                lastS = s;
                soc = ride.truth(Quantity.SOC);
            }
        }
        String trouble =
                lastS < 0 ? "it does not begin: " + hinders(ride) : s >= MOST_S ? "it has not ended after 48 h" : "";
        return new Charging(
                lastS,
                ride.truth(Quantity.AC_ENERGY_J) - mainsJ,
                cellsJ - ride.truth(Quantity.PACK_STORED_OUT_J),
                soc,
                trouble);
    }

    private static Charging none(String trouble) {
        return new Charging(Double.NaN, Double.NaN, Double.NaN, Double.NaN, trouble);
    }

    /** What acts against a charge now. */
    private static String hinders(Ride ride) {
        String causes = ride.loop.acting().stream()
                .filter(row -> row.response == Response.BLOCK_CHARGE || row.response.compareTo(Response.LIMIT) < 0)
                .map(row -> row.cause.toString())
                .collect(Collectors.joining("; "));
        return causes.isEmpty() ? "the supervisor is in " + ride.loop.state() + ", " + ride.loop.why() : causes;
    }

    /** Energy from the wall for each that the cells took. */
    public double wallPerCells() {
        return trouble.isEmpty() && cellsJ > 0 ? mainsJ / cellsJ : Double.NaN;
    }
}
