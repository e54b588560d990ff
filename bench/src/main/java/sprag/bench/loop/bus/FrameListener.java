package sprag.bench.loop.bus;

import sprag.hal.bus.CanFrame;

/** Is told of every frame on a simulated bus. */
public interface FrameListener {
    /** One frame.
     *
     * @param frame what stood on the wires; not to be kept
     * @param nowNs when
     */
    void frame(CanFrame frame, long nowNs);
}
