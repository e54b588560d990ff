package sprag.bench.panel.session;

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
public final class Latches {
    private static final Interlock[] ROWS = Interlock.values();

    private final boolean[] latched = new boolean[Interlock.COUNT];
    private final long[] sinceTick = new long[Interlock.COUNT];
    private boolean any;

    /** Looks at one tick. */
    public void update(Supervisor supervisor, long tick) {
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
            boolean holds = holds(ROWS[i], stopped, torqueless);
            boolean set = ROWS[i].reset != Reset.NONE && seen.lastActedTick(ROWS[i]) == tick;
            sinceTick[i] = latched[i] ? sinceTick[i] : tick;
            latched[i] = holds && (latched[i] || set);
            any |= latched[i];
        }
    }

    /** A latched torque that needs the key goes over into the latch of the stop. */
    private static boolean holds(Interlock row, boolean stopped, boolean torqueless) {
        boolean takesTorque = row.response == Response.ZERO_TORQUE;
        return takesTorque ? torqueless || stopped && row.reset == Reset.KEY_CYCLE : stopped && opens(row);
    }

    private static boolean opens(Interlock row) {
        return row.response == Response.OPEN_NOW || row.response == Response.STOP_THEN_OPEN;
    }

    /** Since which tick a row is latched. */
    public long sinceTick(Interlock row) {
        return sinceTick[row.ordinal()];
    }

    /** Whether a row has set what is still latched. */
    public boolean isLatched(Interlock row) {
        return latched[row.ordinal()];
    }
}
