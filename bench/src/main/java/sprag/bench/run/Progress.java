package sprag.bench.run;

import java.util.concurrent.atomic.AtomicLong;
import sprag.bench.cli.ProgressBar;
import sprag.bench.scenario.ScenarioRun;

/** Tells a bar how much of all scenarios is played, in simulated seconds. Several may be played at a time. */
final class Progress {
    private static final int LOOK_TICKS = 1_000;
    private static final long MS_PER_S = 1_000;

    private final ProgressBar bar;
    private final AtomicLong playedMs = new AtomicLong();

    Progress(ProgressBar bar) {
        this.bar = bar;
    }

    /** An observer for one scenario. */
    ScenarioRun.Observer ofOne() {
        int[] ticks = {0};
        long[] toldMs = {0};
        return frame -> {
            if (++ticks[0] % LOOK_TICKS == 0) {
                long played = playedMs.addAndGet(frame.timeMs - toldMs[0]);
                toldMs[0] = frame.timeMs;
                bar.accept((int) (played / MS_PER_S));
            }
        };
    }
}
