package sprag.bench.port;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Wrap;
import sprag.bench.port.equal.Coverage;
import sprag.bench.port.equal.VectorFiles;
import sprag.bench.port.equal.VectorPlay;
import sprag.bench.port.equal.Vectors;
import sprag.bench.port.translate.Translation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.PlayArguments;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Transition;

/** {@code vectors}: what any port of the supervisor must give, as files. */
@Command(
        name = "vectors",
        mixinStandardHelpOptions = true,
        description = {
            "Writes readings with the results that every port of the supervisor must give, as CSV and as bytes.",
            "Says which transitions and interlocks they cross, and how many branches of Logic."
        },
        footer = {"", "Example: sprag vectors parcel-van --out vectors"})
public final class VectorsCommand implements Callable<Integer> {
    @Mixin
    private PlayArguments arguments;

    @Mixin
    private OutOption outFolder;

    @Option(
            names = "--chip",
            description =
                    "Play them on an emulated Cortex-M4F too; needs gcc-arm-none-eabi, libnewlib-arm-none-eabi and"
                            + " qemu-system-arm.")
    private boolean chip;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws Exception {
        Vehicle vehicle = arguments.vehicle().read();
        List<Scenario> scenarios = new ScenarioFiles(Catalogue.installed(), vehicle).take(arguments.scenarios());
        Path folder = outFolder.open();
        Vectors vectors = new Vectors(vehicle);
        PrintWriter err = spec.commandLine().getErr();
        try (ProgressBar bar = new ProgressBar(err, Terminal.interactive(), scenarios.size(), "scenarios")) {
            vectors.play(scenarios, bar);
        }
        int inTicks = vectors.crossed().size();
        vectors.walkLogic();
        VectorFiles.write(vectors, folder);
        PrintWriter to = spec.commandLine().getOut();
        int ticks =
                vectors.sequences().stream().mapToInt(Vectors.Sequence::ticks).sum();
        to.println(ticks + " ticks of " + vectors.sequences().size() + " of " + scenarios.size() + " scenarios cross "
                + inTicks + " transitions and interlocks;");
        to.println("with " + vectors.logicRows() + " branches of Logic alone:");
        tell(to, vectors, "transitions", Transition.values(), Transition::name);
        tell(to, vectors, "interlocks", Interlock.values(), Interlock::id);
        Translation translation = new Translation(Catalogue.installed().home(), false);
        Coverage.words(translation, vehicle, vectors, folder.resolve("counted")).forEach(to::println);
        if (chip) {
            to.flush();
            to.println(VectorPlay.onChip(translation, vehicle, vectors, folder.resolve("chip")));
        }
        to.println("Written to " + folder);
        to.flush();
        return ExitCode.WELL;
    }

    private static <T extends Enum<T>> void tell(
            PrintWriter to, Vectors vectors, String what, T[] all, Function<T, String> name) {
        List<String> missing = Stream.of(all)
                .filter(row -> !vectors.crossed().contains(row))
                .map(name)
                .toList();
        to.println(all.length - missing.size() + " of " + all.length + " " + what);
        if (!missing.isEmpty()) {
            Wrap.at("not crossed: " + String.join(", ", missing), Wrap.TERMINAL_COLUMNS, "  ")
                    .forEach(to::println);
        }
    }
}
