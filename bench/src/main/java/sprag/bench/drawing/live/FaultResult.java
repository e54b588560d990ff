package sprag.bench.drawing.live;

import java.util.List;

/**
 * What one fault does.
 *
 * @param fault the fault, by wire number, part or terminals
 * @param fuses the fuses that it blows
 * @param broken what then no longer holds and held before
 */
public record FaultResult(String fault, List<String> fuses, List<BrokenPromise> broken) {
    /** Whether harm may follow. */
    public boolean harms() {
        return broken.stream().anyMatch(b -> b.promise().guards());
    }
}
