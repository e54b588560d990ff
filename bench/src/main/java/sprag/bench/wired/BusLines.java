package sprag.bench.wired;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import sprag.bench.drawing.live.CircuitPlan;
import sprag.bench.drawing.live.RunningCircuit;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/** Which part is at the other end of what a data pair carries, and whether both hear each other. */
final class BusLines {
    private static final String HIGH = "data_high";
    private static final String LOW = "data_low";

    /** The part at the other end, by the key of the signal or output. */
    private final Map<String, String> partOf = new LinkedHashMap<>();

    private final CircuitPlan plan;
    private final String supervisor;

    BusLines(CircuitPlan plan) {
        this.plan = plan;
        Schedule schedule = plan.schedule();
        supervisor = schedule.parts().values().stream()
                .filter(p -> p.kind() == PartKind.SUPERVISOR)
                .map(Part::name)
                .findFirst()
                .orElse("");
        Map<String, Integer> steps = steps(schedule);
        for (Wire wire : schedule.wires()) {
            if (isData(wire.from()) && isData(wire.to())) {
                String a = Wire.partOf(wire.from());
                String b = Wire.partOf(wire.to());
                boolean further = steps.getOrDefault(a, 0) > steps.getOrDefault(b, 0);
                wire.carries().forEach(key -> partOf.put(key, further ? a : b));
            }
        }
    }

    private static boolean isData(String terminal) {
        return Wire.pinOf(terminal).equals(HIGH) || Wire.pinOf(terminal).equals(LOW);
    }

    /** How many stretches of the data pair lie between the supervisor and each part. */
    private Map<String, Integer> steps(Schedule schedule) {
        Map<String, Integer> steps = new HashMap<>();
        Deque<String> queue = new ArrayDeque<>();
        steps.put(supervisor, 0);
        queue.add(supervisor);
        while (!queue.isEmpty()) {
            String part = queue.remove();
            for (Wire wire : schedule.wires()) {
                boolean data = isData(wire.from()) && isData(wire.to());
                String a = Wire.partOf(wire.from());
                String b = Wire.partOf(wire.to());
                String next = !data ? part : a.equals(part) ? b : b.equals(part) ? a : part;
                if (!steps.containsKey(next)) {
                    steps.put(next, steps.get(part) + 1);
                    queue.add(next);
                }
            }
        }
        return steps;
    }

    /** The part that sends a signal or takes an output over the data pair. */
    Optional<String> partOf(String key) {
        return Optional.ofNullable(partOf.get(key));
    }

    /** Whether a part and the supervisor hear each other: both wires lead through, and nothing holds them or joins them. */
    boolean isHeard(RunningCircuit circuit, String part) {
        int high = plan.terminal(supervisor + "." + HIGH);
        int low = plan.terminal(supervisor + "." + LOW);
        int partHigh = plan.terminal(part + "." + HIGH);
        int partLow = plan.terminal(part + "." + LOW);
        boolean drawn = high >= 0 && low >= 0 && partHigh >= 0 && partLow >= 0;
        return drawn
                && circuit.joins(high, partHigh)
                && circuit.joins(low, partLow)
                && !circuit.joins(high, low)
                && !circuit.isHeld(high)
                && !circuit.isHeld(low);
    }
}
