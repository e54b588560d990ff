package sprag.bench.benchmark;

import sprag.bench.car.SimulatedCar;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.hal.Loop;
import sprag.supervisor.Supervisor;

/** A car and a supervisor in one thread, on a clock that only the ticks move. */
final class Lockstep {
    private static final long TICK_NS = 10_000_000;
    private static final double TICK_S = 0.01;

    final SimulatedCar car;
    final Supervisor supervisor;
    final Loop loop;
    private long timeNs;

    Lockstep(Vehicle vehicle) {
        car = new SimulatedCar(vehicle, 1);
        supervisor = new Supervisor(vehicle.settings());
        loop = new Loop(supervisor, vehicle.settings(), car, new Clock() {
            @Override
            public long nowNs() {
                return timeNs;
            }

            @Override
            public void waitUntil(long deadlineNs) {
                timeNs = deadlineNs;
            }
        });
    }

    void tick() {
        loop.tick();
        car.advance(TICK_S);
        timeNs += TICK_NS;
    }
}
