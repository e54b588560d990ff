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
import sprag.bench.cli.Trouble;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Event;
import sprag.bench.port.chip.Chip;
import sprag.bench.port.chip.ChipProgram;
import sprag.bench.port.chip.ChipProgram.Line;
import sprag.bench.port.equal.Equality;
import sprag.bench.port.equal.Speed;
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
    private static final int MOST_SHOWN = 20;

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
                    "play every scenario in Java and in C, as it is and disturbed, and every state of Logic; with --single"
                            + " list each decision that differs with its limit; needs gcc")
    private boolean compare;

    @Option(
            names = "--disturbed",
            paramLabel = "TIMES",
            defaultValue = "2",
            description = "how often --compare plays each scenario with disturbed readings; default: ${DEFAULT-VALUE}")
    private int disturbed;

    @Option(
            names = "--hostile",
            paramLabel = "TICKS",
            defaultValue = "0",
            description = "how many ticks with hostile readings and no car --compare adds; default: ${DEFAULT-VALUE}")
    private long hostileTicks;

    @Option(
            names = "--chip",
            paramLabel = "SCENARIO",
            description =
                    "play it with the C on an emulated Cortex-M4F beside the Java, tick by tick; prints sizes and the slowest"
                            + " step; needs gcc-arm-none-eabi, libnewlib-arm-none-eabi and qemu-system-arm")
    private List<String> onChip = List.of();

    @Override
    public Integer call() throws Exception {
        PrintWriter to = spec.commandLine().getOut();
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = VehicleReader.readSupervised(catalogue.vehicle(vehicleName));
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
        if (!onChip.isEmpty()) {
            files.remove("fields.c");
            files.remove("fields.h");
            chip(vehicle, folder.resolve("chip"), files, to);
        }
        to.flush();
        return ExitCode.WELL;
    }

    private void compare(Translation translation, Vehicle vehicle, Path folder, PrintWriter to) throws Exception {
        Path built = folder.resolve("compared");
        OutFolder.make(built);
        Equality equality = new Equality(translation, vehicle, built);
        List<Scenario> scenarios = new ScenarioFiles(Catalogue.installed(), vehicle).take(List.of());
        if (single) {
            compareSingle(equality, scenarios, folder, to);
            return;
        }
        Equality.Compared same = equality.compare(scenarios, new Equality.Amount(disturbed, hostileTicks), next -> {});
        to.printf(
                Locale.ROOT,
                "Java and C are equal to the last bit: %d scenarios, %,d ticks, %d remembered numbers; Logic with %,d"
                        + " states and %,d transitions%n",
                scenarios.size(),
                same.ticks(),
                same.remembered(),
                same.states(),
                same.transitions());
        to.flush();
        Speed speed = equality.speed(new ScenarioFiles(Catalogue.installed(), vehicle)
                .take(List.of("drive-and-stop"))
                .get(0));
        to.printf(
                Locale.ROOT,
                "One step of a drive, processor time by turns: Java %.0f ns, C (gcc -O2) %.0f ns, ratio %.2f. Java also"
                        + " keeps the memory for people, which C leaves out.%n",
                speed.javaNs(),
                speed.cNs(),
                speed.ratio());
    }

    private void compareSingle(Equality equality, List<Scenario> scenarios, Path folder, PrintWriter to)
            throws Exception {
        Equality.Rounded rounded = equality.compareSingle(scenarios, disturbed);
        int differing = rounded.differences().size();
        to.printf(
                Locale.ROOT,
                "Single precision beside Java: %d scenarios, %,d ticks; %,d decisions differ%n",
                scenarios.size(),
                rounded.ticks(),
                differing);
        rounded.differences().stream().limit(MOST_SHOWN).forEach(line -> to.println("  " + line));
        if (differing > 0) {
            Path list = folder.resolve("differences.txt");
            OutFolder.write(list, String.join("\n", rounded.differences()) + "\n");
            to.println("All of them: " + list);
        }
        rounded.most()
                .forEach((output, away) -> to.printf(
                        Locale.ROOT,
                        "%-24s at most %.2g away; bound %.2g%n",
                        output.key(),
                        away,
                        Equality.Rounded.bound(output)));
        to.flush();
        if (rounded.unexplained() > 0 || !rounded.beyond().isEmpty()) {
            throw new Trouble("single precision: " + rounded.unexplained()
                    + " decisions differ without a limit nearby; " + "beyond their bound: " + rounded.beyond());
        }
    }

    private void chip(Vehicle vehicle, Path folder, Map<String, String> files, PrintWriter to) throws Exception {
        if (single) {
            throw new ParameterException(
                    spec.commandLine(), "--chip compares with the Java to the last bit, which --single does not have");
        }
        ChipProgram program = ChipProgram.compile(folder, files);
        ChipProgram.Sizes sizes = program.sizes();
        to.printf(
                Locale.ROOT,
                "Cortex-M4F, -Os: flash %,d bytes, RAM %,d bytes, stack below a step %,d bytes%n",
                sizes.flashBytes(),
                sizes.ramBytes(),
                sizes.stackBytes());
        for (Scenario scenario : new ScenarioFiles(Catalogue.installed(), vehicle).take(onChip)) {
            to.println(scenario.name() + ", on the chip beside the Java:");
            to.flush();
            play(vehicle, scenario, program, to);
        }
    }

    private static void play(Vehicle vehicle, Scenario scenario, ChipProgram program, PrintWriter to) throws Exception {
        try (Chip chip = Chip.start(program.file(Line.HOST), Line.HOST)) {
            ClosedLoop loop =
                    ClosedLoop.on(scenario.on(vehicle), scenario.about().bus(), scenario.seed());
            loop.loop().listen(chip.beside(loop.supervisor()));
            ScenarioRun.Observer news = frame -> loop.news().forEach(event -> {
                to.printf(Locale.ROOT, "%9.2f s  %s%n", frame.timeMs / 1000.0, words(event));
                to.flush();
            });
            RunResult result =
                    new ScenarioRun(scenario, loop).play(vehicle.name(), (step, at) -> {}, List.of(news), () -> false);
            Chip.About about = chip.about();
            double tickMs = vehicle.get(Parameter.LOOP_TICK_MS);
            double shareAt100MHz = about.worstInstructions() / (tickMs * 100_000) * 100;
            to.printf(
                    Locale.ROOT,
                    "%,d ticks equal to the last bit; slowest step %,d instructions, %.1f %% of a tick at 100 million a second%n",
                    about.ticks(),
                    about.worstInstructions(),
                    shareAt100MHz);
            result.judged().stream()
                    .filter(judged -> !judged.verdict().passed())
                    .forEach(judged ->
                            to.println("FAILED: " + judged.expectation().text()));
        }
    }

    private static String words(Event event) {
        return event instanceof Event.Entered entered
                ? entered.via().to + ": " + entered.why()
                : ((Event.Began) event).row().id();
    }
}
