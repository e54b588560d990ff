package sprag.bench.evidence.prove;

import java.nio.file.Path;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Settings;

/** The vehicles that come with the project. */
final class Shipped {
    private Shipped() {}

    static Settings vehicle(String name) throws BadInput {
        return whole(name).settings();
    }

    static Vehicle whole(String name) throws BadInput {
        return VehicleReader.read(new Catalogue(Path.of("..")).vehicle(name));
    }
}
