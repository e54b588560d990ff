package sprag.bench.trip;

import java.nio.file.Path;
import sprag.bench.trip.trace.SpeedTrace;
import sprag.bench.trip.trace.TraceReader;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** Shipped vehicles and traces for tests. */
public final class Trips {
    private static final Path CONFIG = Path.of("..", "config");

    private Trips() {}

    static Vehicle vehicle(String name) throws BadInput {
        return VehicleReader.read(CONFIG.resolve("vehicles").resolve(name));
    }

    /** A car of another kind, as the build plays it. */
    static Vehicle kind(String name) throws BadInput {
        return VehicleReader.read(Path.of("src", "test", "resources", "kinds", name));
    }

    public static SpeedTrace shipped(String name) throws BadInput {
        return TraceReader.read(CONFIG.resolve("trips").resolve(name + ".csv"));
    }
}
