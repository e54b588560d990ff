package sprag.bench.scenario;

import java.util.HashMap;
import java.util.Map;

/** When the named steps of a scenario happened. */
public final class Events {
    private final Map<String, Long> firstMs = new HashMap<>();

    /** Notes that a step happened; only the first time counts.
     *
     * @param timeMs when
     */
    public void happened(String name, long timeMs) {
        firstMs.putIfAbsent(name, timeMs);
    }

    /** When a step happened. Milliseconds since the start, -1 when it has not. */
    public long atMs(String name) {
        return firstMs.getOrDefault(name, -1L);
    }
}
