package sprag.hal.bus;

/** Is told of every frame of a bus: each one that is heard, and each one that the supervisor sends. It must be quick. */
public interface FrameListener {
    /** Listens to nothing. */
    FrameListener NOBODY = (frame, sent, nowNs) -> {};

    /** One frame.
     *
     * @param frame what stood on the wires; filled anew with the next frame
     * @param sent whether the supervisor has sent it
     * @param nowNs when, on the clock of the loop
     */
    void frame(CanFrame frame, boolean sent, long nowNs);

    /** Both are told.
     *
     * @param other the listener that gets each frame after this one
     * @return the two as one
     */
    default FrameListener and(FrameListener other) {
        return (frame, sent, nowNs) -> {
            frame(frame, sent, nowNs);
            other.frame(frame, sent, nowNs);
        };
    }
}
