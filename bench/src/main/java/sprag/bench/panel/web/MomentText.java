package sprag.bench.panel.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import sprag.bench.panel.bench.Bench;
import sprag.bench.panel.bench.Chain;
import sprag.bench.panel.bench.History;

/** What was so in one tick, as the page reads it. */
final class MomentText {
    private static final ObjectMapper JSON = new ObjectMapper();

    private static final String NOT_KEPT = "null";

    private MomentText() {}

    /** The tick; {@code null} in words when it is not kept. */
    static String of(Bench bench, long tick) {
        History.Moment moment = bench.history().at(tick);
        if (moment == null) {
            return NOT_KEPT;
        }
        ObjectNode all = JSON.createObjectNode().put("tick", tick);
        ArrayNode frame = all.putArray("frame");
        for (float number : moment.numbers()) {
            if (Float.isFinite(number)) {
                frame.add(number);
            } else {
                frame.addNull();
            }
        }
        all.set("guidance", JSON.valueToTree(moment.guidance()));
        all.set("faults", JSON.valueToTree(moment.faults()));
        all.set("chain", JSON.valueToTree(Chain.of(moment, bench.history(), bench.notes(), bench.vehicle())));
        try {
            return JSON.writeValueAsString(all);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of texts and numbers could not be written: " + all, e);
        }
    }
}
