package sprag.bench.drawing.live;

import java.util.List;

/**
 * A promise that does not hold.
 *
 * @param promise which
 * @param set the shortest list of controls away from their rest; empty when it is broken with everything at rest
 * @param happens what is then the case
 * @param ways the wires and parts that the current goes through, one list a coil or load
 */
public record BrokenPromise(LivePromise promise, List<String> set, String happens, List<String> ways) {
    /** The list of positions in words. */
    public String when() {
        return set.isEmpty() ? "with everything at rest" : "with " + String.join(", ", set);
    }
}
