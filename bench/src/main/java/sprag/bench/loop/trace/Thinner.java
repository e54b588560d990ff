package sprag.bench.loop.trace;

/**
 * Says which frames of a run are worth a line. A short run keeps every tick; a long one keeps a tick now and then and
 * every tick at which the state, an interlock or a switched output changes.
 */
public final class Thinner {
    private static final int ROWS = 30_000;

    private final Channels channels;
    private final Frame lastTurn;
    private final long everyMs;
    private long dueMs;
    private boolean started;

    /** Makes one for a run.
     *
     * @param durationMs how long the run is
     */
    public Thinner(Channels channels, long durationMs, long tickMs) {
        this.channels = channels;
        this.lastTurn = channels.newFrame();
        long ticks = Math.max(1, durationMs / tickMs);
        this.everyMs = tickMs * ((ticks + ROWS - 1) / ROWS);
    }

    /** Whether to keep a frame. */
    public boolean keeps(Frame frame) {
        boolean turns = !started || channels.turns(lastTurn, frame);
        if (turns) {
            lastTurn.copyFrom(frame);
            started = true;
        }
        boolean due = frame.timeMs >= dueMs;
        if (due) {
            dueMs = frame.timeMs + everyMs;
        }
        return turns || due;
    }
}
