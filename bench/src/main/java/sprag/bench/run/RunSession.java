package sprag.bench.run;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.loop.Rig;
import sprag.bench.loop.relay.Rigs;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.run.report.HtmlReport;
import sprag.bench.run.report.RunReport;
import sprag.bench.run.report.Timeline;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.wired.WiredCar;
import sprag.bench.wired.WiredPlan;
import sprag.bench.wired.WiredRigs;
import sprag.supervisor.vocabulary.Interlock;

/** Plays scenarios on one vehicle, each into a folder of its own, several at a time. Where interlocks are taken out, the vehicle's name says so. */
record RunSession(
        Vehicle vehicle,
        WiredPlan wires,
        Set<Interlock> without,
        Path out,
        BooleanSupplier stop,
        Progress progress,
        ChipSeat seat) {
    /** The name of the file in a run's folder that says what the drawn circuit did by itself. */
    static final String CIRCUIT = "circuit.txt";

    private WiredRigs.Played rig(Scenario scenario) {
        Vehicle car = scenario.on(vehicle);
        return wires == null
                ? new WiredRigs.Played(Rigs.of(car, scenario.about().bus(), scenario.seed(), without), null)
                : WiredRigs.played(wires, car, scenario.about().bus(), scenario.seed(), without);
    }

    /** Writes into the folder of a run what its circuit did by itself; an earlier file there is replaced. */
    private static void told(WiredCar circuit, Path folder) {
        if (circuit != null) {
            String lines = circuit.said().stream().map(line -> line + "\n").collect(Collectors.joining());
            OutFolder.write(folder.resolve(CIRCUIT), lines);
        }
    }

    /** Plays one and writes its traces and its page. */
    RunReport play(Scenario scenario) {
        Path folder = out.resolve(scenario.name());
        WiredRigs.Played played = rig(scenario);
        Rig loop = played.rig();
        Timeline timeline = new Timeline(loop.channels());
        String title = scenario.name() + " on " + vehicle.name();
        RunReport report;
        try (RunFiles files = new RunFiles(folder, scenario, loop, title);
                ChipSeat.Running chip = seat.beside(loop)) {
            assert chip != null;
            ScenarioRun run = new ScenarioRun(scenario, loop);
            RunResult result =
                    run.play(vehicle.name(), timeline::done, List.of(timeline, files, progress.ofOne()), stop);
            report = new RunReport(vehicle, result, timeline, files.history());
        } catch (IOException e) {
            throw new Trouble("cannot write the traces in", folder, e);
        }
        told(played.wires(), folder);
        if (report.history().size() > 0) {
            OutFolder.write(folder.resolve("report.html"), HtmlReport.of(report));
        }
        return report;
    }
}
