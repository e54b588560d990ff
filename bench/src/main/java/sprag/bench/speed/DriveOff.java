package sprag.bench.speed;

import sprag.bench.car.Lever;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.State;

/** The drive whose steps are measured: key, start, half pedal. */
public final class DriveOff {
    /** So many ticks after the beginning it drives. */
    public static final int TICKS = 1000;

    private static final int TICKS_PER_S = 100;

    private DriveOff() {}

    /** A closed loop that drives.
     *
     * @throws IllegalStateException when the vehicle does not start
     */
    public static ClosedLoop of(Vehicle vehicle) {
        return started(new ClosedLoop(vehicle, 1));
    }

    /** Lets a loop that has not begun drive. */
    public static ClosedLoop started(ClosedLoop loop) {
        for (int i = 0; i < TICKS; i++) {
            pull(loop.car(), i);
            loop.tick();
        }
        if (loop.state() != State.DRIVE_ENABLE) {
            throw new IllegalStateException("the drive did not begin: " + loop.state());
        }
        return loop;
    }

    /** Goes on with the pedal going down and up, ten seconds each, on a pack that never empties. */
    static void goOn(ClosedLoop loop, int seconds) {
        for (int s = 0; s < seconds; s++) {
            loop.car().levers().set(Lever.SOC, 0.7);
            loop.car().levers().set(Lever.PEDAL, s / 10 % 2 == 0 ? 0.35 : 0.05);
            for (int i = 0; i < TICKS_PER_S; i++) {
                loop.tick();
            }
        }
    }

    private static void pull(SimulatedCar car, int tick) {
        switch (tick) {
            case 20 -> {
                car.levers().set(Lever.KEY, 1);
                car.levers().set(Lever.BRAKE, 0.5);
            }
            case 60 -> car.levers().set(Lever.START, 1);
            case 80 -> car.levers().set(Lever.START, 0);
            case 600 -> car.levers().set(Lever.DIRECTION, 1);
            case 640 -> car.levers().set(Lever.BRAKE, 0);
            case 660 -> car.levers().set(Lever.PEDAL, 0.5);
            default -> {}
        }
    }
}
