package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import org.junit.jupiter.api.Test;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Transition;

/** The memory for people: what, when, how often. */
class DiagnosticsTest {
    private final Diagnostics d = new Diagnostics();
    private final TickFacts facts = new TickFacts();

    private void tick(long tick, Interlock... acting) {
        d.begin(tick);
        for (Interlock row : acting) {
            d.acted(row);
        }
        d.survey(facts);
    }

    @Test
    void interlockThatNeverActed_saysSo() {
        assertEquals(Diagnostics.NEVER, d.firstActedTick(Interlock.CUT_LOOP_OPEN));
        assertEquals(Diagnostics.NEVER, d.lastActedTick(Interlock.CUT_LOOP_OPEN));
        assertEquals(0, d.timesActed(Interlock.CUT_LOOP_OPEN));
        assertEquals(0, d.eventCount());
    }

    @Test
    void actingWithoutAGap_isOnce() {
        tick(0, Interlock.PEDAL_WITH_BRAKE);
        tick(1, Interlock.PEDAL_WITH_BRAKE);
        tick(2, Interlock.PEDAL_WITH_BRAKE);
        assertEquals(1, d.timesActed(Interlock.PEDAL_WITH_BRAKE));
        assertEquals(0, d.firstActedTick(Interlock.PEDAL_WITH_BRAKE));
        assertEquals(2, d.lastActedTick(Interlock.PEDAL_WITH_BRAKE));
        assertEquals(1, d.eventCount());
        tick(3);
        tick(4, Interlock.PEDAL_WITH_BRAKE);
        assertEquals(2, d.timesActed(Interlock.PEDAL_WITH_BRAKE));
        assertEquals(0, d.firstActedTick(Interlock.PEDAL_WITH_BRAKE));
        assertEquals(4, d.lastActedTick(Interlock.PEDAL_WITH_BRAKE));
        assertEquals(2, d.eventCount());
        assertEquals(4, d.eventTick(1));
        assertEquals(Interlock.PEDAL_WITH_BRAKE, d.event(1));
    }

    @Test
    void transition_isAnEvent() {
        d.begin(7);
        d.entered(Transition.KEY_TURNED_ON);
        assertEquals(1, d.eventCount());
        assertEquals(Transition.KEY_TURNED_ON, d.event(0));
        assertEquals(7, d.eventTick(0));
    }

    @Test
    void oldestEvents_areOverwritten() {
        for (int i = 0; i < Diagnostics.EVENTS + 10; i++) {
            d.begin(i);
            d.entered(i % 2 == 0 ? Transition.KEY_TURNED_ON : Transition.KEY_TURNED_OFF);
        }
        assertEquals(Diagnostics.EVENTS + 10, d.eventCount());
        for (long i = 10; i < d.eventCount(); i++) {
            assertEquals(i, d.eventTick(i));
            assertEquals(i % 2 == 0 ? Transition.KEY_TURNED_ON : Transition.KEY_TURNED_OFF, d.event(i));
        }
    }

    @Test
    void survey_listsEveryCauseWhetherOrNotItActs() {
        facts.set(Fact.CUT_LOOP_OPEN, true);
        facts.set(Fact.PACK_WARM, true);
        facts.set(Fact.BRAKE_PRESSED, true);
        tick(0);
        assertTrue(d.isActive(Interlock.CUT_LOOP_OPEN));
        assertTrue(d.isActive(Interlock.PACK_WARM));
        assertFalse(d.isActive(Interlock.BRAKE_NOT_PRESSED));
        assertTrue(d.isActive(Interlock.PEDAL_NOT_RELEASED));
        assertFalse(d.isActive(Interlock.LV_LOST));
        facts.set(Fact.CUT_LOOP_OPEN, false);
        facts.set(Fact.BRAKE_PRESSED, false);
        tick(1);
        assertFalse(d.isActive(Interlock.CUT_LOOP_OPEN));
        assertTrue(d.isActive(Interlock.BRAKE_NOT_PRESSED));
    }

    @Test
    void causeWithinASequence_isActiveWhileItActs() {
        tick(5, Interlock.PEDAL_AT_ENABLE);
        assertTrue(d.isActive(Interlock.PEDAL_AT_ENABLE));
        tick(6);
        assertFalse(d.isActive(Interlock.PEDAL_AT_ENABLE));
    }

    @Test
    void warning_actsOnlyInItsStates() {
        facts.set(Fact.ROLLING_AWAY, true);
        tick(0);
        assertEquals(0, d.timesActed(Interlock.ROLLING_AWAY));
        assertTrue(d.isActive(Interlock.ROLLING_AWAY));
        d.entered(Transition.CONNECTED);
        tick(1);
        tick(2);
        assertEquals(1, d.timesActed(Interlock.ROLLING_AWAY));
        assertEquals(2, d.lastActedTick(Interlock.ROLLING_AWAY));
    }

    @Test
    void warning_takenOut_neverActs() {
        Diagnostics lacks = new Diagnostics(EnumSet.of(Interlock.ROLLING_AWAY));
        facts.set(Fact.ROLLING_AWAY, true);
        lacks.begin(0);
        lacks.entered(Transition.CONNECTED);
        lacks.survey(facts);
        assertEquals(0, lacks.timesActed(Interlock.ROLLING_AWAY));
    }

    @Test
    void limit_thatLogicNamesToo_actsOnce() {
        facts.set(Fact.PACK_WARM, true);
        d.entered(Transition.CONNECTED);
        long before = d.eventCount();
        tick(1, Interlock.PACK_WARM);
        tick(2, Interlock.PACK_WARM);
        assertEquals(1, d.timesActed(Interlock.PACK_WARM));
        assertEquals(before + 1, d.eventCount());
    }

    @Test
    void whatBlocksAStart_isWhatAppliesBeforeOneAndIsThere() {
        facts.set(Fact.COVER_LOOP_OPEN, true);
        facts.set(Fact.PACK_WARM, true);
        facts.set(Fact.GAUGE_UNSURE, true);
        tick(0);
        assertTrue(d.blocksStart(Interlock.COVER_LOOP_OPEN));
        assertTrue(d.blocksStart(Interlock.BRAKE_NOT_PRESSED));
        assertFalse(d.blocksStart(Interlock.PACK_WARM), "it does not apply before a start");
        assertFalse(d.blocksStart(Interlock.LV_LOST), "its cause is not there");
        assertFalse(d.blocksStart(Interlock.GAUGE_UNSURE), "a warning blocks nothing");
    }
}
