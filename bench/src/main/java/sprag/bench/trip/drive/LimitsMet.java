package sprag.bench.trip.drive;

import java.util.EnumMap;
import java.util.Map;
import sprag.bench.loop.ClosedLoop;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.State;

/** Which interlocks acted on the way, from when, and for how long. What only forbids the start is left out. */
public final class LimitsMet {
    /** One of them. */
    public static final class Met {
        /** When it began to act for the first time. */
        public final double fromS;

        /** How long it acted in all. */
        public double forS;

        Met(double fromS) {
            this.fromS = fromS;
        }
    }

    private static final double LASTS_S = 0.25;

    private final Map<Interlock, Met> all = new EnumMap<>(Interlock.class);

    void note(ClosedLoop loop, double atS, double forS) {
        if (loop.acting().isEmpty()) {
            return;
        }
        boolean drives = loop.state() == State.DRIVE_ENABLE;
        for (Interlock row : loop.acting()) {
            boolean hindersNothing = row.response == Response.BLOCK_START || row.response == Response.BLOCK_CHARGE;
            boolean expected = !row.cause.awaited().isEmpty();
            if (!hindersNothing && !expected && (drives || row.response.compareTo(Response.LIMIT) < 0)) {
                all.computeIfAbsent(row, each -> new Met(atS)).forS += forS;
            }
        }
    }

    /** Those that lasted: a start passes through some for a moment. */
    public Map<Interlock, Met> all() {
        Map<Interlock, Met> lasting = new EnumMap<>(Interlock.class);
        all.forEach((row, met) -> {
            if (met.forS >= LASTS_S) {
                lasting.put(row, met);
            }
        });
        return lasting;
    }
}
