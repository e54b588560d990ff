package sprag.supervisor.logic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.Transition;

/** The phases of a charge, one tick each, for a charger on the pack's side and one on the bus. */
class ChargeRulesTest {
    private final LogicState s = new LogicState();
    private final TickFacts f = new TickFacts();
    private final Set<Interlock> acted = EnumSet.noneOf(Interlock.class);
    private final Journal journal = new Journal() {
        @Override
        public void entered(Transition via) {
            // the state is not asked here
        }

        @Override
        public void acted(Interlock row) {
            acted.add(row);
        }
    };

    ChargeRulesTest() {
        f.set(Fact.PLUG_SEEN, true);
        f.set(Fact.PLUG_HELD, true);
        f.set(Fact.CHARGE_DUE, true);
        f.set(Fact.CHARGE_OFFERED, true);
        f.set(Fact.BUS_LEVEL, BusLevel.DISCHARGED.ordinal());
    }

    private static Settings settings(String side) {
        return TestVehicle.full()
                .with(Parameter.CHARGER_SIDE, Parameter.CHARGER_SIDE.choices().indexOf(side));
    }

    private ChargeRules rules(String side) {
        Settings settings = settings(side);
        return new ChargeRules(settings, new ContactorSequence(settings, Set.of()), journal, true);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SIDE      | PHASE    | STEP | ACTS             | NOT               | SO            | NEXT     | NEXT_STEP     | BECAUSE
            bus-side  | WAITING  | IDLE |                  |                   |               | CHARGING | TEST_NEGATIVE | due, offered and held: the contactors first
            pack-side | WAITING  | IDLE |                  |                   |               | CHARGING | IDLE          | nothing to close
            bus-side  | WAITING  | IDLE | PACK_TOO_WARM    |                   |               | REFUSED  | IDLE          | an interlock refuses
            bus-side  | WAITING  | IDLE | PACK_WARM        |                   |               | CHARGING | TEST_NEGATIVE | one that limits does not
            bus-side  | WAITING  | IDLE |                  | CHARGE_DUE        |               | FINISHED | IDLE          | not due
            bus-side  | WAITING  | IDLE |                  | CHARGE_OFFERED    |               | WAITING  | IDLE          | nothing offered
            bus-side  | WAITING  | IDLE |                  | PLUG_HELD         |               | WAITING  | IDLE          | not held
            bus-side  | FINISHED | IDLE |                  |                   |               | WAITING  | IDLE          | due again
            bus-side  | FINISHED | IDLE |                  | CHARGE_DUE        |               | FINISHED | IDLE          | not yet
            bus-side  | REFUSED  | IDLE |                  |                   | CHARGE_RETRY  | WAITING  | IDLE          | tried again
            bus-side  | REFUSED  | IDLE |                  |                   |               | REFUSED  | IDLE          | not yet
            bus-side  | REFUSED  | IDLE | PACK_TOO_WARM    |                   | CHARGE_RETRY  | REFUSED  | IDLE          | still refused
            bus-side  | REFUSED  | IDLE | PACK_WARM        |                   | CHARGE_RETRY  | WAITING  | IDLE          | a limit refuses nothing
            bus-side  | CHARGING | HOLD |                  |                   |               | CHARGING | HOLD          | it goes on
            bus-side  | CHARGING | HOLD | PACK_TOO_WARM    |                   |               | ENDING   | RAMP_DOWN     | refused while charging
            bus-side  | CHARGING | HOLD |                  | PLUG_SEEN         |               | ENDING   | RAMP_DOWN     | the plug is gone
            bus-side  | CHARGING | HOLD |                  |                   | PLUG_RELEASED | ENDING   | RAMP_DOWN     | the latch is pressed
            bus-side  | CHARGING | HOLD |                  | PLUG_HELD         |               | ENDING   | RAMP_DOWN     | unlocked
            bus-side  | CHARGING | HOLD |                  | CHARGE_OFFERED    |               | ENDING   | RAMP_DOWN     | the offer ends
            bus-side  | CHARGING | HOLD |                  |                   | CHARGE_DONE   | ENDING   | RAMP_DOWN     | done
            pack-side | CHARGING | IDLE |                  |                   |               | CHARGING | IDLE          | it goes on
            pack-side | CHARGING | IDLE |                  |                   | CHARGE_DONE   | ENDING   | IDLE          | done
            pack-side | ENDING   | IDLE |                  |                   |               | ENDING   | IDLE          | the current is not low yet
            pack-side | ENDING   | IDLE |                  |                   | CURRENT_LOW   | WAITING  | IDLE          | it is
            bus-side  | ENDING   | RAMP_DOWN |             |                   |               | ENDING   | RAMP_DOWN     | not low yet
            bus-side  | ENDING   | RAMP_DOWN |             |                   | CURRENT_LOW   | ENDING   | OPEN_POSITIVE | the contactors open
            bus-side  | ENDING   | BLEED     |             |                   |               | WAITING  | IDLE          | the bus is discharged
            """)
    void phase_goesOn(
            String side,
            ChargePhase phase,
            Step step,
            Interlock acts,
            Fact not,
            Fact so,
            ChargePhase next,
            Step nextStep,
            String because) {
        s.charge = phase;
        s.step = step;
        if (not != null) {
            f.set(not, false);
        }
        if (so != null) {
            f.set(so, true);
        }
        assertNull(rules(side).advance(s, f, acts), because);
        assertEquals(next, s.charge, because);
        assertEquals(nextStep, s.step, because);
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"PARTIAL", "CHARGED"})
    void busNotDischarged_waitsOnTheBusSideOnly(BusLevel level) {
        f.set(Fact.BUS_LEVEL, level.ordinal());
        rules("bus-side").advance(s, f, null);
        assertEquals(ChargePhase.WAITING, s.charge);
        assertEquals(EnumSet.of(Interlock.BUS_NOT_DISCHARGED), acted);
        rules("pack-side").advance(s, f, null);
        assertEquals(ChargePhase.CHARGING, s.charge);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SEEN  | RELEASED | HELD  | TOLD          | BECAUSE
            true  | false    | true  |               | it goes on
            false | false    | true  | PLUG_PULLED   | gone
            true  | true     | true  | PLUG_PULLED   | the latch is pressed
            true  | false    | false | PLUG_UNLOCKED | unlocked
            false | false    | false | PLUG_PULLED   | gone is the stronger
            """)
    void plugWhileCharging_isTold(boolean seen, boolean released, boolean held, Interlock told, String because) {
        s.charge = ChargePhase.CHARGING;
        s.step = Step.HOLD;
        f.set(Fact.PLUG_SEEN, seen);
        f.set(Fact.PLUG_RELEASED, released);
        f.set(Fact.PLUG_HELD, held);
        rules("bus-side").advance(s, f, null);
        assertEquals(told == null ? Set.of() : Set.of(told), acted, because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            GUARDED | RELEASED | LOW   | TOLD  | BECAUSE
            true    | true     | false | true  | pulled while current flows
            true    | true     | true  | false | no current any more
            true    | false    | false | false | the latch is not pressed
            false   | true     | false | false | the interlock is taken out
            """)
    void plugPulledWhileEnding_isTold(boolean guarded, boolean released, boolean low, boolean told, String because) {
        Settings settings = settings("pack-side");
        ChargeRules rules = new ChargeRules(settings, new ContactorSequence(settings, Set.of()), journal, guarded);
        s.charge = ChargePhase.ENDING;
        f.set(Fact.PLUG_RELEASED, released);
        f.set(Fact.CURRENT_LOW, low);
        rules.advance(s, f, null);
        assertEquals(told ? Set.of(Interlock.PLUG_PULLED) : Set.of(), acted, because);
    }

    /** A current that never falls does not hold the end up for ever; a new phase counts from its beginning. */
    @Test
    void packSideCurrentThatStays_endsAfterTheWait() {
        int waitTicks = settings("pack-side").ticks(Parameter.RUNDOWN_WAIT_MS);
        s.charge = ChargePhase.ENDING;
        s.stepTicks = waitTicks - 1;
        rules("pack-side").advance(s, f, null);
        assertEquals(ChargePhase.ENDING, s.charge);
        s.stepTicks = waitTicks;
        rules("pack-side").advance(s, f, null);
        assertEquals(ChargePhase.WAITING, s.charge);
        assertEquals(0, s.stepTicks);
        s.stepTicks = 7;
        rules("pack-side").advance(s, f, null);
        assertEquals(ChargePhase.CHARGING, s.charge);
        assertEquals(0, s.stepTicks);
        s.stepTicks = 7;
        f.set(Fact.CHARGE_DONE, true);
        rules("pack-side").advance(s, f, null);
        assertEquals(ChargePhase.ENDING, s.charge);
        assertEquals(0, s.stepTicks);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SIDE      | PHASE    | STEP      | MAY   | REST
            bus-side  | CHARGING | HOLD      | true  | false
            bus-side  | CHARGING | RAISE_BUS | false | false
            bus-side  | ENDING   | HOLD      | false | false
            pack-side | CHARGING | IDLE      | true  | false
            pack-side | WAITING  | IDLE      | false | true
            pack-side | ENDING   | IDLE      | false | false
            bus-side  | FINISHED | IDLE      | false | true
            bus-side  | FINISHED | BLEED     | false | false
            """)
    void deliveryAndRest_followPhaseAndStep(String side, ChargePhase phase, Step step, boolean may, boolean rest) {
        s.charge = phase;
        s.step = step;
        assertEquals(may, rules(side).mayDeliver(s));
        assertEquals(rest, rules(side).atRest(s));
    }

    /** A weld test that finds nothing, and a negative contactor that does not say that it closed. */
    @Test
    void sequenceOnTheWayUp_tripsOverAContactorThatDoesNotClose() {
        Settings settings = settings("bus-side");
        ContactorSequence sequence = new ContactorSequence(settings, Set.of());
        s.step = Step.TEST_POSITIVE;
        s.stepTicks = sequence.longestTicks(Step.TEST_POSITIVE);
        assertEquals(Interlock.CONTACTOR_NOT_CLOSED, sequence.raise(s, f));
        s.enter(Step.TEST_POSITIVE);
        assertNull(sequence.raise(s, f), "the test is not over");
        s.stepTicks = sequence.longestTicks(Step.TEST_POSITIVE);
        f.set(Fact.NEGATIVE_CONFIRMED, true);
        assertNull(sequence.raise(s, f));
        assertEquals(Step.RAISE_BUS, s.step);
        ContactorSequence without = new ContactorSequence(settings, EnumSet.of(Interlock.CONTACTOR_NOT_CLOSED));
        f.set(Fact.NEGATIVE_CONFIRMED, false);
        s.step = Step.TEST_POSITIVE;
        s.stepTicks = sequence.longestTicks(Step.TEST_POSITIVE);
        assertNull(without.raise(s, f), "taken out");
    }

    @Test
    void whatIsRemembered_isTold() {
        assertFalse(s.keySeenOff() || s.startSeenReleased());
        s.keySeenOff = true;
        s.startSeenReleased = true;
        s.stepTicks = 5;
        assertTrue(s.keySeenOff() && s.startSeenReleased());
        assertEquals(5, s.stepTicks());
    }
}
