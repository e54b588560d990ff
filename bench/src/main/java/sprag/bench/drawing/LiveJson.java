package sprag.bench.drawing;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import sprag.bench.drawing.live.BrokenPromise;
import sprag.bench.drawing.live.FaultResult;
import sprag.bench.drawing.live.LivePromise;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.drawing.live.LiveTable;

/** What is live when, for programs. */
final class LiveJson {
    private static final ObjectMapper MAPPER = new ObjectMapper();

    private LiveJson() {}

    static String of(String name, LiveReport report) {
        ObjectNode root = MAPPER.createObjectNode();
        root.put("vehicle", name);
        root.put("combinations", report.combinations());
        root.put("told_apart", report.tried());
        ArrayNode kept = root.putArray("kept");
        report.kept().stream().map(LivePromise::name).forEach(kept::add);
        put(root.putArray("broken"), report.broken());
        root.put("faults_tried", report.faultsTried());
        ArrayNode faults = root.putArray("faults");
        for (FaultResult fault : report.faults()) {
            ObjectNode node = faults.addObject();
            node.put("fault", fault.fault());
            fault.fuses().forEach(node.putArray("blows")::add);
            put(node.putArray("broken"), fault.broken());
        }
        ArrayNode situations = root.putArray("situations");
        report.table().titles().forEach(situations::add);
        ArrayNode nets = root.putArray("nets");
        for (LiveTable.Row row : report.table().rows()) {
            ObjectNode node = nets.addObject();
            node.put("net", row.net());
            ArrayNode carries = node.putArray("carries");
            row.cells().forEach(cell -> carries.add(cell.text()));
        }
        return root.toPrettyString();
    }

    private static void put(ArrayNode array, List<BrokenPromise> all) {
        for (BrokenPromise broken : all) {
            ObjectNode node = array.addObject();
            node.put("promise", broken.promise().name());
            node.put("hazard", broken.promise().hazard);
            node.put("words", broken.promise().words);
            broken.set().forEach(node.putArray("set")::add);
            node.put("happens", broken.happens());
            broken.ways().forEach(node.putArray("ways")::add);
        }
    }
}
