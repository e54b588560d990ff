package sprag.bench.prove;

import java.nio.file.Path;
import sprag.bench.config.BadInput;
import sprag.bench.config.Catalogue;
import sprag.bench.config.VehicleReader;
import sprag.supervisor.Settings;

/** The vehicles that come with the project. */
final class Shipped {
    private Shipped() {}

    static Settings vehicle(String name) throws BadInput {
        return VehicleReader.read(new Catalogue(Path.of("..")).vehicle(name)).settings();
    }
}
