package sprag.bench.run;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.cli.Cores;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Trouble;
import sprag.bench.cli.Wrap;
import sprag.bench.loop.TakenOut;
import sprag.bench.loop.relay.Rigs;
import sprag.bench.port.chip.ChipOption;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.run.report.HtmlIndex;
import sprag.bench.run.report.JsonResult;
import sprag.bench.run.report.RunReport;
import sprag.bench.run.report.RunXml;
import sprag.bench.run.report.Terminal80;
import sprag.bench.scenario.PlayArguments;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.wired.WiredPlan;
import sprag.supervisor.vocabulary.Interlock;

/** {@code run}: plays scenarios on the simulated car and judges what comes of them. */
@Command(
        name = "run",
        mixinStandardHelpOptions = true,
        description = {
            "Plays scenarios in closed loop on the simulated car.",
            "Tells what happened, whether the expectations were met, and by what margin."
        },
        footer = {
            "",
            "Each scenario gets a folder with report.html, trace.csv and trace.vcd;",
            "junit.xml beside them holds all results for a build server.",
            "",
            "Example: sprag run parcel-van drive-and-stop"
        })
public final class RunCommand implements Callable<Integer> {
    private static final long MS_PER_S = 1_000;

    @Mixin
    private PlayArguments arguments;

    @Mixin
    private OutOption outFolder;

    @Option(
            names = "--without",
            paramLabel = "ID",
            description = "Take out an interlock, to see what it is needed for; may be given more than once.")
    private List<String> withoutIds = new ArrayList<>();

    @Option(names = "--list", description = "Print which scenarios suit the vehicle, and play none.")
    private boolean list;

    @Option(names = "--json", description = "Print the results as JSON and nothing else.")
    private boolean json;

    @Option(names = "--junit", paramLabel = "FILE", description = "Write the results as JUnit XML there as well.")
    private Path junit;

    @Mixin
    private ChipOption chip;

    @Option(
            names = "--wired",
            description = "Put the drawn circuit of wiring.csv between the supervisor and the car (docs/wired.md).")
    private boolean wired;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws BadInput {
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = arguments.vehicle().read();
        List<Scenario> scenarios = new ScenarioFiles(catalogue, vehicle).take(arguments.scenarios());
        if (list) {
            scenarios.forEach(
                    s -> Wrap.hanging("", "    ", s.name() + ": " + s.about().title(), Wrap.TERMINAL_COLUMNS)
                            .forEach(spec.commandLine().getOut()::println));
            return ExitCode.WELL;
        }
        Set<Interlock> without = TakenOut.of(spec.commandLine(), withoutIds);
        WiredPlan wires = wired ? WiredPlan.of(vehicle) : null;
        Path out = outFolder.open();
        try (Interruption interruption = new Interruption();
                ChipSeat seat = chip.seat(vehicle, without)) {
            Vehicle named = vehicle.named(
                    vehicle.name() + Rigs.words(vehicle) + TakenOut.words(without) + (wired ? " wired as drawn" : ""));
            List<RunReport> runs;
            try (ProgressBar bar = bar(scenarios)) {
                RunSession session = new RunSession(named, wires, without, out, interruption, new Progress(bar), seat);
                runs = play(session, scenarios, interruption);
            }
            return tell(named, runs, scenarios.size(), out);
        }
    }

    private ProgressBar bar(List<Scenario> scenarios) {
        long ms = scenarios.stream().mapToLong(Scenario::durationMs).sum();
        int seconds = (int) Math.min(Integer.MAX_VALUE, (ms + MS_PER_S - 1) / MS_PER_S);
        boolean shown = Terminal.interactive() && !json;
        return new ProgressBar(spec.commandLine().getErr(), shown, seconds, "simulated seconds");
    }

    private static List<RunReport> play(RunSession session, List<Scenario> scenarios, Interruption interruption) {
        return Cores.each(
                scenarios.size(),
                i -> {
                    RunReport run = session.play(scenarios.get(i));
                    return scenarios.size() > 1 ? run.withoutHistory() : run;
                },
                done -> {},
                interruption);
    }

    /** Tells of what was played, and that it is not all when it was interrupted. */
    private int tell(Vehicle vehicle, List<RunReport> runs, int planned, Path out) {
        List<RunResult> results = runs.stream().map(RunReport::result).toList();
        String xml = RunXml.of(results);
        OutFolder.write(out.resolve("junit.xml"), xml);
        if (results.size() > 1) {
            OutFolder.write(out.resolve("index.html"), HtmlIndex.of(vehicle.name(), results));
        }
        if (junit != null) {
            OutFolder.write(junit, xml);
        }
        PrintWriter terminal = spec.commandLine().getOut();
        if (json) {
            terminal.println(JsonResult.of(vehicle.name(), runs, planned, out));
        } else {
            Terminal80 text = new Terminal80(terminal, Terminal.colour());
            if (planned == 1 && runs.size() == 1) {
                text.run(runs.get(0));
            } else {
                text.table(results, planned);
            }
            terminal.println("Written to "
                    + (planned == 1 && runs.size() == 1
                            ? out.resolve(results.get(0).scenario().name())
                            : out));
        }
        if (wired && !json) {
            results.forEach(
                    r -> circuit(out.resolve(r.scenario().name()), r.scenario().name(), terminal));
        }
        terminal.flush();
        return runs.size() == planned && results.stream().allMatch(RunResult::passed)
                ? ExitCode.WELL
                : ExitCode.FINDING;
    }

    /** Tells what blew or chattered in the drawn circuit. */
    private static void circuit(Path folder, String scenario, PrintWriter terminal) {
        Path file = folder.resolve(RunSession.CIRCUIT);
        if (!Files.exists(file)) {
            return;
        }
        try {
            Files.readAllLines(file)
                    .forEach(line -> Wrap.hanging(
                                    "", "    ", "Circuit in " + scenario + ": " + line, Wrap.TERMINAL_COLUMNS)
                            .forEach(terminal::println));
        } catch (IOException e) {
            throw new Trouble("cannot read", file, e);
        }
    }
}
