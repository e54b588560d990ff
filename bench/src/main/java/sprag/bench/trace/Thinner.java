package sprag.bench.trace;

/**
 * Says which frames of a run are worth a line. A short run keeps every tick; a long one keeps a tick now and then and
 * every tick at which the state, an interlock or a switched output changes.
 */
public final class Thinner {
    private static final int ROWS = 30_000;

    private final Channels channels;
    private final Frame last;
    private final long everyMs;
    private long dueMs;
    private boolean started;

    /** Makes one for a run.
     *
     * @param channels the columns
     * @param durationMs how long the run is
     * @param tickMs how long a tick is
     */
    public Thinner(Channels channels, long durationMs, long tickMs) {
        this.channels = channels;
        this.last = channels.newFrame();
        long ticks = Math.max(1, durationMs / tickMs);
        this.everyMs = tickMs * ((ticks + ROWS - 1) / ROWS);
    }

    /** Whether to keep a frame.
     *
     * @param frame the tick
     * @return true to keep it
     */
    public boolean keeps(Frame frame) {
        boolean keep = !started || frame.timeMs >= dueMs || changed(frame);
        if (frame.timeMs >= dueMs) {
            dueMs = frame.timeMs + everyMs;
        }
        started = true;
        last.copyFrom(frame);
        return keep;
    }

    private boolean changed(Frame frame) {
        if (frame.state != last.state) {
            return true;
        }
        for (int i = 0; i < frame.acting.length; i++) {
            if (frame.acting[i] != last.acting[i]) {
                return true;
            }
        }
        for (int i : channels.powerSwitches()) {
            if (frame.value[i] != last.value[i]) {
                return true;
            }
        }
        return false;
    }
}
