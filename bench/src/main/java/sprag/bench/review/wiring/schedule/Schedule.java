package sprag.bench.review.wiring.schedule;

import java.util.List;
import java.util.Map;

/**
 * A wiring schedule with its parts, as read.
 *
 * @param wires the rows, in the order of the file
 * @param parts every part by name: the listed ones in the order of the list, then those known only from wires
 */
public record Schedule(List<Wire> wires, Map<String, Part> parts) {
    /** The schedule's file within a vehicle's folder. */
    public static final String WIRES_FILE = "wiring.csv";
    /** The list of parts within a vehicle's folder. */
    public static final String PARTS_FILE = "parts.csv";
}
