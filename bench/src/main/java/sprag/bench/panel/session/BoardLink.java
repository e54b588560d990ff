package sprag.bench.panel.session;

import sprag.hal.Device;
import sprag.hal.Health;

/** A board as the panel sees it: pins, and the deliberate act of arming. */
public interface BoardLink {
    /** What a board is doing. The order is the order of trust. */
    enum Stage {
        /** Nobody answers. */
        SEARCHING,
        /** Inputs are read, outputs are released. */
        READY,
        /** Inputs are read, outputs are driven. */
        ARMED
    }

    /** Its pins. */
    Device device();

    /** What it is doing. */
    Stage stage();

    /** What answered, for people. */
    String identity();

    /** How quick it is, in a few words; empty when nobody measures. */
    default String figures() {
        return "";
    }

    /** Asks for its outputs to be driven. */
    Health arm();

    /** Releases its outputs until armed again. */
    void disarm();
}
