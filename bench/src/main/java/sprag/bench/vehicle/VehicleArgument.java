package sprag.bench.vehicle;

import java.nio.file.Path;
import picocli.CommandLine.Parameters;

/** The vehicle that a command is about, as it is named on the command line. */
public final class VehicleArgument {
    @Parameters(
            index = "0",
            paramLabel = "VEHICLE",
            description = "Name of a shipped vehicle, or a path to a vehicle's folder.")
    private String name;

    /** The folder of the vehicle. */
    public Path folder() throws BadInput {
        return Catalogue.installed().vehicle(name);
    }

    /** The vehicle itself. */
    public Vehicle read() throws BadInput {
        return VehicleReader.read(folder());
    }

    /** The vehicle itself, for a command that is about its supervisor; one that relays switch is refused. */
    public Vehicle readSupervised() throws BadInput {
        return VehicleReader.readSupervised(folder());
    }
}
