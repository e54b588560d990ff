package sprag.bench.trip.drive;

import java.util.function.BooleanSupplier;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.car.electric.CellCurve;
import sprag.bench.trip.trace.SpeedTrace;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.LowPack;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * How far a full pack goes. Empty is where the supervisor takes torque away because the pack is low, and the car no longer
 * keeps the trace, or where it stops. It is found by driving the trace with an almost empty pack that is as warm as the trip left it.
 *
 * @param fullSoc state of charge where it begins
 * @param emptySoc where it ends
 * @param usableWh what the cells give between the two
 * @param reserveWh what the limits keep below
 * @param km the way, unknown when the trip takes nothing
 * @param because what ends it
 */
public record Range(double fullSoc, double emptySoc, double usableWh, double reserveWh, double km, String because) {
    private static final double ABOVE_GUESS = 0.02;
    private static final int MOST_TRIES = 8;
    /** A cold pack sags so much that a guess from its sag begins far above the end. */
    private static final double MOST_GUESS = 0.3;

    private static final int MOST_LAPS = 20;
    /** Chosen: a cold pack is low for some seconds at each full pedal, an empty one stays low. */
    private static final long LOW_FOR_MS = 30_000;

    private static final double LONGEST_S = 4 * 3600.0;
    private static final int SLICES = 2000;
    private static final int HALVINGS = 40;

    /** Where a low pack ends the drive. */
    private record Empty(double soc, String because) {}

    /**
     * Finds the range.
     *
     * @param result the trip that tells the consumption
     * @param fullSoc where a charge ends
     */
    public static Range of(Vehicle vehicle, Weather weather, TripResult result, double fullSoc, BooleanSupplier stop) {
        SpeedTrace trace = result.drive().trace();
        Empty empty = new Empty(1, "");
        double startSoc = Math.min(MOST_GUESS, guess(vehicle, result.series().sagV) + ABOVE_GUESS);
        double packC = result.series().last(TripSeries.Column.PACK_C);
        for (int i = 0; i < MOST_TRIES; i++) {
            empty = drive(vehicle, weather.withSoc(startSoc), packC, trace, stop);
            if (empty.because().isEmpty()) {
                startSoc = empty.soc();
            } else if (empty.soc() < startSoc - ABOVE_GUESS / 10 || startSoc >= 0.9) {
                break;
            } else {
                startSoc = Math.min(0.9, startSoc + 5 * ABOVE_GUESS);
            }
        }
        if (empty.because().isEmpty()) {
            empty = new Empty(Double.NaN, "the pack did not become empty in the time of the search");
        }
        double usableWh = wattHours(vehicle, empty.soc(), fullSoc);
        double perKm = result.cellsWhPerKm();
        double km = perKm > 0 ? Math.max(0, usableWh) / perKm : Double.NaN;
        return new Range(fullSoc, empty.soc(), usableWh, wattHours(vehicle, 0, empty.soc()), km, empty.because());
    }

    /** The same range from another charge at the start. */
    public Range from(Vehicle vehicle, double otherFullSoc, double whPerKm) {
        double wh = wattHours(vehicle, emptySoc, otherFullSoc);
        return new Range(otherFullSoc, emptySoc, wh, reserveWh, Math.max(0, wh) / whPerKm, because);
    }

    /** Estimates the range of a similar vehicle without driving it empty. The sag of its voltage counts as much as it did here. */
    public Range similar(Vehicle mine, TripResult before, Vehicle other, TripResult result) {
        double sagCounts = (curve(mine).volts(emptySoc) - limitV(mine)) / before.series().sagV;
        double soc = whereCell(other, limitV(other) + sagCounts * result.series().sagV);
        double wh = wattHours(other, soc, fullSoc);
        return new Range(fullSoc, soc, wh, wattHours(other, 0, soc), wh / result.cellsWhPerKm(), because);
    }

