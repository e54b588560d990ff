package sprag.bench.trip.drive;

import sprag.bench.car.Lever;
import sprag.bench.car.Levers;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.State;

/**
 * A car with its supervisor and a driver, as it sets out: key off, cold, plug out, the 12 V battery full. One thread owns it.
 *
 * <p>A 12 V battery that is charged on the way takes as much on a short trip as on a long one. No consumption by the kilometre
 * would be true then.
 */
public final class Ride {
    private static final double KPH_PER_MPS = 3.6;
    private static final double BRAKE_AT_START = 0.3;
    private static final double MOST_START_S = 30;
    /** The levers act from the first tick on. */
    private static final double SETTLES_S = 0.1;

    private static final double KEY_BEFORE_START_S = 0.5;
    private static final double FOOT_OFF_S = 0.3;

    public final ClosedLoop loop;
    final SimulatedCar car;
    public final Levers levers;
    final Driver driver;
    /** The length of a tick. */
    public final double tickS;

    private double startingS;
    private double readyS;

    public Ride(Vehicle vehicle, Weather weather) {
        loop = new ClosedLoop(vehicle.with(CarParameter.LV_START_SHARE, 1), 1);
        car = loop.car();
        levers = car.levers();
        driver = new Driver(vehicle, levers, weather.regenLevel());
        tickS = loop.tickMs() / 1000.0;
        levers.set(Lever.SOC, weather.soc());
        levers.set(Lever.AMBIENT_C, weather.ambientC());
        for (Lever each : new Lever[] {
            Lever.PACK_TEMP_C,
            Lever.MOTOR_TEMP_C,
            Lever.INVERTER_TEMP_C,
            Lever.COOLANT_TEMP_C,
            Lever.CHARGER_TEMP_C,
            Lever.HEATER_TEMP_C
        }) {
            levers.set(each, weather.ambientC());
        }
        levers.set(Lever.REGEN_LEVEL, weather.regenLevel());
        levers.set(Lever.HEADWIND_KPH, weather.headwindKph());
        levers.set(Lever.HEATER, weather.heater() ? 1 : 0);
        pass(SETTLES_S);
    }

    public double truth(Quantity quantity) {
        return car.truth(quantity);
    }

    double speedMps() {
        return car.truth(Quantity.SPEED_KPH) / KPH_PER_MPS;
    }

    public boolean ready() {
        return loop.state() == State.DRIVE_ENABLE;
    }

    /** Turns the key, presses the brake, chooses forward. {@link #keepStarting} must follow. */
    void turnOn() {
        levers.set(Lever.PEDAL, 0);
        levers.set(Lever.BRAKE, BRAKE_AT_START);
        levers.set(Lever.KEY, 1);
        levers.set(Lever.DIRECTION, 1);
        startingS = 0;
        readyS = 0;
    }

    /**
     * Holds start from half a second after the key until the car is ready, then waits with the brake on, so that the supervisor
     * sees the pedal released. To be called every so often.
     *
     * @param everyS how often
     * @return whether the car may be driven off
     */
    boolean keepStarting(double everyS) {
        startingS += everyS;
        readyS = ready() ? readyS + everyS : 0;
        double held = !ready() && startingS > KEY_BEFORE_START_S ? 1 : 0;
        if (levers.get(Lever.START) != held) {
            levers.set(Lever.START, held);
        }
        return readyS > FOOT_OFF_S;
    }

    /** Turns the key off with the brake on. */
    void turnOff() {
        levers.set(Lever.PEDAL, 0);
        levers.set(Lever.BRAKE, BRAKE_AT_START);
        levers.set(Lever.START, 0);
        levers.set(Lever.DIRECTION, 0);
        levers.set(Lever.KEY, 0);
    }

    /** Starts the car. Returns whether it is ready to drive within half a minute. */
    public boolean start() {
        boolean drives = ready();
        if (!drives) {
            pass(KEY_BEFORE_START_S);
            turnOn();
        }
        for (int i = 0; i * tickS < MOST_START_S && !drives; i++) {
            drives = keepStarting(tickS);
            loop.tick();
        }
        return drives;
    }

    /** Lets time pass. */
    public void pass(double seconds) {
        for (int i = 0; i * tickS < seconds; i++) {
            loop.tick();
        }
    }
}
