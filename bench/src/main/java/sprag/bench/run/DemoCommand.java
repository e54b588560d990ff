package sprag.bench.run;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Wrap;
import sprag.bench.page.Cautions;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.run.report.HtmlIndex;
import sprag.bench.run.report.RunReport;
import sprag.bench.run.report.RunXml;
import sprag.bench.run.report.Terminal80;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** {@code demo}: the short tour on a shipped vehicle. */
@Command(
        name = "demo",
        mixinStandardHelpOptions = true,
        description = {"The short tour: a check, a drive, a charge, a broken relay.", "Writes a page about each."})
public final class DemoCommand implements Callable<Integer> {
    private static final String VEHICLE = "parcel-van";

    /** One drive, one charge, one broken relay. A stop whose scenario is not shipped is left out. */
    private static final List<String> STOPS =
            List.of("drive-and-stop", "charge-latch-pressed", "positive-contactor-welded");

    @Mixin
    private OutOption outFolder;

    @Spec
    private CommandSpec spec;

    private PrintWriter out;
    private Terminal80 text;

    @Override
    public Integer call() throws BadInput {
        out = spec.commandLine().getOut();
        text = new Terminal80(out, Terminal.colour());
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = VehicleReader.read(catalogue.vehicle(VEHICLE));
        List<String> names =
                STOPS.stream().filter(catalogue.scenarios()::contains).toList();
        List<Scenario> scenarios = new ScenarioFiles(catalogue, vehicle).take(names);
        Path folder = outFolder.open();
        text.paragraph("A short tour on a simulated " + vehicle.name() + ": " + vehicle.description() + ".");
        text.paragraph("The supervisor is the real one; the car, its wires and its faults are simulated.");
        check(folder);
        List<RunResult> results = new ArrayList<>();
        try (Interruption interruption = new Interruption()) {
            Progress silent = new Progress(new ProgressBar(out, false, 1, ""));
            RunSession session =
                    new RunSession(vehicle, null, Set.of(), folder, interruption, silent, ChipSeat.empty());
            for (Scenario scenario : scenarios) {
                results.add(tell(session.play(scenario)));
            }
        }
        OutFolder.write(folder.resolve("junit.xml"), RunXml.of(results));
        OutFolder.write(folder.resolve("index.html"), HtmlIndex.of(vehicle.name(), results));
        farewell(folder);
        return results.stream().allMatch(RunResult::passed) ? ExitCode.WELL : ExitCode.FINDING;
    }

    /** Runs the command {@code check} on the vehicle; its findings go to a file, the tour goes on. */
    private void check(Path folder) {
        CommandLine line = spec.parent().subcommands().get("check");
        StringWriter said = new StringWriter();
        line.setOut(new PrintWriter(said)).setErr(new PrintWriter(said));
        int status = line.execute(VEHICLE);
        OutFolder.write(folder.resolve("check.txt"), said.toString());
        heading("The check: do the numbers of the vehicle fit each other?");
        text.paragraph(
                status == ExitCode.WELL
                        ? "Nothing speaks against it."
                        : "There are findings, as there are on every real car.");
        text.paragraph("The whole list is in check.txt.");
    }

    private RunResult tell(RunReport run) {
        heading(run.result().scenario().about().title());
        text.paragraph(run.result().scenario().about().why().strip());
        out.println();
        text.story(run);
        out.println();
        out.println(Terminal80.summary(run.result()) + ": "
                + run.result().scenario().name() + "/report.html");
        return run.result();
    }

    private void heading(String title) {
        out.println();
        out.println("--- " + title + " " + "-".repeat(Math.max(3, Wrap.TERMINAL_COLUMNS - 5 - title.length())));
    }

    private void farewell(Path folder) {
        heading("Before anything here is tried on a car");
        Cautions.RULES.forEach(text::paragraph);
        text.paragraph(Cautions.STANDING);
        out.println();
        out.println("Next: sprag run " + VEHICLE + "      every scenario that suits it");
        out.println("      sprag --help              everything else");
        out.println("Written to " + folder.resolve("index.html"));
        out.flush();
    }
}
