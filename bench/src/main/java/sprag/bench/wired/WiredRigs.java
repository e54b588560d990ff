package sprag.bench.wired;

import java.util.Set;
import sprag.bench.bus.BusFile;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Rig;
import sprag.bench.loop.TickClock;
import sprag.bench.loop.bus.SimulatedBus;
import sprag.bench.loop.relay.RelayLoop;
import sprag.bench.vehicle.CarParameter;
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

    /** What a scenario is played on.
     *
     * @param rig a car with a supervisor, or one that relays switch
     * @param wires its circuit
     */
    public record Played(Rig rig, WiredCar wires) {}

    /** A car with a supervisor, or one that relays switch, each wired as drawn and at rest. */
    public static Played played(WiredPlan plan, Vehicle vehicle, BusFile bus, long seed, Set<Interlock> without) {
        if (CarParameter.hasRelays(vehicle)) {
            Relays relays = relays(plan, vehicle, seed);
            return new Played(relays.loop, relays.wires);
        }
        WiredRigs rigs = of(plan, vehicle, bus, seed, without);
        return new Played(rigs.loop, rigs.wires);
    }

    /** A car that relays switch.
     *
     * @param loop the car
     * @param wires its circuit
     */
    public record Relays(RelayLoop loop, WiredCar wires) {}

    /** A car at rest that relays switch. */
    public static Relays relays(WiredPlan plan, Vehicle vehicle, long seed) {
        SimulatedCar car = new SimulatedCar(vehicle, seed);
        WiredCar wires = new WiredCar(plan, car, car);
        return new Relays(new RelayLoop(car, wires, wires.arriving(), wires::moveRelays), wires);
    }
}
