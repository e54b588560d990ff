package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** H02: the car moves while tethered. Every sign of a plug counts, in every state, from the very tick. */
class TetheredMovementTest {
    private final Rig rig = new Rig();

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SIGNAL       | VALUE | BECAUSE
            PLUG_PRESENT | 1     | the switch sees it
            PLUG_PRESENT | NaN   | the switch is lost
            PROXIMITY_V  | 1.5   | the proximity contact sees it
            PROXIMITY_V  | 3.99  | something pulls it down
            PROXIMITY_V  | 5     | its network is broken: nobody knows
            PROXIMITY_V  | NaN   | lost
            PILOT_PEAK_V | 9     | a station is there
            PILOT_PEAK_V | 2.1   | some voltage is there
            PILOT_PEAK_V | NaN   | lost
            """)
    void drivingUnderTorque_anySignOfAPlug_endsTorqueInTheSameTick(Signal signal, double value, String because) {
        rig.driving().pedal(0.5).runMs(1000);
        assertTrue(rig.torqueNm() > 50);
        rig.given(signal, value).run(1);
        assertEquals(0, rig.torqueNm(), because);
        assertFalse(rig.out.isOn(Output.INVERTER_ENABLE));
        rig.run(100);
        assertFalse(rig.anyContactor());
        assertEquals(0, rig.times(Interlock.GATE_VETOED));
    }

    @ParameterizedTest(name = "plugged in {0}")
    @EnumSource(
            value = State.class,
            names = {"OFF", "IGNITION", "PRECHARGE", "DRIVE_ENABLE", "RUNDOWN"})
    void anyState_plug_endsInLockout(State state) {
        rig.at(state).given(Signal.PLUG_PRESENT, 1).until(State.CHARGE_LOCKOUT, 600);
        assertFalse(rig.anyContactor());
        rig.given(Signal.START_REQUEST, 1)
                .given(Signal.BRAKE_PRESSED, 1)
                .pedal(0.5)
                .run(300);
        assertEquals(State.CHARGE_LOCKOUT, rig.state(), "whatever else is asked");
        assertEquals(0, rig.torqueNm());
    }

    @Test
    void runningDown_plug_endsTheRampAtOnce() {
        rig.driving().pedal(0.8).runMs(1000);
        rig.given(Signal.KEY_ON, 0).given(Signal.PACK_CURRENT_A, 100).run(2);
        assertTrue(rig.torqueNm() > 0);
        rig.given(Signal.PLUG_PRESENT, 1).run(1);
        assertEquals(0, rig.torqueNm());
        assertFalse(rig.out.isOn(Output.INVERTER_ENABLE));
    }

    @Test
    void unplugged_keyOn_needsAStartOfItsOwn() {
        rig.driving().given(Signal.PLUG_PRESENT, 1).until(State.CHARGE_LOCKOUT, 600);
        rig.given(Signal.START_REQUEST, 1).given(Signal.BRAKE_PRESSED, 1);
        rig.given(Signal.PLUG_PRESENT, 0).until(State.IGNITION, 100).run(100);
        assertEquals(State.IGNITION, rig.state(), "a button held since before starts nothing");
        assertTrue(rig.acts(Interlock.START_HELD));
        rig.given(Signal.START_REQUEST, 0).run(2).given(Signal.START_REQUEST, 1).until(State.PRECHARGE, 3);
    }
}
