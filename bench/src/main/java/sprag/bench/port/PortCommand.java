package sprag.bench.port;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.OutFolder;
import sprag.bench.port.equal.Equality;
import sprag.bench.port.translate.Translation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** Writes the supervisor of a vehicle in C. */
@Command(
        name = "port",
        mixinStandardHelpOptions = true,
        description = {
            "Translates the supervisor to C99 for a microcontroller, with the values of a vehicle.",
            "",
            "DANGER: what the outputs switch can kill, burn and move a car. docs/porting.md says what a board must do"
                    + " by itself."
        })
public final class PortCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "VEHICLE", description = "name of a folder in config/vehicles, or a path to one")
    private String vehicleName;

    @Option(names = "--out", paramLabel = "FOLDER", description = "where to write; default: a new folder here")
    private Path out;

    @Option(
            names = "--single",
            description = "quantities with single precision (float); decisions may then differ from Java")
    private boolean single;

    @Option(
            names = "--compare",
            description =
                    "play every scenario in Java and in C, as it is and disturbed, and every state of Logic; needs gcc")
    private boolean compare;

    @Option(
            names = "--disturbed",
            paramLabel = "TIMES",
            defaultValue = "2",
            description = "how often --compare plays each scenario with disturbed readings; default: ${DEFAULT-VALUE}")
    private int disturbed;

    @Override
    public Integer call() throws Exception {
        PrintWriter to = spec.commandLine().getOut();
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = VehicleReader.read(catalogue.vehicle(vehicleName));
        Translation translation = new Translation(catalogue.home(), single);
        Map<String, String> files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(vehicle.settings()));
        files.putAll(translation.fieldFiles(vehicle.settings()));
        Path folder = OutFolder.open(out);
        files.forEach((name, text) -> OutFolder.write(folder.resolve(name), text));
        to.println(translation.size() + " in " + files.size() + " files: " + folder);
        if (compare) {
            compare(translation, vehicle, folder, to);
        }
        to.flush();
        return ExitCode.WELL;
    }

    private void compare(Translation translation, Vehicle vehicle, Path folder, PrintWriter to) throws Exception {
        if (single) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--compare asks for the same bits, which --single does not have. Leave one of them out");
        }
        Path built = folder.resolve("compared");
        OutFolder.make(built);
        Equality equality = new Equality(translation, vehicle, built);
        List<Scenario> scenarios = new ScenarioFiles(Catalogue.installed(), vehicle).take(List.of());
        Equality.Compared same = equality.compare(scenarios, disturbed, next -> {});
        to.printf(
                Locale.ROOT,
                "Java and C are equal to the last bit: %d scenarios, %,d ticks, %d remembered numbers; Logic with %,d"
                        + " states and %,d transitions%n",
                scenarios.size(),
                same.ticks(),
                same.remembered(),
                same.states(),
                same.transitions());
    }
}
