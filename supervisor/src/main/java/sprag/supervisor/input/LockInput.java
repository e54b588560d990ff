package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Whether the inlet's lock holds the plug.
 *
 * <p>With a contact, the lock holds when the contact has said so without a break for {@code inlet.stale_ms}, and has been seen
 * open since the lock was last let go: a contact that is stuck proves nothing. Without a contact, the lock is taken to hold when
 * it was asked to for {@code inlet.lock_ms}. A car without a lock waits for none.
 */
final class LockInput {
    private final boolean hasLock;
    private final boolean hasContact;
    private final int heldTicksNeeded;
    private final int retryTicks;
    private boolean wasAsked;
    private boolean seenOpen;
    private int heldTicks;
    private int refusedTicks;

    LockInput(Settings settings) {
        hasLock = settings.is(Parameter.INLET_LOCK, "fitted");
        hasContact = settings.has(Signal.PLUG_LOCKED);
        heldTicksNeeded = settings.ticks(hasContact ? Parameter.INLET_STALE_MS : Parameter.INLET_LOCK_MS);
        retryTicks = (int) Math.ceil(settings.get(Parameter.CHARGE_RETRY_S) / settings.tickS());
    }

    /** Looks at the lock for one tick.
     *
     * @param in the readings
     * @param last the commands of the tick before
     * @param facts where the lock's facts are set; the inlet's and the driver's are there already
     * @param debounce the debouncer
     */
    void update(Readings in, Commands last, TickFacts facts, Debounce debounce) {
        if (!hasLock) {
            facts.set(Fact.PLUG_HELD, true);
            return;
        }
        boolean plugged = facts.is(Fact.PLUG_SEEN);
        boolean asked = last.isOn(Output.PLUG_LOCK);
        boolean moved = !hasContact || hasMoved(in, asked);
        boolean holds = asked && moved;
        wasAsked = asked;
        heldTicks = holds ? Math.min(heldTicks + 1, heldTicksNeeded) : 0;
        facts.set(Fact.PLUG_HELD, heldTicks >= heldTicksNeeded);
        facts.set(Fact.PLUG_WANTED, plugged && !facts.is(Fact.START_RELEASED));
        refuse(plugged, asked && !holds, facts, debounce);
    }

    /** Whether the contact says closed, and said open before the lock was asked to close. */
    private boolean hasMoved(Readings in, boolean asked) {
        if (!asked) {
            seenOpen = !wasAsked && seenOpen || in.isOff(Signal.PLUG_LOCKED);
        }
        return seenOpen && in.isOn(Signal.PLUG_LOCKED);
    }

    /** A lock that failed is not tried again at once: its motor would work all night. */
    private void refuse(boolean plugged, boolean fails, TickFacts facts, Debounce debounce) {
        if (!plugged) {
            refusedTicks = 0;
            debounce.forget(facts, Fact.PLUG_UNLOCKED);
            return;
        }
        refusedTicks = Math.max(refusedTicks - 1, 0);
        debounce.into(facts, Fact.PLUG_UNLOCKED, fails || refusedTicks > 0);
        if (fails && facts.is(Fact.PLUG_UNLOCKED)) {
            refusedTicks = retryTicks;
        }
    }
}
