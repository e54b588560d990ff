package sprag.bench.port;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Event;
import sprag.bench.port.chip.Chip;
import sprag.bench.port.chip.ChipProgram;
import sprag.bench.port.chip.ChipProgram.Line;
import sprag.bench.port.chip.Drift;
import sprag.bench.port.translate.Translation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;

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

    @Parameters(paramLabel = "VEHICLE", description = "Name of a folder in config/vehicles, or a path to one.")
    private String vehicleName;

    @Mixin
    private OutOption outFolder;

    @Option(
            names = "--single",
            description = "Keep quantities with single precision (float); decisions may then differ from Java.")
    private boolean single;

    @Mixin
    private CompareOptions comparison = new CompareOptions();

    @Option(
            names = "--chip",
            paramLabel = "SCENARIO",
            description =
                    "Play it with the C on an emulated Cortex-M4F beside the Java, tick by tick; print sizes and the slowest"
                            + " step, with --single also what differs; needs gcc-arm-none-eabi, libnewlib-arm-none-eabi and"
                            + " qemu-system-arm.")
    private List<String> onChip = List.of();

    @Override
    public Integer call() throws Exception {
        PrintWriter to = spec.commandLine().getOut();
        comparison.check();
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = VehicleReader.readSupervised(catalogue.vehicle(vehicleName));
        Translation translation = new Translation(catalogue.home(), single);
        Map<String, String> files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(vehicle.settings()));
        files.putAll(translation.fieldFiles(vehicle.settings()));
        Path folder = outFolder.open();
        files.forEach((name, text) -> OutFolder.write(folder.resolve(name), text));
        to.println(translation.size() + " in " + files.size() + " files: " + folder);
        comparison.compare(translation, vehicle, folder, single);
        int failed = 0;
        if (!onChip.isEmpty()) {
            files.remove("fields.c");
            files.remove("fields.h");
            failed = chip(vehicle, folder.resolve("chip"), files, to);
        }
        to.flush();
        return failed == 0 ? ExitCode.WELL : ExitCode.FINDING;
    }

    /** Gives how many expectations failed. */
    private int chip(Vehicle vehicle, Path folder, Map<String, String> files, PrintWriter to) throws Exception {
        ChipProgram program = ChipProgram.compile(folder, files);
        ChipProgram.Sizes sizes = program.sizes();
        to.printf(
                Locale.ROOT,
                "Cortex-M4F, -Os: flash %,d bytes, RAM %,d bytes, stack below a step %,d bytes%n",
                sizes.flashBytes(),
                sizes.ramBytes(),
                sizes.stackBytes());
        int failed = 0;
        for (Scenario scenario : new ScenarioFiles(Catalogue.installed(), vehicle).take(onChip)) {
            to.println(scenario.name() + ", on the chip beside the Java:");
            to.flush();
            failed += play(vehicle, scenario, program, to);
        }
        return failed;
    }

    private int play(Vehicle vehicle, Scenario scenario, ChipProgram program, PrintWriter to) throws Exception {
        try (Chip chip = Chip.start(program.file(Line.HOST), Line.HOST)) {
            ClosedLoop loop =
                    ClosedLoop.on(scenario.on(vehicle), scenario.about().bus(), scenario.seed());
            Drift drift = new Drift(chip, loop.supervisor());
            loop.loop().listen(single ? drift : chip.beside(loop.supervisor()));
            ScenarioRun.Observer news = frame -> loop.news().forEach(event -> {
                to.printf(Locale.ROOT, "%9.2f s  %s%n", frame.timeMs / 1000.0, words(event));
                to.flush();
            });
            RunResult result =
                    new ScenarioRun(scenario, loop).play(vehicle.name(), (step, at) -> {}, List.of(news), () -> false);
            Chip.About about = chip.about();
            double tickMs = vehicle.get(Parameter.LOOP_TICK_MS);
            double shareAt100MHz = about.worstInstructions() / (tickMs * 100_000) * 100;
            if (single) {
                drift.lines().forEach(to::println);
            } else {
                to.printf(Locale.ROOT, "%,d ticks equal to the last bit%n", about.ticks());
            }
            to.printf(
                    Locale.ROOT,
                    "slowest step %,d instructions, %.1f %% of a tick at 100 million a second%n",
                    about.worstInstructions(),
                    shareAt100MHz);
            List<String> failed = result.judged().stream()
                    .filter(judged -> !judged.verdict().passed())
                    .map(judged -> judged.expectation().text())
                    .toList();
            failed.forEach(text -> to.println("FAILED: " + text));
            return failed.size();
        }
    }

    private static String words(Event event) {
        return event instanceof Event.Entered entered
                ? entered.via().to + ": " + entered.why()
                : ((Event.Began) event).row().id();
    }
}
