package sprag.bench.hand.commission.pins;

import java.util.List;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.board.BoardMap;

/** The pins that are commissioned: those of a real board, or in a rehearsal those of the simulated loom. */
public interface Pins extends AutoCloseable {
    /** Its signals and outputs. */
    Device device();

    /** The time by which it answers. */
    Clock clock();

    /** What answered, for people. */
    String identity();

    /** Lets the outputs follow commands. Call it only after the person has agreed. */
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
