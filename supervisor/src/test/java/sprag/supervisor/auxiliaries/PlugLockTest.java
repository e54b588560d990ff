package sprag.supervisor.auxiliaries;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;

/** The lock holds the plug before the first current and until after the last. */
class PlugLockTest {
    private final Settings settings = TestVehicle.full();
    private PlugLock lock = new PlugLock(settings);
    private final LogicState s = new LogicState();
    private final TickFacts f = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final Commands out = new Commands();

    private boolean run(State state, ChargePhase phase, double packA, int ticks) {
        s.state = state;
        s.charge = phase;
        c.packCurrentA = packA;
        for (int i = 0; i < ticks; i++) {
            lock.shape(s, f, c, out);
        }
        return out.isOn(Output.PLUG_LOCK);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        STATE          | PHASE    | OFFERED | DUE   | LOCKED | BECAUSE
        CHARGE_LOCKOUT | WAITING  | true    | true  | true   | before the first current
        CHARGE_LOCKOUT | WAITING  | false   | true  | false  | nothing is offered
        CHARGE_LOCKOUT | WAITING  | true    | false | false  | nothing is wanted
        CHARGE_LOCKOUT | CHARGING | false   | false | true   | the charge is on its way
        CHARGE_LOCKOUT | FINISHED | true    | true  | false  | the plug may be taken
        CHARGE_LOCKOUT | REFUSED  | true    | true  | false  | the plug may be taken
        OFF            | WAITING  | true    | true  | false  | no plug
        FAULT          | WAITING  | true    | true  | false  | no charge comes from here
        """)
    void lock_closesForACharge(
            State state, ChargePhase phase, boolean offered, boolean due, boolean locked, String because) {
        f.set(Fact.CHARGE_OFFERED, offered);
        f.set(Fact.CHARGE_DUE, due);
        assertEquals(locked, run(state, phase, 0, 1), because);
    }

    @ParameterizedTest
    @EnumSource(State.class)
    void chargeEnds_currentGone_unlocksAfterTheStopTime_inEveryState(State state) {
        run(State.CHARGE_LOCKOUT, ChargePhase.CHARGING, -15, 10);
        int stopTicks = settings.ticks(Parameter.CHARGE_STOP_MS);
        assertTrue(run(state, ChargePhase.ENDING, 0, stopTicks - 1), "a charger needs its time");
        assertFalse(run(state, ChargePhase.ENDING, 0, 1));
    }

    @ParameterizedTest(name = "{0} A: held {1}")
    @CsvSource({"-15, true", "-0.51, true", "-0.5, true", "-0.49, false", "0, false", "20, false", "NaN, true"})
    void chargeEnds_currentStillSeenOrUnknown_holds(double packA, boolean held) {
        run(State.CHARGE_LOCKOUT, ChargePhase.CHARGING, -15, 10);
        assertEquals(held, run(State.FAULT, ChargePhase.WAITING, packA, 100));
    }

    @Test
    void currentThatNeverEnds_isHeldForTheStatedTimeOnly() {
        run(State.CHARGE_LOCKOUT, ChargePhase.CHARGING, -15, 10);
        int mostTicks = settings.ticks(Parameter.INLET_UNLOCK_MS);
        assertTrue(run(State.FAULT, ChargePhase.WAITING, -15, mostTicks - 1));
        assertFalse(run(State.FAULT, ChargePhase.WAITING, -15, 1));
        assertFalse(run(State.FAULT, ChargePhase.WAITING, -15, 100), "and does not close again");
    }

    @Test
    void chargersStillAllowed_holdsWhateverThePhase() {
        out.set(Output.CHARGER_ENABLE, true);
        assertTrue(run(State.CHARGE_LOCKOUT, ChargePhase.FINISHED, 0, 1));
    }

    @Test
    void noLock_isNeverDriven() {
        lock = new PlugLock(settings.with(Parameter.INLET_LOCK, 0));
        out.set(Output.CHARGER_ENABLE, true);
        assertFalse(run(State.CHARGE_LOCKOUT, ChargePhase.CHARGING, -15, 10));
    }
}
