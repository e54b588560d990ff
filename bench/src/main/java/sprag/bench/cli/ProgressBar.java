package sprag.bench.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.IntConsumer;

/** A bar for a person who waits, with the time that is left. On a terminal only; it wipes itself away at the end. */
public final class ProgressBar implements IntConsumer, AutoCloseable {
    private static final int WIDTH = 40;
    private static final long QUIET_NS = 1_000_000_000;
    private static final long EVERY_NS = 200_000_000;
    private static final double NS_PER_S = 1e9;

    private final PrintWriter out;
    private final int count;
    private final boolean shown;
    private final long beganNs = System.nanoTime();
    private long saidNs = beganNs + QUIET_NS - EVERY_NS;
    private boolean anything;

    /** A bar that has not begun.
     *
     * @param out the error stream, so that results stay clean
     * @param shown whether a person looks at it
     * @param count how many pieces there are
     */
    public ProgressBar(PrintWriter out, boolean shown, int count) {
        this.out = out;
        this.shown = shown;
        this.count = count;
    }

    @Override
    public void accept(int done) {
        long nowNs = System.nanoTime();
        if (shown && done > 0 && nowNs - saidNs >= EVERY_NS) {
            saidNs = nowNs;
            anything = true;
            long leftS = Math.round((nowNs - beganNs) / NS_PER_S / done * (count - done));
            String bar = "#".repeat((int) ((long) WIDTH * done / count));
            out.print(String.format(Locale.ROOT, "\r[%-40s] %d of %d, %d s left   ", bar, done, count, leftS));
            out.flush();
        }
    }

    @Override
    public void close() {
        if (anything) {
            out.print("\r" + " ".repeat(78) + "\r");
            out.flush();
        }
    }
}
