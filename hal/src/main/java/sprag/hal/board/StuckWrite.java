package sprag.hal.board;

/**
 * Tells a write that the line does not take from one that only had no processor. A program that was stopped, or a machine that is busy,
 * also finds that a write has begun long ago; the line is sound then, and closing it would keep back a release. So a write has stuck
 * only when it was seen again and again while the program ran.
 */
final class StuckWrite {
    /** No write goes on. */
    static final long NOT_WRITING = Long.MIN_VALUE;

    private static final int MOST_LOOKS = 5;

    private final long stuckNs;
    private long seenSinceNs = NOT_WRITING;
    private int looks;

    StuckWrite(long stuckNs) {
        this.stuckNs = stuckNs;
    }

    /** To be called at a steady pace, several times within the time after which a write has stuck. */
    boolean isStuck(long writingSinceNs, long nowNs) {
        looks = writingSinceNs != NOT_WRITING && writingSinceNs == seenSinceNs ? looks + 1 : 0;
        seenSinceNs = writingSinceNs;
        return looks >= MOST_LOOKS && nowNs - writingSinceNs > stuckNs;
    }
}
