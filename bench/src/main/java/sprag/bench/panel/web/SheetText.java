package sprag.bench.panel.web;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Map;
import sprag.bench.drawing.paper.SheetFont;
import sprag.bench.wired.LiveSheets;

/** What pages read of the drawn circuit: the sheets once, and then only what has changed on them. */
final class SheetText {
    private static final ObjectMapper JSON = new ObjectMapper();

    private SheetText() {}

    /** All sheets with the names of their nets. */
    static String sheets(LiveSheets drawing) {
        ObjectNode all = JSON.createObjectNode().put("family", SheetFont.FAMILY).put("letters", SheetFont.base64());
        ArrayNode sheets = all.putArray("sheets");
        drawing.sheets()
                .forEach(sheet -> sheets.addObject().put("title", sheet.title()).put("svg", sheet.svg()));
        ObjectNode names = all.putObject("nets");
        drawing.netNames().forEach((net, name) -> names.put(String.valueOf(net), name));
        return all.toString();
    }

    /** What differs between two states.
     *
     * @param before what the page knows, null for nothing
     */
    static ObjectNode changes(LiveSheets.State before, LiveSheets.State now) {
        ObjectNode message = JSON.createObjectNode().put("t", "circuit").put("all", before == null);
        differing(message.putObject("nets"), before == null ? Map.of() : before.nets(), now.nets());
        differing(message.putObject("contacts"), before == null ? Map.of() : before.contacts(), now.contacts());
        differing(message.putObject("parts"), before == null ? Map.of() : before.parts(), now.parts());
        return message;
    }

    private static void differing(ObjectNode into, Map<?, ?> before, Map<?, ?> now) {
        now.forEach((key, value) -> {
            if (!value.equals(before.get(key))) {
                into.putPOJO(key.toString(), value);
            }
        });
    }
}
