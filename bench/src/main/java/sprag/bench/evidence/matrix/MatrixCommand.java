package sprag.bench.evidence.matrix;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.cli.Json;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;

/** Prints the interlock matrix of a vehicle. */
@Command(
        name = "matrix",
        mixinStandardHelpOptions = true,
        description = "Prints the interlock matrix: every cause, what it does, how soon, and what ends that.")
public final class MatrixCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument named;

    @Option(names = "--json", description = "Print the matrix as JSON.")
    private boolean json;

    @Override
    public Integer call() throws Exception {
        Vehicle vehicle = named.readSupervised();
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(tree(vehicle.settings()).toPrettyString());
        } else {
            Matrix.forTerminal(vehicle.settings()).forEach(out::println);
        }
        out.flush();
        return 0;
    }

    private static ArrayNode tree(Settings settings) {
        ArrayNode rows = Json.array();
        for (Interlock row : Interlock.values()) {
            ObjectNode node = rows.addObject();
            node.put("id", row.id());
            node.put("hazard", row.hazard);
            node.put("cause", row.cause.toString());
            node.put("response", row.response.name());
            node.put("reset", row.reset.name());
            ArrayNode where = node.putArray("asked_in");
            for (State state : row.where) {
                where.add(state.name());
            }
            Parameter detection = row.cause.detection();
            if (detection != null) {
                node.put("detection_ms", settings.get(detection));
            }
            ArrayNode missing = node.putArray("cannot_act_without");
            Needs.of(row).missing(settings).forEach(signal -> missing.add(signal.key()));
            node.put("budget_ms", settings.get(row.budget));
            node.put("why", row.why);
        }
        return rows;
    }
}
