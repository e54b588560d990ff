package sprag.bench.run.report;

import java.util.Locale;
import sprag.bench.cli.Numbers;

/** How the times of a run are written: a short run in seconds, a long one as people tell a night, in hours and minutes. */
enum RunTime {
    // @formatter:off
    //      up to ms        a unit in ms  the unit  what its column is called, how wide it is
    SECONDS(       600_000,     1_000,    "s",      "time s",  8),
    MINUTES(    10_800_000,    60_000,    "min",    "h:min:s", 10),
    HOURS  (Long.MAX_VALUE, 3_600_000,    "h",      "h:min:s", 10);
    // @formatter:on

    private static final long HOUR_MS = 3_600_000;
    private static final long MINUTE_MS = 60_000;
    private static final double MS_PER_S = 1000;

    private final long upToMs;
    /** How long the unit of the axis of time is. */
    final double unitMs;
    /** The unit of the axis of time. */
    final String unit;
    /** The heading of a column of times. */
    final String heading;
    /** How many characters a time takes. */
    final int width;

    RunTime(long upToMs, double unitMs, String unit, String heading, int width) {
        this.upToMs = upToMs;
        this.unitMs = unitMs;
        this.unit = unit;
        this.heading = heading;
        this.width = width;
    }

    /** The one for a run of that length. */
    static RunTime of(long durationMs) {
        for (RunTime each : values()) {
            if (durationMs <= each.upToMs) {
                return each;
            }
        }
        throw new IllegalArgumentException("no run lasts " + durationMs + " ms");
    }

    /** A moment, without its unit: {@code 12.30} or {@code 3:05:12.30}. */
    String at(long timeMs) {
        if (this == SECONDS) {
            return String.format(Locale.ROOT, "%.2f", timeMs / MS_PER_S);
        }
        double secondsMs = timeMs % MINUTE_MS;
        return String.format(
                Locale.ROOT, "%d:%02d:%05.2f", timeMs / HOUR_MS, timeMs % HOUR_MS / MINUTE_MS, secondsMs / MS_PER_S);
    }

    /** A moment with its unit, where one is needed: {@code 12.30 s} or {@code 3:05:12.30}. */
    String told(long timeMs) {
        return this == SECONDS ? at(timeMs) + " s" : at(timeMs);
    }

    /** How much later: {@code at once}, {@code +30 ms}, {@code +12.3 s}, {@code +25 min 10 s}, {@code +3 h 5 min}. */
    static String later(long ms) {
        if (ms == 0) {
            return "at once";
        }
        if (ms < MS_PER_S) {
            return "+" + ms + " ms";
        }
        if (ms < SECONDS.upToMs) {
            return "+" + Numbers.text(ms / MS_PER_S) + " s";
        }
        long minutes = ms / MINUTE_MS;
        return ms < HOUR_MS
                ? "+" + minutes + " min " + ms % MINUTE_MS / (long) MS_PER_S + " s"
                : "+" + minutes / 60 + " h " + minutes % 60 + " min";
    }
}
