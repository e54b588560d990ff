package sprag.bench.panel.bench;

import java.util.Arrays;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.Supervisor;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;

/**
 * Which interlocks have set what is latched. The supervisor itself remembers only what it takes to reset; for people the
 * names are kept here, until the latch is gone.
 */
final class Latches {
    private static final Interlock[] ROWS = Interlock.values();

    private final boolean[] latched = new boolean[Interlock.COUNT];
    private boolean any;

    /** Looks at one tick. */
    void update(Supervisor supervisor, long tick) {
        LogicState state = supervisor.state();
        boolean stopped = state.latched() != Reset.NONE;
        boolean torqueless = state.torqueLatched() != Reset.NONE;
        if (!stopped && !torqueless) {
            if (any) {
                Arrays.fill(latched, false);
                any = false;
            }
            return;
        }
        Diagnostics seen = supervisor.diagnostics();
        for (int i = 0; i < ROWS.length; i++) {
            boolean holds = ROWS[i].response == Response.ZERO_TORQUE ? torqueless : stopped && opens(ROWS[i]);
            boolean set = ROWS[i].reset != Reset.NONE && seen.lastActedTick(ROWS[i]) == tick;
            latched[i] = holds && (latched[i] || set);
            any |= latched[i];
        }
    }

    private static boolean opens(Interlock row) {
        return row.response == Response.OPEN_NOW || row.response == Response.STOP_THEN_OPEN;
    }

    /** Whether a row has set what is still latched. */
    boolean isLatched(Interlock row) {
        return latched[row.ordinal()];
    }
}
