package sprag.bench.evidence.prove.export;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.IntConsumer;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Settings;

/**
 * Writes Logic and its reachable states for other tools.
 *
 * @param without interlocks that are left out
 */
public record Export(Vehicle vehicle, Set<Interlock> without) {
    /** The reachable graph. */
    public static final String GRAPH = "logic.aut";
    /** What the numbers of its states stand for. */
    public static final String STATES = "states.csv";
    /** The model for SPIN. */
    public static final String MODEL = "logic.pml";

    /** Something that is written to a file piece by piece. */
    private interface Text {
        void write(Appendable out) throws IOException;
    }

    /** Writes all three files.
     *
     * @param maxStates how many states the graph may have
     * @param done told how many states were found, and then how many more were written
     * @return what was written, one line; nothing when the graph was too large or it was asked to stop: then there is no graph
     */
    public Optional<String> write(Path folder, long maxStates, BooleanSupplier stop, IntConsumer done) {
        Settings settings = vehicle.settings();
        OutFolder.make(folder);
        OutFolder.write(folder.resolve(MODEL), PromelaModel.of(vehicle.name(), settings, settings, without));
        remove(folder.resolve(GRAPH));
        remove(folder.resolve(STATES));
        Tick tick = new Tick(settings, settings, without, false);
        Optional<StateGraph> found = StateGraph.explore(tick, maxStates, stop, done);
        found.ifPresent(graph -> {
            stream(folder.resolve(GRAPH), out -> graph.write(out, done));
            stream(folder.resolve(STATES), graph::writeStates);
        });
        return found.map(graph ->
                String.format(Locale.ROOT, "%,d states and %,d ways between them", graph.states(), graph.ways()));
    }

    /** A graph of an earlier export would be taken for the graph of this model. */
    private static void remove(Path file) {
        try {
            if (Files.isRegularFile(file)) {
                Files.delete(file);
            }
        } catch (IOException e) {
            throw new Trouble("cannot remove the old", file, e);
        }
    }

    private static void stream(Path file, Text text) {
        OutFolder.refusePipe(file);
        try (BufferedWriter out = Files.newBufferedWriter(file)) {
            text.write(out);
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }
}
