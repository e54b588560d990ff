package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.logic.Journal;
import sprag.supervisor.logic.Logic;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.TorquePermission;

/** H15: it energises by itself. H14: the supervisor is blind. H13: 12 V lost. */
class SelfStartTest {
    private final Rig rig = new Rig();

    private Rig everythingAsked() {
        return rig.given(Signal.KEY_ON, 1).given(Signal.BRAKE_PRESSED, 1).given(Signal.START_REQUEST, 1);
    }

    @Test
    void powerReturnsWithTheKeyOn_staysOffUntilTheKeyWasOff() {
        everythingAsked().runMs(5000);
        assertEquals(State.OFF, rig.state());
        assertTrue(rig.acts(Interlock.KEY_NEVER_OFF));
        rig.given(Signal.KEY_ON, 0).run(1).given(Signal.KEY_ON, 1).run(1);
        assertEquals(State.IGNITION, rig.state());
    }

    /** The first samples of a board may come some ticks late: an unread key is not a key that was off. */
    @Test
    void powerReturns_keyNotReadYet_isNoKeyOff() {
        rig.given(Signal.KEY_ON, Double.NaN).run(10);
        everythingAsked().runMs(5000);
        assertEquals(State.OFF, rig.state());
    }

    /** A board that answers late must not leave a latch that needs service behind. */
    @Test
    void powerReturns_nothingReadYet_latchesNothing() {
        Readings honest = new Readings();
        honest.copyFrom(rig.in);
        rig.meddle = rig.in::clear;
        rig.runMs(3000);
        assertFalse(rig.anyContactor());
        rig.meddle = () -> {};
        rig.in.copyFrom(honest);
        rig.runMs(3000);
        assertEquals(State.OFF, rig.state());
    }

    @Test
    void startHeldSinceTheKey_startsNothing() {
        rig.run(5);
        everythingAsked().runMs(2000);
        assertEquals(State.IGNITION, rig.state());
        assertTrue(rig.acts(Interlock.START_HELD));
    }

    @Test
    void startUnreadable_startsNothingAndIsNotReleased() {
        rig.ignition().given(Signal.START_REQUEST, Double.NaN).run(50);
        assertEquals(State.IGNITION, rig.state(), "a lost sample is no press");
        Rig other = new Rig();
        other.run(5).given(Signal.KEY_ON, 1).given(Signal.BRAKE_PRESSED, 1);
        other.given(Signal.START_REQUEST, Double.NaN).run(50);
        other.given(Signal.START_REQUEST, 1).run(50);
        assertEquals(State.IGNITION, other.state(), "released was never seen");
    }