    /** Drives until something ends the drive because the pack is low. Nothing is said when it has not come to that. */
    private static Empty drive(Vehicle vehicle, Weather weather, double packC, SpeedTrace trace, BooleanSupplier stop) {
        Ride ride = new Ride(vehicle, weather);
        ride.levers.set(Lever.PACK_TEMP_C, packC);
        TripRun[] run = new TripRun[1];
        String[] because = {""};
        long[] notLowMs = {0};
        double[] lowSoc = {0};
        BooleanSupplier low = () -> {
            long nowMs = ride.loop.timeMs();
            notLowMs[0] = ride.loop.acting().contains(Interlock.PACK_LOW) ? notLowMs[0] : nowMs;
            for (Interlock row : ride.loop.acting()) {
                boolean staysLow = row == Interlock.PACK_LOW && nowMs - notLowMs[0] >= LOW_FOR_MS;
                lowSoc[0] = staysLow && lowSoc[0] == 0 ? ride.truth(Quantity.SOC) : lowSoc[0];
                boolean ends = staysLow && run[0].isOutside()
                        || row == Interlock.DISCHARGE_WITHDRAWN
                        || row == Interlock.PACK_UNDERVOLTAGE
                        || row == Interlock.CELL_UNDERVOLTAGE;
                because[0] = ends && because[0].isEmpty() ? row.cause.toString() : because[0];
            }
            return !because[0].isEmpty() || ride.truth(Quantity.SOC) <= 0 || stop.getAsBoolean();
        };
        double drivenS = 0;
        for (int lap = 0; lap < MOST_LAPS && drivenS < LONGEST_S && because[0].isEmpty(); lap++) {
            run[0] = new TripRun(ride, trace);
            TripResult piece = run[0].drive(low);
            drivenS += piece.drive().timeS();
            if (!piece.complete()) {
                String why = because[0].isEmpty() ? piece.drive().ended() : because[0];
                // A trace that asks for little is kept until the cells are empty: the limits began to hold back before.
                return ride.truth(Quantity.SOC) <= 0 && because[0].isEmpty()
                        ? new Empty(lowSoc[0], Interlock.PACK_LOW.cause.toString())
                        : new Empty(Math.max(0, ride.truth(Quantity.SOC)), why);
            }
        }
        return new Empty(Math.max(0, ride.truth(Quantity.SOC)), "");
    }

    /** Where the lowest cell would meet its limit at the deepest sag of the trip. */
    private static double guess(Vehicle vehicle, double sagV) {
        return Math.ceil(whereCell(vehicle, limitV(vehicle) + sagV) * 200) / 200;
    }

    /** The voltage of a cell at which torque begins to fall. */
    private static double limitV(Vehicle vehicle) {
        boolean told = vehicle.settings().has(Signal.CELL_MIN_V);
        double cellV = told ? vehicle.get(Parameter.CELL_LOW_V) : vehicle.get(CarParameter.MONITOR_CELL_MIN_V);
        double packV = LowPack.from(vehicle.get(Parameter.PACK_MIN_V), vehicle.get(Parameter.PACK_MAX_V));
        return Math.max(cellV, packV / vehicle.get(Parameter.PACK_CELLS));
    }

    /** The state of charge at which a cell at rest has a voltage. */
    private static double whereCell(Vehicle vehicle, double volts) {
        CellCurve curve = curve(vehicle);
        double low = 0;
        double high = 1;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if (curve.volts(middle) < volts) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high;
    }

    private static CellCurve curve(Vehicle vehicle) {
        return CellCurve.of(Parameter.PACK_CHEMISTRY.choices().get((int) vehicle.get(Parameter.PACK_CHEMISTRY)));
    }

    /** What the cells hold between two states of charge: the integral of the voltage at rest. */
    static double wattHours(Vehicle vehicle, double fromSoc, double toSoc) {
        CellCurve curve = curve(vehicle);
        double sumV = 0;
        for (int i = 0; i < SLICES; i++) {
            sumV += curve.volts(fromSoc + (toSoc - fromSoc) * (i + 0.5) / SLICES);
        }
        double capacityAh = vehicle.get(CarParameter.CELLS_CAPACITY_AH);
        return sumV / SLICES * vehicle.get(Parameter.PACK_CELLS) * capacityAh * (toSoc - fromSoc);
    }
}
