package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** The test vehicle ticks every 10 ms and has a lock with a contact. */
class LockInputTest {
    private Settings settings = TestVehicle.full();
    private LockInput lock = new LockInput(settings);
    private Debounce debounce = new Debounce(settings);
    private final TickFacts facts = new TickFacts();
    private final Commands last = new Commands();
    private final Readings in = new Readings();

    LockInputTest() {
        facts.set(Fact.PLUG_SEEN, true);
        facts.set(Fact.START_RELEASED, true);
        in.set(Signal.PLUG_LOCKED, 0);
    }

    private void fit(Settings other) {
        settings = other;
        lock = new LockInput(settings);
        debounce = new Debounce(settings);
    }

    private void run(int ticks, boolean asked, double contact) {
        last.set(Output.PLUG_LOCK, asked);
        in.set(Signal.PLUG_LOCKED, contact);
        for (int i = 0; i < ticks; i++) {
            debounce.begin(in);
            lock.update(in, last, facts, debounce);
        }
    }

    private int staleTicks() {
        return settings.ticks(Parameter.INLET_STALE_MS);
    }

    private int lockTicks() {
        return settings.ticks(Parameter.INLET_LOCK_MS);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        BEFORE | ASKED | CONTACT | HELD  | BECAUSE
        0      | true  | 1       | true  | the contact has moved with the lock
        0      | true  | 0       | false | the pin is not out
        0      | true  | NaN     | false | nobody knows
        0      | true  | 0.5     | false | no switch reads that
        1      | true  | 1       | false | a contact that never moved proves nothing
        NaN    | true  | 1       | false | a contact that was not seen open proves nothing
        0      | false | 1       | false | the lock is on its way to open
        """)
    void contact_saysWhetherThePlugIsHeld(double before, boolean asked, double contact, boolean held, String because) {
        run(2, false, before);
        run(staleTicks(), asked, contact);
        assertEquals(held, facts.is(Fact.PLUG_HELD), because);
    }

    @Test
    void contact_countsAfterTheStaleTimeAndNotAtAllAfterABreak() {
        run(1, false, 0);
        run(staleTicks() - 1, true, 1);
        assertFalse(facts.is(Fact.PLUG_HELD), "not before it has lasted");
        run(1, true, 1);
        assertTrue(facts.is(Fact.PLUG_HELD));
        run(1, true, 0);
        assertFalse(facts.is(Fact.PLUG_HELD), "a break ends it at once");
        run(staleTicks() - 1, true, 1);
        assertFalse(facts.is(Fact.PLUG_HELD));
        run(1, true, 1);
        assertTrue(facts.is(Fact.PLUG_HELD));
    }

    @Test
    void contactStuckClosed_isFoundAtTheNextCharge() {
        run(1, false, 0);
        run(staleTicks(), true, 1);
        run(100, false, 1);
        run(lockTicks() + 1, true, 1);
        assertFalse(facts.is(Fact.PLUG_HELD));
        assertTrue(facts.is(Fact.PLUG_UNLOCKED));
    }

    @Test
    void lockThatDoesNotClose_isToldAfterItsTime_andKeptForTheRetryTime() {
        run(1, false, 0);
        run(lockTicks(), true, 0);
        assertFalse(facts.is(Fact.PLUG_UNLOCKED), "it may need so long");
        run(1, true, 0);
        assertTrue(facts.is(Fact.PLUG_UNLOCKED));
        int retryTicks = (int) (settings.get(Parameter.CHARGE_RETRY_S) / settings.tickS());
        run(retryTicks, false, 0);
        assertTrue(facts.is(Fact.PLUG_UNLOCKED), "its motor is spared");
        run(2 * lockTicks() + 3, false, 0);
        assertFalse(facts.is(Fact.PLUG_UNLOCKED));
    }

    @Test
    void lockThatFailed_plugTakenOut_isForgotten() {
        run(lockTicks() + 2, true, 0);
        facts.set(Fact.PLUG_SEEN, false);
        run(1, false, 0);
        assertFalse(facts.is(Fact.PLUG_UNLOCKED));
        facts.set(Fact.PLUG_SEEN, true);
        run(10, false, 0);
        assertFalse(facts.is(Fact.PLUG_UNLOCKED));
    }

    @Test
    void noContact_heldOnceTheLockHasHadItsTime() {
        fit(TestVehicle.full().without(Signal.PLUG_LOCKED));
        run(lockTicks() - 1, true, Double.NaN);
        assertFalse(facts.is(Fact.PLUG_HELD));
        run(1, true, Double.NaN);
        assertTrue(facts.is(Fact.PLUG_HELD));
        run(1, false, Double.NaN);
        assertFalse(facts.is(Fact.PLUG_HELD));
    }

    @Test
    void noLock_nothingIsAwaited() {
        fit(TestVehicle.full().with(Parameter.INLET_LOCK, 0));
        run(1, false, Double.NaN);
        assertTrue(facts.is(Fact.PLUG_HELD));
        assertFalse(facts.is(Fact.PLUG_WANTED), "start means nothing to an inlet without a lock");
    }

    @ParameterizedTest(name = "plug {0}, start {1}: wanted {2}")
    @CsvSource({"true, true, true", "true, false, false", "false, true, false"})
    void start_withAPlug_asksForIt(boolean plug, boolean start, boolean wanted) {
        facts.set(Fact.PLUG_SEEN, plug);
        facts.set(Fact.START_RELEASED, !start);
        run(1, false, 0);
        assertEquals(wanted, facts.is(Fact.PLUG_WANTED));
    }

    @Test
    void lockThatNeedsSomeTime_isNeverToldAsOneThatFailed() {
        run(1, false, 0);
        run(lockTicks() / 2, true, 0);
        run(5 * lockTicks(), true, 1);
        assertTrue(facts.is(Fact.PLUG_HELD));
        assertFalse(facts.is(Fact.PLUG_UNLOCKED));
    }

    @Test
    void contactStuckClosed_letGoForOneTick_provesNothingAnyMore() {
        run(1, false, 0);
        run(staleTicks(), true, 1);
        run(1, false, 1);
        run(staleTicks(), true, 1);
        assertFalse(facts.is(Fact.PLUG_HELD), "it was not seen open since the lock was let go");
    }
}
