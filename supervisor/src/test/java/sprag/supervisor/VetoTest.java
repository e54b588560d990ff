package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import org.junit.jupiter.api.Test;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** What a veto of the gate leads to. Logic is made blind for the cut-off loop, so that the two judgements differ. */
class VetoTest {
    private static Rig drivingBlind(Interlock... without) {
        return new Rig(TestVehicle.full(), EnumSet.of(Interlock.CUT_LOOP_OPEN, without)).driving();
    }

    @Test
    void drive_gateVetoes_nextTickIsAFaultThatNeedsService() {
        Rig rig = drivingBlind();
        assertFalse(rig.supervisor.vetoed());

        rig.given(Signal.CUT_LOOP_CLOSED, 0).run(1);
        assertTrue(rig.supervisor.vetoed(), "the gate opens what Logic would keep closed");
        assertFalse(rig.anyContactor(), "in the same tick");
        assertEquals(State.DRIVE_ENABLE, rig.state(), "Logic has not heard of it yet");
        assertFalse(rig.is(Fact.GATE_VETOED));

        rig.given(Signal.CUT_LOOP_CLOSED, 1).run(1);
        assertTrue(rig.is(Fact.GATE_VETOED));
        assertTrue(rig.acts(Interlock.GATE_VETOED));
        assertEquals(State.FAULT, rig.state());
        assertEquals(Reset.SERVICE, rig.supervisor.state().latched());

        rig.run(1);
        assertFalse(rig.is(Fact.GATE_VETOED), "a veto is told once");
        assertEquals(State.FAULT, rig.state(), "and stays latched");
    }

    @Test
    void drive_vetoIgnored_conditionerKnowsWhatWasReallyCommanded() {
        Rig rig = drivingBlind(Interlock.GATE_VETOED);
        rig.given(Signal.CUT_LOOP_CLOSED, 0).run(rig.ticks(Parameter.CONTACTOR_CLOSE_MS) + 5);
        assertEquals(0, rig.out.get(Output.POSITIVE_CONTACTOR));
        assertFalse(rig.is(Fact.NEGATIVE_DROPPED), "it was not asked to be closed, so it has not dropped");
        assertFalse(rig.is(Fact.POSITIVE_DROPPED), "it was not asked to be closed, so it has not dropped");
    }
}
