package sprag.bench.evidence.bounds;

import java.util.stream.Stream;

/** On one vehicle, on a coarse grid; every vehicle, and some that nobody drew, on a fine one with {@code -Plong}. */
class TorqueBoundsTest extends TorqueBounds {
    @Override
    Stream<Cars> cars() {
        return Cars.some();
    }
}
