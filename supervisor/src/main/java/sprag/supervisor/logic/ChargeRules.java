package sprag.supervisor.logic;

import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Step;

/** What happens about charge while a plug is there. Torque is out of the question; this decides about current and contactors. */
final class ChargeRules {
    private final ContactorSequence sequence;
    private final Journal journal;
    private final boolean pullGuard;
    private final boolean needsBus;
    private final int waitTicks;

    ChargeRules(Settings settings, ContactorSequence sequence, Journal journal, boolean pullGuard) {
        this.sequence = sequence;
        this.journal = journal;
        this.pullGuard = pullGuard;
        this.needsBus = settings.is(Parameter.CHARGER_SIDE, "bus-side");
        this.waitTicks = settings.ticks(Parameter.RUNDOWN_WAIT_MS);
    }

    /** Whether everything is open and nothing is being charged, so that the lockout may be left or a fault only refuses.
     *
     * @param s the state
     * @return true when nothing is live by our doing
     */
    boolean atRest(LogicState s) {
        return s.step == Step.IDLE && s.charge != ChargePhase.CHARGING && s.charge != ChargePhase.ENDING;
    }

    /** Goes one tick on.
     *
     * @param s the state; phase and step are advanced
     * @param f the facts of this tick
     * @param acting the interlock that acts, null for none; never one that opens at once
     * @return the interlock that the contactor sequence tripped over, null while all is well
     */
    Interlock advance(LogicState s, Facts f, Interlock acting) {
        boolean refused = acting != null && acting.response != Response.LIMIT;
        return switch (s.charge) {
            case WAITING -> await(s, f, refused);
            case CHARGING -> charge(s, f, refused);
            case ENDING -> end(s, f);
            case FINISHED -> awaitAgain(s, f.is(Fact.CHARGE_DUE));
            case REFUSED -> awaitAgain(s, !refused && f.is(Fact.CHARGE_RETRY));
        };
    }

    private static Interlock awaitAgain(LogicState s, boolean again) {
        if (again) {
            s.charge = ChargePhase.WAITING;
        }
        return null;
    }

    private Interlock await(LogicState s, Facts f, boolean refused) {
        if (refused) {
            s.charge = ChargePhase.REFUSED;
        } else if (!f.is(Fact.CHARGE_DUE)) {
            s.charge = ChargePhase.FINISHED;
        } else if (f.is(Fact.CHARGE_OFFERED) && f.is(Fact.PLUG_HELD)) {
            begin(s, f);
        }
        return null;
    }

    private void begin(LogicState s, Facts f) {
        if (!needsBus) {
            s.charge = ChargePhase.CHARGING;
            s.enter(Step.IDLE);
        } else if (f.busLevel() == BusLevel.DISCHARGED) {
            s.charge = ChargePhase.CHARGING;
            sequence.begin(s);
        } else {
            journal.acted(Interlock.BUS_NOT_DISCHARGED);
        }
    }

    private Interlock charge(LogicState s, Facts f, boolean refused) {
        boolean pulled = pullGuard && (!f.is(Fact.PLUG_SEEN) || f.is(Fact.PLUG_RELEASED));
        if (pulled) {
            journal.acted(Interlock.PLUG_PULLED);
        } else if (!f.is(Fact.PLUG_HELD)) {
            journal.acted(Interlock.PLUG_UNLOCKED);
        }
        boolean held = !pulled && f.is(Fact.PLUG_HELD);
        if (refused || !held || !f.is(Fact.CHARGE_OFFERED) || f.is(Fact.CHARGE_DONE)) {
            beginEnding(s);
            return null;
        }
        return needsBus ? sequence.raise(s, f) : null;
    }

    private void beginEnding(LogicState s) {
        s.charge = ChargePhase.ENDING;
        if (needsBus) {
            sequence.beginLowering(s);
        } else {
            s.enter(Step.IDLE);
        }
    }

    private Interlock end(LogicState s, Facts f) {
        if (pullGuard && f.is(Fact.PLUG_RELEASED) && !f.is(Fact.CURRENT_LOW)) {
            journal.acted(Interlock.PLUG_PULLED);
        }
        if (needsBus) {
            sequence.lower(s, f);
            if (s.step == Step.IDLE) {
                s.charge = ChargePhase.WAITING;
            }
        } else if (f.is(Fact.CURRENT_LOW) || s.stepTicks >= waitTicks) {
            s.charge = ChargePhase.WAITING;
            s.enter(Step.IDLE);
        }
        return null;
    }

    /** Whether the chargers may deliver.
     *
     * @param s the state after this tick's advance
     * @return true when the phase says so and the bus is connected where it must be
     */
    boolean mayDeliver(LogicState s) {
        return s.charge == ChargePhase.CHARGING && (!needsBus || s.step == Step.HOLD);
    }
}
