package sprag.bench.scenario;

import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import sprag.bench.vehicle.VehicleArgument;

/** The vehicle that a command is about and the scenarios that it plays, as they are named on the command line. */
public final class PlayArguments {
    @Mixin
    private VehicleArgument vehicle;

    @Parameters(
            index = "1..*",
            arity = "0..*",
            paramLabel = "SCENARIO",
            description =
                    "Name of a shipped scenario, or path to a file; without any, every scenario that suits the vehicle.")
    private List<String> scenarios = new ArrayList<>();

    /** The vehicle. */
    public VehicleArgument vehicle() {
        return vehicle;
    }

    /** The names of the scenarios in their order, empty for all that suit. */
    public List<String> scenarios() {
        return scenarios;
    }
}
