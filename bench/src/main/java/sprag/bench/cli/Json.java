package sprag.bench.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** Results for a program that reads them. */
public final class Json {
    private Json() {}

    public static ObjectNode object() {
        return JsonNodeFactory.instance.objectNode();
    }

    public static ArrayNode array() {
        return JsonNodeFactory.instance.arrayNode();
    }

    /** Puts a number. JSON has no word for unknown and infinite numbers: unknown is null, infinite is a text. */
    public static void number(ObjectNode node, String name, double value) {
        if (Double.isNaN(value)) {
            node.putNull(name);
        } else if (Double.isInfinite(value)) {
            node.put(name, value > 0 ? "infinite" : "minus infinite");
        } else {
            node.put(name, value);
        }
    }
}
