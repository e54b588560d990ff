package sprag.bench.bus;

import java.nio.file.Path;
import java.util.List;
import sprag.hal.board.BoardSpec;
import sprag.hal.bus.BusMap;

/**
 * A bus as its file describes it.
 *
 * @param file where it stands
 * @param spec all that a port needs
 * @param map the messages
 * @param lines the line of each message in the file
 * @param jitterMs how late each message may be queued after its period, in the order of the messages
 * @param nodes who is on the wires, empty when the file does not say
 * @param trunkM length of the wires from one end to the other, NaN when the file does not say
 */
public record BusFile(
        Path file,
        BoardSpec spec,
        BusMap map,
        List<Integer> lines,
        List<Double> jitterMs,
        List<Node> nodes,
        double trunkM) {
    /**
     * A node on the wires.
     *
     * @param name who
     * @param stubM length of the branch from the trunk to it
     * @param terminatorOhm the resistor across the two wires at it, 0 for none
     * @param line the line in the file
     */
    public record Node(String name, double stubM, double terminatorOhm, int line) {}

    /** Keeps copies. */
    public BusFile {
        lines = List.copyOf(lines);
        jitterMs = List.copyOf(jitterMs);
        nodes = List.copyOf(nodes);
    }
}
