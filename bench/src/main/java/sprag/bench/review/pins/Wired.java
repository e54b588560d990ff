package sprag.bench.review.pins;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.board.BoardMap;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * What can be commissioned. With a board: what its map and the vehicle both have. Without: what the schedule has a wire for.
 */
public record Wired(Set<Signal> signals, Set<Output> outputs) {
    public static Wired of(Vehicle vehicle, Drawing drawing, BoardMap map) {
        Set<Signal> signals = EnumSet.noneOf(Signal.class);
        for (Signal signal : vehicle.fitted()) {
            boolean own = signal == Signal.LOOP_OVERRUN || signal == Signal.LINK_LOST;
            boolean there =
                    map == null ? drawing.has(signal.key()) : map.signals().contains(signal);
            if (there && !own) {
                signals.add(signal);
            }
        }
        Set<Output> outputs = EnumSet.noneOf(Output.class);
        for (Output output : Output.values()) {
            if (map == null ? drawing.has(output.key()) : map.driven().contains(output)) {
                outputs.add(output);
            }
        }
        return new Wired(Collections.unmodifiableSet(signals), Collections.unmodifiableSet(outputs));
    }
}
