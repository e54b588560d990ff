package sprag.bench.hand.commission;

import java.util.List;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.board.BoardMap;

/** What is commissioned: a real board, or in a rehearsal the simulated loom. */
interface Pins extends AutoCloseable {
    /** Its signals and outputs. */
    Device device();

    /** The time by which it answers. */
    Clock clock();

    /** What answered, for people. */
    String identity();

    /** Lets its outputs follow commands, after the deliberate act. */
    Health arm();

    /** Releases its outputs until armed again. */
    void disarm();

    /** Whether it is connected, armed or not. */
    boolean isConnected();

    /** Its map, null when there is none. */
    BoardMap map();

    /** What its meters of latency say, one line each. */
    List<String> figures();

    @Override
    void close();
}
