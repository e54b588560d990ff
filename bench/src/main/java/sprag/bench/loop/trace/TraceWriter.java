package sprag.bench.loop.trace;

import java.io.Closeable;
import java.io.IOException;

/** Writes frames to somewhere, one after the other. */
public interface TraceWriter extends Closeable {
    /** Writes a frame.
     *
     * @param frame the tick; not kept
     * @throws IOException when it cannot be written
     */
    void write(Frame frame) throws IOException;

    /** Makes what was written so far readable for others.
     *
     * @throws IOException when it cannot be written
     */
    void flush() throws IOException;
}
