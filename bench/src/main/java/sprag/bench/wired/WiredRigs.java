package sprag.bench.wired;

import java.util.Set;
import sprag.bench.bus.BusFile;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.TickClock;
import sprag.bench.loop.bus.SimulatedBus;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;

/** A supervisor and a simulated car with the drawn circuit between them.
 *
 * @param loop both
 * @param wires what stands between
 */
public record WiredRigs(ClosedLoop loop, WiredCar wires) {
    /** A car at rest.
     *
     * @param bus the data bus between car and supervisor, null for none
     * @param seed where the car's noise starts
     * @param without the interlocks that are taken out
     */
    public static WiredRigs of(WiredPlan plan, Vehicle vehicle, BusFile bus, long seed, Set<Interlock> without) {
        SimulatedCar car = new SimulatedCar(vehicle, seed);
        SimulatedBus between = bus == null ? null : new SimulatedBus(car, bus);
        WiredCar wires = new WiredCar(plan, car, between == null ? car : between);
        return new WiredRigs(new ClosedLoop(car, between, wires, new TickClock(), without), wires);
    }
}
