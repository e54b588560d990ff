package sprag.bench.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.IntConsumer;

/** A bar for a person who waits, with the time left. On a terminal only; it wipes itself away at the end. Any thread may tell it. */
public final class ProgressBar implements IntConsumer, AutoCloseable {
    private static final int WIDTH = 30;
    /** The longest that {@link #left} says. */
    private static final int LEFT = ", 120 min left".length();

    private static final long QUIET_NS = 1_000_000_000;
    private static final long EVERY_NS = 200_000_000;
    private static final int LINE = 78;
    private static final long S_PER_MIN = 60;
    private static final long S_PER_H = 3600;
    private static final double NS_PER_S = 1e9;

    private final PrintWriter out;
    private final int count;
    private final String what;
    private final boolean shown;
    private final int width;
    private final long beganNs = System.nanoTime();
    private long saidNs = beganNs + QUIET_NS - EVERY_NS;
    private boolean anything;

    /** A bar that has not begun.
     *
     * @param out the error stream, so that results stay clean
     * @param shown whether a person looks at it
     * @param count how many pieces there are
     * @param what what a piece is, in the plural
     */
    public ProgressBar(PrintWriter out, boolean shown, int count, String what) {
        this.out = out;
        this.shown = shown;
        this.count = count;
        this.what = what;
        // The words stand whole on the line; the bar takes what they leave.
        width = Math.max(
                0, Math.min(WIDTH, LINE - "[]".length() - words(count, count).length() - LEFT));
    }

    @Override
    public synchronized void accept(int done) {
        long nowNs = System.nanoTime();
        if (shown && done > 0 && nowNs - saidNs >= EVERY_NS) {
            saidNs = nowNs;
            anything = true;
            out.print("\r" + line(done, (nowNs - beganNs) / NS_PER_S));
            out.flush();
        }
    }

    /** What the line says after a time; as wide as the longest before it, so that nothing is left of that. */
    String line(int done, double afterS) {
        int of = Math.max(done, count);
        long leftS = Math.round(afterS / done * (of - done));
        String bar = "#".repeat((int) ((long) width * done / of));
        String text = "[" + bar + " ".repeat(width - bar.length()) + "]" + words(done, count) + ", " + left(leftS);
        return String.format(Locale.ROOT, "%-" + LINE + "." + LINE + "s", text);
    }

    private String words(int done, int of) {
        return String.format(Locale.ROOT, " %,d of %,d %s", done, of, what);
    }

    private static String left(long seconds) {
        if (seconds < 2 * S_PER_MIN) {
            return seconds + " s left";
        }
        return seconds < 2 * S_PER_H ? seconds / S_PER_MIN + " min left" : seconds / S_PER_H + " h left";
    }

    @Override
    public synchronized void close() {
        if (anything) {
            out.print("\r" + " ".repeat(LINE) + "\r");
            out.flush();
        }
    }
}
