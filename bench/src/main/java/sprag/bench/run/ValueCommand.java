package sprag.bench.run;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.measure.Measure;
import sprag.bench.loop.measure.Measure.Found;
import sprag.bench.loop.measure.TraceFile;
import sprag.bench.loop.measure.Track;
import sprag.bench.vehicle.BadInput;

/** {@code value}: reads a value off a run that was played. */
@Command(
        name = "value",
        mixinStandardHelpOptions = true,
        description = {
            "Reads a value off the trace of a run, as a person with a cursor would.",
            "",
            "  COLUMN at MOMENT                        car.bus_voltage_v at 3.7",
            "  most|least COLUMN [from M] [to M]       most car.contactor_peak_a",
            "  change COLUMN from M [to M]             change car.distance_m from 4.2",
            "  time MOMENT [from MOMENT]               time car.bus_voltage_v below 60",
            "  state at MOMENT                         state at end",
            "",
            "A moment: seconds, end, state NAME, interlock ID, COLUMN above|below NUMBER;",
            "then + SECONDS, and after MOMENT. The columns stand in docs/traces.md."
        },
        footer = {"", "Example: sprag value sprag-out/drive-and-stop 'most car.speed_kph'"})
public final class ValueCommand implements Callable<Integer> {
    @Parameters(index = "0", paramLabel = "RUN", description = "A trace.csv, or the folder of a run that holds one.")
    private Path run;

    @Parameters(index = "1..*", arity = "1..*", paramLabel = "QUESTION", description = "What is asked, in quotes.")
    private List<String> questions;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws BadInput {
        List<Measure> measures = questions.stream().map(this::measure).toList();
        Track track = TraceFile.read(run, FrameColumns.CHANNELS);
        boolean all = true;
        for (Measure measure : measures) {
            Found found = measure.in(track);
            all &= !found.equals(Found.NEVER);
            spec.commandLine().getOut().println(found.words());
        }
        return all ? ExitCode.WELL : ExitCode.FINDING;
    }

    private Measure measure(String question) {
        try {
            return Measure.of(question, FrameColumns.CHANNELS);
        } catch (IllegalArgumentException e) {
            throw new ParameterException(spec.commandLine(), "\"" + question + "\": " + e.getMessage());
        }
    }
}
