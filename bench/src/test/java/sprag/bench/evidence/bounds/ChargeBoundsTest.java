package sprag.bench.evidence.bounds;

import java.util.stream.Stream;

/** On two vehicles, on a coarse grid; every vehicle, and some that nobody drew, on a fine one with {@code -Plong}. */
class ChargeBoundsTest extends ChargeBounds {
    @Override
    Stream<Cars> cars() {
        return Cars.someThatCharge();
    }
}