    @Test
    void keyBackOnWhileRunningDown_needsANewStart() {
        rig.driving().given(Signal.START_REQUEST, 1).given(Signal.BRAKE_PRESSED, 1);
        rig.given(Signal.KEY_ON, 0)
                .run(3)
                .given(Signal.KEY_ON, 1)
                .until(State.IGNITION, 600)
                .run(50);
        assertEquals(State.IGNITION, rig.state());
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(
            value = State.class,
            names = {"PRECHARGE", "DRIVE_ENABLE", "RUNDOWN"})
    void linkLost_endsOpen_andComesBackOnlyByTheKey(State state) {
        Readings honest = new Readings();
        rig.at(state);
        rig.meddle = () -> {
            honest.copyFrom(rig.in);
            rig.in.clear();
            rig.in.set(Signal.LINK_LOST, 1);
            rig.in.set(Signal.LOOP_OVERRUN, 0);
        };
        rig.run(1);
        assertFalse(rig.anyContactor(), "an unknown cut-off loop is open");
        for (int i = 0; i < 300; i++) {
            rig.in.copyFrom(honest);
            rig.run(1);
            assertFalse(rig.anyContactor());
        }
        rig.meddle = () -> {};
        rig.in.copyFrom(honest);
        rig.given(Signal.LINK_LOST, 0).given(Signal.KEY_ON, 1).runMs(12_000);
        assertEquals(State.FAULT, rig.state());
        assertEquals(Reset.KEY_CYCLE, rig.supervisor.state().latched(), "a lost link is no weld and no crash");
        rig.keyCycle();
        assertEquals(State.OFF, rig.state());
    }

    /** The flicker of a link must not pass for a turn of the key. */
    @Test
    void latched_linkFlickers_doesNotReset() {
        rig.at(State.FAULT);
        for (int i = 0; i < 50; i++) {
            rig.given(Signal.KEY_ON, 1).run(20);
            rig.given(Signal.KEY_ON, Double.NaN).run(3);
        }
        assertEquals(State.FAULT, rig.state());
    }

    @Test
    void faultEnteredWithTheKeyOff_needsTheKeyOnFirst() {
        rig.driving()
                .given(Signal.KEY_ON, 0)
                .run(2)
                .given(Signal.CUT_LOOP_CLOSED, 0)
                .run(1);
        rig.given(Signal.CUT_LOOP_CLOSED, 1).runMs(5000);
        assertEquals(State.FAULT, rig.state(), "a key that was off already is no deliberate act");
        rig.given(Signal.KEY_ON, 1).run(2);
        assertEquals(State.FAULT, rig.state());
        rig.given(Signal.KEY_ON, 0).run(2);
        assertEquals(State.OFF, rig.state());
    }

    @Test
    void pluggedBeforeTheKeyWasSeenOff_remembersTheKeyAllTheSame() {
        rig.given(Signal.PLUG_PRESENT, 1).run(10);
        assertEquals(State.CHARGE_LOCKOUT, rig.state());
        rig.given(Signal.KEY_ON, 1).run(10).given(Signal.PLUG_PRESENT, 0).until(State.IGNITION, 100);
    }

    /** The key becomes unreadable at every tick around the one in which a pedal is found false; it never was seen off. */
    @Test
    void pedalFalseAndKeyUnreadable_needsTheKeySeenOff() {
        int found = 0;
        for (int unreadableAt = 0; unreadableAt < 20; unreadableAt++) {
            Rig each = new Rig();
            each.at(State.DRIVE_ENABLE);
            for (int tick = 0; tick <= unreadableAt; tick++) {
                each.given(Signal.PEDAL_A_V, Double.NaN)
                        .given(Signal.KEY_ON, tick == unreadableAt ? Double.NaN : 1)
                        .run(1);
            }
            boolean pedalFound = each.times(Interlock.PEDAL_OUT_OF_RANGE) > 0;
            found += pedalFound ? 1 : 0;
            each.pedal(0).given(Signal.KEY_ON, 1).given(Signal.BRAKE_PRESSED, 1).run(1500);
            each.given(Signal.START_REQUEST, 0)
                    .run(5)
                    .given(Signal.START_REQUEST, 1)
                    .run(5);
            assertEquals(pedalFound ? State.FAULT : State.PRECHARGE, each.state(), "unreadable at " + unreadableAt);
        }
        assertTrue(found > 5 && found < 20, found + " of 20 after the pedal was found false");
    }

    /** H14: two judgements differ. On the rig they never do, so Logic is told so by hand. */
    @Test
    void gateVetoed_opensAndNeedsService() {
        TickFacts facts = (TickFacts) rig.driving().supervisor.facts();
        Logic logic = new Logic(rig.settings, java.util.Set.of(), Journal.SILENT);
        logic.state().unpack(rig.supervisor.state().pack());
        facts.set(Fact.GATE_VETOED, true);
        logic.step(facts);
        assertEquals(State.FAULT, logic.state().state());
        assertFalse(logic.permissions().positiveClosed);
        assertEquals(Reset.SERVICE, logic.state().latched());
        assertEquals(TorquePermission.NONE, logic.permissions().torque);
    }

    @Test
    void interlockTakenOut_showsWhatItIsNeededFor() {
        rig.driving();
        Supervisor bare = new Supervisor(rig.settings, java.util.Set.of(Interlock.KEY_NEVER_OFF));
        Commands out = new Commands();
        Readings in = new Rig().in;
        in.set(Signal.KEY_ON, 1);
        bare.step(0, in, out);
        assertEquals(State.IGNITION, bare.state().state());
    }
}
