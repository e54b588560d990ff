package sprag.supervisor.vocabulary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.EveryTransition;
import sprag.supervisor.Rig;
import sprag.supervisor.logic.LogicState;

/** The table of transitions: each is taken, each step is visited, each row makes sense. */
class TransitionTest {
    @Test
    void everyRow_isTaken() {
        Rig rig = EveryTransition.rig();
        EveryTransition.day(rig);
        Set<Transition> taken = EnumSet.noneOf(Transition.class);
        Diagnostics d = rig.supervisor.diagnostics();
        State state = State.OFF;
        assertTrue(d.eventCount() <= Diagnostics.EVENTS);
        for (long i = 0; i < d.eventCount(); i++) {
            if (d.event(i) instanceof Transition) {
                Transition via = (Transition) d.event(i);
                assertEquals(state, via.from, via + " at event " + i);
                state = via.to;
                taken.add(via);
            }
        }
        assertEquals(EnumSet.allOf(Transition.class), taken);
        assertEquals(State.OFF, rig.state());
    }

    @Test
    void everyStep_isVisitedInOrder() {
        Rig rig = new Rig().precharging();
        List<Step> steps = new ArrayList<>();
        steps.add(rig.step());
        for (int i = 0; i < 600; i++) {
            rig.run(1);
            if (rig.state() == State.DRIVE_ENABLE) {
                rig.given(Signal.KEY_ON, 0);
            }
            if (steps.get(steps.size() - 1) != rig.step()) {
                steps.add(rig.step());
            }
            assertEquals(rig.step().negativeClosed, rig.out.isOn(Output.NEGATIVE_CONTACTOR));
            assertEquals(rig.step().prechargeClosed, rig.out.isOn(Output.PRECHARGE_RELAY));
            assertEquals(rig.step().positiveClosed, rig.out.isOn(Output.POSITIVE_CONTACTOR));
        }
        List<Step> expected = new ArrayList<>(List.of(Step.values()));
        expected.remove(Step.IDLE);
        expected.add(Step.IDLE);
        assertEquals(expected, steps);
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(State.class)
    void exits_areTheRowsThatLeave(State state) {
        assertFalse(Transition.leaving(state).isEmpty(), "no state is a trap");
        for (Transition via : Transition.leaving(state)) {
            assertEquals(state, via.from);
            assertNotEquals(via.from, via.to);
            assertFalse(via.reason.isBlank());
        }
        int count = 0;
        for (Transition via : Transition.values()) {
            count += via.from == state ? 1 : 0;
        }
        assertEquals(count, Transition.leaving(state).size());
    }

    /** Kept in memory over a power cut and in recordings: the order is part of the format. */
    @Test
    void codes_areStable() {
        assertEquals("[OFF, IGNITION, PRECHARGE, DRIVE_ENABLE, RUNDOWN, CHARGE_LOCKOUT, FAULT]", order(State.values()));
        assertEquals(
                "[IDLE, TEST_NEGATIVE, TEST_PAUSE, TEST_POSITIVE, RAISE_BUS, OVERLAP, HOLD, RAMP_DOWN, OPEN_POSITIVE, "
                        + "OPEN_NEGATIVE, BLEED]",
                order(Step.values()));
        assertEquals("[WAITING, CHARGING, ENDING, FINISHED, REFUSED]", order(ChargePhase.values()));
        assertEquals("[NONE, PEDAL_RELEASE, BRAKED_RELEASE, KEY_CYCLE, SERVICE]", order(Reset.values()));
        assertEquals("[NEUTRAL, FORWARD, REVERSE]", order(Direction.values()));
        assertEquals("[DISCHARGED, PARTIAL, CHARGED]", order(BusLevel.values()));
        LogicState s = new LogicState();
        s.state = State.FAULT;
        s.latched = Reset.SERVICE;
        s.keySeenOff = true;
        assertEquals(6L << 18 | 4 << 8 | 4, s.pack(), "the layout of a packed state");
    }

    private static String order(Enum<?>[] values) {
        return List.of(values).toString();
    }
}
