package sprag.bench.loop.relay;

import java.util.Set;
import sprag.bench.bus.BusFile;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Rig;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;

/** What a scenario is played on: a car with a supervisor, or one that relays switch. */
public final class Rigs {
    private Rigs() {}

    /** A car at rest.
     *
     * @param bus the data bus between car and supervisor, null for none; a car with relays has no use for one
     * @param seed where the car's noise starts
     * @param without the interlocks that are taken out; a car with relays has none
     */
    public static Rig of(Vehicle vehicle, BusFile bus, long seed, Set<Interlock> without) {
        return CarParameter.hasRelays(vehicle)
                ? new RelayLoop(vehicle, seed)
                : ClosedLoop.on(vehicle, bus, seed, without);
    }

    /** In words that follow a vehicle's name: empty, or that relays decide. */
    public static String words(Vehicle vehicle) {
        return CarParameter.hasRelays(vehicle) ? " with timer relays, no supervisor" : "";
    }
}
