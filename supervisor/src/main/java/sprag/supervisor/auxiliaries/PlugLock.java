package sprag.supervisor.auxiliaries;

import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;

/**
 * When the inlet's lock holds the plug: it guards the contacts against an arc, not the cable against a thief.
 *
 * <pre>
 *   offer and charge due --&gt; lock --&gt; seen held --&gt; current ... told to end --&gt; current seen gone --&gt; unlock
 *                                                                  '------- inlet.unlock_ms at most ----^
 * </pre>
 *
 * <p>It locks before the first current, and it lets go only after the last, in every state: what ends a charge may be a fault, and
 * the current needs its time then as well. Whether the current is gone is seen at the pack. A charger that never ends must not keep
 * a person from the plug for ever, so the hold is bounded; the station opens its own contactor when the pilot contact parts.
 */
final class PlugLock {
    /** A pack that takes less than this is charged by nobody (A); chosen, above the noise of a current sensor. */
    private static final double GONE_A = 0.5;

    private final boolean fitted;
    private final int stopTicks;
    private final int mostTicks;
    private boolean locked;
    private int endedTicks;

    PlugLock(Settings settings) {
        fitted = settings.is(Parameter.INLET_LOCK, "fitted");
        stopTicks = settings.ticks(Parameter.CHARGE_STOP_MS);
        mostTicks = settings.ticks(Parameter.INLET_UNLOCK_MS);
    }

    /** Sets the lock's command for one tick.
     *
     * @param s the state of Logic after this tick
     * @param f the facts of this tick
     * @param c the quantities of this tick
     * @param out where the command is set; the chargers' are there already
     */
    void shape(LogicState s, Facts f, Conditioned c, Commands out) {
        if (fitted && (wanted(s, f) || out.isOn(Output.CHARGER_ENABLE))) {
            locked = true;
            endedTicks = 0;
        } else if (locked) {
            endedTicks++;
            boolean gone = endedTicks >= stopTicks && -c.packCurrentA < GONE_A;
            locked = !gone && endedTicks < mostTicks;
        }
        out.set(Output.PLUG_LOCK, locked);
    }

    private static boolean wanted(LogicState s, Facts f) {
        boolean begins = s.charge == ChargePhase.WAITING && f.is(Fact.CHARGE_OFFERED) && f.is(Fact.CHARGE_DUE);
        return s.state == State.CHARGE_LOCKOUT && (begins || s.charge == ChargePhase.CHARGING);
    }
}
