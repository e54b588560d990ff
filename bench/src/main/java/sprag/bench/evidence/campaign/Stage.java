package sprag.bench.evidence.campaign;

import sprag.bench.car.SimulatedCar;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.hal.Loop;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Parameter;

/** A car and a supervisor in lockstep, ready for one telling of a story. */
final class Stage {
    private static final double NS_PER_S = 1e9;

    final SimulatedCar car;
    final Supervisor supervisor;
    final Loop loop;
    final double tickS;
    private long nowNs;

    Stage(Vehicle vehicle, long seed) {
        car = new SimulatedCar(vehicle, seed);
        supervisor = new Supervisor(vehicle.settings());
        tickS = vehicle.get(Parameter.LOOP_TICK_MS) / 1000;
        loop = new Loop(supervisor, vehicle.settings(), car, new Clock() {
            @Override
            public long nowNs() {
                return nowNs;
            }

            @Override
            public void waitUntil(long deadlineNs) {
                nowNs = deadlineNs;
            }
        });
    }

    /** One tick: the supervisor decides, the car obeys. */
    void tick() {
        loop.tick();
        car.advance(tickS);
        nowNs += Math.round(tickS * NS_PER_S);
    }
}
