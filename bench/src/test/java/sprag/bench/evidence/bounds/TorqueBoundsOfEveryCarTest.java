package sprag.bench.evidence.bounds;

import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;

/** On every vehicle that comes with the project and on three that nobody drew, on a fine grid. */
@Tag("long")
class TorqueBoundsOfEveryCarTest extends TorqueBounds {
    @Override
    Stream<Cars> cars() {
        return Cars.all();
    }
}
