package sprag.bench.scenario;

import sprag.bench.loop.trace.Frame;

/** Waits for an {@link Anchor} and keeps the time at which it came. */
final class AnchorWatch {
    private final Anchor anchor;
    private long atMs = -1;
    private boolean heldBefore;

    AnchorWatch(Anchor anchor) {
        this.anchor = anchor;
        // a value that is beyond its limit from the start has not crossed it; the first state counts as entered
        this.heldBefore = anchor instanceof Anchor.Begins begins && begins.condition() instanceof Condition.Band;
    }

    void observe(Frame frame, Events events) {
        if (atMs >= 0) {
            return;
        }
        if (anchor instanceof Anchor.AfterStep step) {
            atMs = events.atMs(step.name());
        } else if (anchor instanceof Anchor.Begins begins) {
            boolean holds = begins.condition().holds(frame);
            if (holds && !heldBefore && frame.timeMs >= begins.notBeforeMs()) {
                atMs = frame.timeMs;
            }
            heldBefore = holds;
        } else {
            atMs = 0;
        }
    }

    /** When it came; -1 while it has not. */
    long atMs() {
        return atMs;
    }
}
