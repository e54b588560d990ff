package sprag.bench.trip;

import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.function.BooleanSupplier;
import sprag.bench.trip.drive.Charging;
import sprag.bench.trip.drive.Range;
import sprag.bench.trip.drive.Ride;
import sprag.bench.trip.drive.TripResult;
import sprag.bench.trip.drive.TripRun;
import sprag.bench.trip.drive.Weather;
import sprag.bench.trip.trace.SpeedTrace;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * One trip with what follows it: the charge afterwards and the range.
 *
 * @param charging null when it was not asked for
 * @param range null when the trip tells no consumption
 */
record TripReport(Vehicle vehicle, Weather weather, TripResult trip, Charging charging, Range range) {
    /** Drives, charges, and looks for the range.
     *
     * @param stop asked now and then; true ends everything
     */
    static TripReport of(Vehicle vehicle, Weather weather, SpeedTrace trace, BooleanSupplier stop) {
        Ride ride = new Ride(vehicle, weather);
        TripResult trip = new TripRun(ride, trace).drive(stop);
        boolean moved = trip.cellsWhPerKm() > 0;
        // Another car looks for the end of the range while this one charges.
        CompletableFuture<Range> empty = moved
                ? CompletableFuture.supplyAsync(() -> Range.of(vehicle, weather, trip, 1, stop))
                : CompletableFuture.completedFuture(null);
        Charging charging = Charging.of(vehicle, ride, stop);
        double fullSoc = charging.trouble().isEmpty() ? charging.endSoc() : 1;
        Range range = moved ? empty.join().from(vehicle, fullSoc, trip.cellsWhPerKm()) : null;
        return new TripReport(vehicle, weather, trip, charging, range);
    }

    /**
     * The trip of a similar vehicle: the range follows from this report, and the charge is played only when it is asked for.
     *
     * @param charges whether the charge afterwards is wanted
     */
    TripReport similar(Vehicle other, boolean charges, BooleanSupplier stop) {
        Ride ride = new Ride(other, weather);
        TripResult result = new TripRun(ride, trip.drive().trace()).drive(stop);
        Charging after = charges ? Charging.of(other, ride, stop) : charging;
        boolean tells = range != null && result.complete() && result.cellsWhPerKm() > 0;
        return new TripReport(
                other, weather, result, after, tells ? range.similar(vehicle, trip, other, result) : null);
    }

    /** Consumption from the wall: what the cells gave, times what the mains give for it. */
    double wallWhPerKm() {
        return trip.cellsWhPerKm() * charging.wallPerCells();
    }

    /** Whether the trip was finished and the trace kept. */
    boolean well() {
        return trip.complete() && trip.keeping().kept();
    }

    /** The warnings that stand before all figures: in what the trip differs from what was asked for. */
    List<String> warnings() {
        List<String> all = new java.util.ArrayList<>();
        TripResult.Drive drive = trip.drive();
        double maxKph = vehicle.get(Parameter.DRIVE_MAX_KPH);
        if (!trip.complete()) {
            all.add("The trip ended after " + Say.minutes(drive.timeS()) + " of "
                    + Say.minutes(drive.trace().endS()) + ": " + drive.ended() + ".");
        }
        if (drive.trace().topKph() > maxKph) {
            all.add("The trace asks for " + Say.number(drive.trace().topKph(), 1) + " km/h, and the supervisor allows "
                    + Say.number(maxKph, 1) + " km/h (drive.max_kph).");
        }
        if (!trip.keeping().kept()) {
            all.add("The trace was not kept: "
                    + (trip.keeping().longOccasions == 1 ? "once" : trip.keeping().longOccasions + " times")
                    + " outside for two seconds or more, the longest " + Say.number(trip.keeping().longestS, 1)
                    + " s. The figures are those of the slower drive.");
        }
        if (trip.complete() && Math.abs(trip.energy().unexplainedShare()) > 0.001) {
            all.add("The energy does not close: "
                    + Say.number(100 * trip.energy().unexplainedShare(), 2)
                    + " % is not explained. Do not trust these figures.");
        }
        return all;
    }

    /** What this simulation leaves out. */
    List<String> leftOut() {
        List<String> all = new java.util.ArrayList<>();
        all.add("Curves, wet roads and cold tyres are not simulated; all of them take energy.");
        if (vehicle.get(CarParameter.LV_START_SHARE) < 1) {
            all.add("The 12 V battery set out full, not at the "
                    + Say.number(100 * vehicle.get(CarParameter.LV_START_SHARE), 0)
                    + " % of car.lv.start_share: charging it belongs to no kilometre.");
        }
        if (!charging.trouble().isEmpty()) {
            all.add("As no charge was simulated to its end, the range is counted from a state of charge of 100 %.");
        }
        if (weather.ambientC() < 10) {
            all.add("In the cold, tyres, gear oil and 12 V loads take more than this shows.");
        }
        if (vehicle.get(CarParameter.WARMER_POWER_W) > 0 && !weather.heater()) {
            all.add("The heater was off; --heater keeps it on.");
        }
        return all;
    }
}
