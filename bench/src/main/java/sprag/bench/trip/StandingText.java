package sprag.bench.trip;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Json;
import sprag.bench.cli.Wrap;
import sprag.bench.vehicle.Vehicle;

/** Standing starts for a terminal and for a program. */
final class StandingText {
    private static final int COLUMNS = 80;
    private static final String HANGING = " ".repeat(6);

    private StandingText() {}

    static List<String> of(Vehicle vehicle, List<Standing.Trial> trials) {
        List<String> lines = new ArrayList<>();
        lines.add(vehicle.name() + " from a standing start");
        for (Standing.Trial each : trials) {
            lines.add(
                    String.format(Locale.ROOT, "  %-52s %12s", each.what(), Say.number(each.value(), 1, each.unit())));
            if (!each.limitedBy().isEmpty()) {
                lines.addAll(Wrap.hanging(HANGING, HANGING, each.limitedBy(), COLUMNS));
            }
        }
        lines.addAll(Wrap.lines("Tyres never slip here: where they would, the road gives less.", COLUMNS));
        return lines;
    }

    static String json(Vehicle vehicle, List<Standing.Trial> trials) {
        ObjectNode root = Json.object();
        root.put("vehicle", vehicle.name());
        ArrayNode all = root.putArray("trials");
        for (Standing.Trial each : trials) {
            ObjectNode node = all.addObject();
            node.put("id", each.id());
            node.put("what", each.what());
            Json.number(node, "value", each.value());
            node.put("unit", each.unit());
            node.put("limited_by", each.limitedBy());
        }
        return root.toPrettyString();
    }
}
