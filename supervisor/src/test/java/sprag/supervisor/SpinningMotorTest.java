package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Step;

/** H17: a spinning permanent-magnet motor lifts the open bus. 40 V per 1000 rpm, bus limit 430 V: above 10 750 rpm. */
class SpinningMotorTest {
    private final Rig rig = new Rig();

    @Test
    void spinning_keyOff_keepsThePackConnectedUntilSlow() {
        rig.driving().speedRpm(11_000).run(5);
        rig.given(Signal.KEY_ON, 0).runMs(3000);
        assertEquals(Step.RAMP_DOWN, rig.step(), "longer than the wait for the current");
        assertEquals(0, rig.torqueNm());
        rig.speedRpm(10_700).run(1);
        assertFalse(rig.out.isOn(Output.POSITIVE_CONTACTOR));
    }

    @Test
    void spinningForEver_opensAfterTheBound() {
        rig.driving().speedRpm(11_000).run(5);
        rig.given(Signal.KEY_ON, 0).run(1).runMs(4990);
        assertEquals(Step.RAMP_DOWN, rig.step());
        rig.run(1);
        assertEquals(Step.OPEN_POSITIVE, rig.step());
    }

    @Test
    void cutLoop_opensAtOnceAllTheSame() {
        rig.driving().speedRpm(11_000).run(5);
        rig.given(Signal.CUT_LOOP_CLOSED, 0).run(1);
        assertFalse(rig.anyContactor());
    }

    @Test
    void busTooHigh_endsRegenerationButOpensNothing() {
        rig.driving().given(Signal.REGEN_LEVEL, 3).speedKph(80).runMs(1000);
        assertTrue(rig.torqueNm() < 0);
        rig.meddle(Signal.BUS_VOLTAGE_V, 431).run(3);
        assertEquals(0, rig.torqueNm());
        assertTrue(rig.out.isOn(Output.POSITIVE_CONTACTOR));
        rig.leave().run(10);
        assertTrue(rig.torqueNm() < 0, "the pedal is released already");
    }

    @Test
    void overspeed_takesTheDriveAndLeavesTheBrake() {
        rig.driving().given(Signal.REGEN_LEVEL, 3).speedKph(140).pedal(1).runMs(1000);
        assertEquals(0, rig.torqueNm());
        rig.pedal(0).runMs(500);
        assertTrue(rig.torqueNm() < 0);
    }
}
