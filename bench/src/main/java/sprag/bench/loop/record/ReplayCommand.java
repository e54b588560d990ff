package sprag.bench.loop.record;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.Json;
import sprag.hal.bus.CandumpText;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;

/** Decides a recording again. */
@Command(
        name = "replay",
        mixinStandardHelpOptions = true,
        description = "Makes the decisions of a recording again and names the first tick and field that differ.")
public final class ReplayCommand implements Callable<Integer> {
    private static final int SAME = 0;
    private static final int DIFFERENT = 1;
    private static final int UNREADABLE = 2;

    @Option(
            names = "--frames",
            description = "Print the frames of its data bus in the text form of candump and nothing else.")
    private boolean asFrames;

    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "RECORDING", description = "A file that run, panel or commission left.")
    private Path path;

    @Option(names = "--json", description = "Print the result as JSON.")
    private boolean json;

    @Override
    public Integer call() {
        try (Recording recording = new Recording(path)) {
            Optional<Replay.Difference> difference = Optional.empty();
            if (asFrames) {
                printFrames(recording);
            } else {
                Replay replay = new Replay(recording);
                difference = replay.run();
                tell(recording, replay, difference);
            }
            if (recording.isDamaged()) {
                return UNREADABLE;
            }
            return difference.isPresent() || !recording.missing().isEmpty() ? DIFFERENT : SAME;
        } catch (IOException | IllegalArgumentException e) {
            spec.commandLine().getErr().println("sprag: cannot replay " + path + ": " + e.getMessage());
            return UNREADABLE;
        }
    }

    /** What is wrong with the recording goes beside the frames, which may be read by another program. */
    private void printFrames(Recording recording) throws IOException {
        PrintWriter out = out();
        recording.listen((frame, sent, timeNs) -> out.println(CandumpText.write(timeNs, CandumpText.SOURCE, frame)));
        recording.readToEnd();
        out.flush();
        PrintWriter err = spec.commandLine().getErr();
        if (recording.frames() == 0) {
            err.println("It holds no frame: it was made without a data bus.");
        }
        if (!recording.missing().isEmpty()) {
            err.println(recording.missing());
        }
        err.flush();
    }

    private PrintWriter out() {
        return spec.commandLine().getOut();
    }

    private void tell(Recording recording, Replay replay, Optional<Replay.Difference> difference) throws IOException {
        PrintWriter out = out();
        double tickS = recording.settings().get(Parameter.LOOP_TICK_MS) / 1000;
        if (json) {
            ObjectNode root = Json.object();
            root.put("vehicle", recording.vehicle()).put("title", recording.title());
            root.put("ticks", replay.ticks()).put("frames", recording.frames()).put("missing", recording.missing());
            recording.without().forEach(row -> root.withArray("without").add(row.id()));
            difference.ifPresent(d -> root.putObject("difference")
                    .put("tick", d.tick())
                    .put("time_s", d.tick() * tickS)
                    .put("field", d.field())
                    .put("recorded", d.recorded())
                    .put("now", d.now()));
            out.println(root.toPrettyString());
        } else {
            out.printf(
                    Locale.ROOT,
                    "%s, %s: %d ticks, %.2f s%s%n",
                    recording.vehicle(),
                    recording.title(),
                    replay.ticks(),
                    replay.ticks() * tickS,
                    recording.frames() == 0 ? "" : ", " + recording.frames() + " frames of the data bus");
            if (!recording.without().isEmpty()) {
                out.println("Without "
                        + recording.without().stream()
                                .map(Interlock::id)
                                .sorted()
                                .collect(Collectors.joining(", ")));
            }
            if (!recording.missing().isEmpty()) {
                out.println(recording.missing());
            }
            difference.ifPresentOrElse(
                    d -> out.printf(
                            Locale.ROOT,
                            "First difference in tick %d (%.2f s): %s%n  recorded  %s%n  now       %s%n",
                            d.tick(),
                            d.tick() * tickS,
                            d.field(),
                            d.recorded(),
                            d.now()),
                    () -> out.println(
                            recording.missing().isEmpty()
                                    ? "Every decision is the same, to the last bit."
                                    : "The decisions of these " + replay.ticks() + " ticks are the same."));
        }
        out.flush();
    }
}
