package sprag.bench.trip.drive;

import java.util.function.BooleanSupplier;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.trip.trace.SpeedTrace;
import sprag.supervisor.vocabulary.State;

/** Follows one trace with one car, and measures on the way. */
public final class TripRun {
    private static final int METER_TICKS_MS = 100;
    private static final double LOOKS_AHEAD_S = 0.15;
    private static final double HALF_SLOPE_S = 0.5;
    /** So long before a parking time ends the driver turns the key. */
    private static final double GETS_IN_S = 6;
    /** A car that is not ready for so long while it should drive has ended its trip. */
    private static final double GIVES_UP_S = 15;

    private final Ride ride;
    private final SpeedTrace trace;
    private final Keeping keeping;
    private final LimitsMet limits = new LimitsMet();
    private final TripSeries series;
    private final int meterTicks;
    private final int driverTicks;

    private int row;
    private double atS;
    private double stuckS;
    private boolean off;
    private boolean starting;
    private String left = "";
    private double drawnJ;
    private double givenBackJ;
    private String ended = "";

    public TripRun(Ride ride, SpeedTrace trace) {
        this.ride = ride;
        this.trace = trace;
        keeping = new Keeping(trace);
        series = new TripSeries(trace.endS());
        meterTicks = Math.max(1, (int) (METER_TICKS_MS / (1000 * ride.tickS)));
        driverTicks = Math.max(1, (int) Math.round(Driver.EVERY_S / ride.tickS));
    }

    /** Drives to the end of the trace, or until the car does not go on.
     *
     * @param stop asked now and then; true ends the trip where it is
     */
    public TripResult drive(BooleanSupplier stop) {
        double[] before = EnergyAccount.read(ride);
        double cellsJ = EnergyAccount.fromCells(ride);
        double startM = ride.truth(Quantity.DISTANCE_M);
        double startSoc = ride.truth(Quantity.SOC);
        if (ride.start()) {
            follow(stop);
        } else {
            ended = "the car is not ready to drive after half a minute: it is in " + ride.loop.state() + ", "
                    + ride.loop.why();
        }
        double[] spent = EnergyAccount.read(ride);
        for (int i = 0; i < spent.length; i++) {
            spent[i] -= before[i];
        }
        return new TripResult(
                new TripResult.Drive(ride.truth(Quantity.DISTANCE_M) - startM, atS, trace, ended),
                new TripResult.Energy(EnergyAccount.fromCells(ride) - cellsJ, drawnJ, givenBackJ, spent),
                new TripResult.Charge(startSoc, ride.truth(Quantity.SOC)),
                keeping,
                limits,
                series);
    }

    /** Whether the trace is not kept at this moment. */
    boolean isOutside() {
        return keeping.isLong();
    }

    private void follow(BooleanSupplier stop) {
        double beforeJ = ride.truth(Quantity.PACK_ENERGY_OUT_J);
        int ticks = (int) Math.round(trace.endS() / ride.tickS);
        for (int tick = 0; tick < ticks && ended.isEmpty(); tick++) {
            atS = tick * ride.tickS;
            if (tick % driverTicks == 0) {
                drive();
            }
            ride.loop.tick();
            double nowJ = ride.truth(Quantity.PACK_ENERGY_OUT_J);
            drawnJ += Math.max(0, nowJ - beforeJ);
            givenBackJ += Math.max(0, beforeJ - nowJ);
            beforeJ = nowJ;
            if (tick % meterTicks == 0) {
                meter(meterTicks * ride.tickS);
                if (stop.getAsBoolean()) {
                    ended = "it was interrupted";
                }
            }
        }
        atS = ended.isEmpty() ? trace.endS() : atS;
    }

    /** What the driver does at this moment of the trace. */
    private void drive() {
        row = trace.rowAt(atS, row);
        if (ride.levers.get(Lever.GRADE_PERCENT) != trace.gradePercent(row)) {
            ride.levers.set(Lever.GRADE_PERCENT, trace.gradePercent(row));
        }
        boolean leaves = trace.parked(row) && !parkedUntil(GETS_IN_S);
        if (trace.parked(row) && !leaves) {
            if (!off && Math.abs(ride.speedMps()) < 0.1) {
                ride.turnOff();
                off = true;
            } else if (!off) {
                ride.driver.act(0, 0, ride.speedMps(), trace.gradePercent(row));
            }
            return;
        }
        if (off && ride.loop.state() == State.OFF) {
            ride.turnOn();
            off = false;
            starting = true;
        }
        starting = starting && !ride.keepStarting(Driver.EVERY_S);
        if (!starting) {
            press();
        }
    }

    /** Whether the car stays parked for so long from now. */
    private boolean parkedUntil(double inS) {
        int later = trace.rowAt(atS + inS, row);
        for (int i = row; i <= later; i++) {
            if (!trace.parked(i)) {
                return false;
            }
        }
        return true;
    }

    private void press() {
        double soonS = atS + LOOKS_AHEAD_S;
        double wanted = trace.speedAt(soonS, row);
        double rise = trace.speedAt(soonS + HALF_SLOPE_S, row) - trace.speedAt(soonS - HALF_SLOPE_S, row);
        ride.driver.act(wanted, rise / (2 * HALF_SLOPE_S), ride.speedMps(), trace.gradePercent(row));
    }

    private void meter(double forS) {
        double speedMps = ride.speedMps();
        keeping.judge(atS + ride.tickS, speedMps, ride.driver.givesAll(), forS);
        limits.note(ride.loop, atS, forS);
        series.note(ride, atS, trace.speedAt(atS, row));
        if (ride.ready()) {
            left = "";
        } else if (left.isEmpty() && !off && !starting) {
            left = ride.loop.why();
        }
        boolean shouldDrive = !ride.ready() && !off && !trace.parked(row);
        stuckS = shouldDrive ? stuckS + forS : 0;
        if (stuckS > GIVES_UP_S && Math.abs(speedMps) < 0.5) {
            ended = "the car stopped driving: it is in " + ride.loop.state() + ", "
                    + (left.isEmpty() ? ride.loop.why() : left);
        }
    }
}
