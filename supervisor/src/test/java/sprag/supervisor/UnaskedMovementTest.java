package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** H01: the car moves when nobody asked. */
class UnaskedMovementTest {
    private final Rig rig = new Rig();

    @Test
    void enabled_pedalPressed_noTorqueUntilReleasedWithTheBrake() {
        rig.precharging().until(Step.HOLD, 400);
        rig.given(Signal.FORWARD_SWITCH, 1)
                .given(Signal.BRAKE_PRESSED, 0)
                .pedal(0.2)
                .run(50);
        assertEquals(0, rig.torqueNm());
        rig.pedal(0).run(50);
        assertEquals(0, rig.torqueNm(), "released, but without the brake");
        assertTrue(rig.acts(Interlock.PEDAL_AT_ENABLE));
        rig.pedal(0.2).run(10);
        assertEquals(0, rig.torqueNm());
        rig.given(Signal.BRAKE_PRESSED, 1).run(10);
        assertTrue(rig.acts(Interlock.PEDAL_AT_ENABLE), "brake, but pressed");
        rig.pedal(0).run(2);
        assertFalse(rig.acts(Interlock.PEDAL_AT_ENABLE));
        rig.given(Signal.BRAKE_PRESSED, 0).pedal(0.2).run(10);
        assertTrue(rig.torqueNm() > 0);
    }

    /** FSAE Rules 2026 EV.4.7.2: off above 25 % with the brake; back below 5 %, with or without the brake. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            BACK_TO | BRAKE | RETURNS | BECAUSE
            0.26    | 0     | false   | the brake alone is not enough
            0.06    | 0     | false   | 6 % is not below 5 %
            0.049   | 0     | true    | below 5 %, brake let go
            0.049   | 1     | true    | below 5 %, brake held
            """)
    void pedalWithBrake_torqueReturnsBelowFivePerCent(double travel, int brake, boolean returns, String because) {
        rig.driving().pedal(0.4).run(30);
        assertTrue(rig.torqueNm() > 0);
        rig.given(Signal.BRAKE_PRESSED, 1).run(1);
        assertEquals(0, rig.torqueNm(), "immediately and completely");
        rig.pedal(travel).given(Signal.BRAKE_PRESSED, brake).run(5);
        rig.given(Signal.BRAKE_PRESSED, 0).pedal(0.4).run(10);
        assertEquals(returns, rig.torqueNm() > 0, because);
        assertTrue(rig.out.isOn(Output.POSITIVE_CONTACTOR), "the contactors need not open");
    }

    @Test
    void brakeLightlyOnWithALittlePedal_isNoFight() {
        rig.driving().pedal(0.2).given(Signal.BRAKE_PRESSED, 1).run(50);
        assertTrue(rig.torqueNm() > 0, "manoeuvring on a slope");
    }

    @Test
    void pedalFault_thenPlug_torqueNeedsTheKeyStill() {
        rig.driving().pedal(0.4).run(20);
        rig.given(Signal.PEDAL_A_V, 0).run(10);
        assertEquals(Reset.KEY_CYCLE, rig.supervisor.state().torqueLatched());
        rig.pedal(0).given(Signal.PLUG_PRESENT, 1).until(State.FAULT, 600);
        rig.given(Signal.PLUG_PRESENT, 0).run(200);
        assertEquals(State.FAULT, rig.state(), "a plug in between resets nothing");
        rig.keyCycle();
        assertEquals(State.OFF, rig.state());
    }

    @Test
    void pedalFault_thenUnreadableKey_torqueNeedsTheKeyStill() {
        rig.driving().pedal(0.4).run(20);
        rig.given(Signal.PEDAL_A_V, 0).run(10);
        rig.pedal(0).given(Signal.KEY_ON, Double.NaN).run(1);
        assertEquals(State.RUNDOWN, rig.state());
        rig.given(Signal.KEY_ON, 1).until(State.FAULT, 600);
    }

    @Test
    void pedalFault_thenKeyOff_isOverWithTheKey() {
        rig.driving().pedal(0.4).run(20);
        rig.given(Signal.PEDAL_A_V, 0).run(10);
        rig.pedal(0).given(Signal.KEY_ON, 0).until(State.OFF, 600);
    }

    @Test
    void keyOffUnderTorque_torqueOnlyFalls() {
        rig.driving().pedal(0.8).runMs(1000);
        double before = rig.torqueNm();
        assertTrue(before > 100);
        rig.given(Signal.KEY_ON, 0).given(Signal.PACK_CURRENT_A, 100);
        for (int i = 0; i < 40; i++) {
            rig.run(1);
            assertTrue(rig.torqueNm() < before || rig.torqueNm() == 0);
            assertTrue(before - rig.torqueNm() <= 10 + 1e-9, "no jolt");
            before = rig.torqueNm();
        }
        assertEquals(0, before);
    }

    @Test
    void keyOffAfterAPedalFault_rampsNothing() {
        rig.driving().pedal(0.8).runMs(1000);
        rig.given(Signal.PEDAL_A_V, 0).run(10);
        assertEquals(0, rig.torqueNm());
        rig.given(Signal.KEY_ON, 0).run(1);
        assertEquals(0, rig.torqueNm());
        assertFalse(rig.out.isOn(Output.INVERTER_ENABLE));
    }

    @Test
    void inverterThatDrivesByItself_isDisabledThenCutOff() {
        rig.driving().given(Signal.PACK_CURRENT_A, 60).run(15);
        assertTrue(rig.out.isOn(Output.INVERTER_ENABLE));
        rig.run(1);
        assertFalse(rig.out.isOn(Output.INVERTER_ENABLE));
        assertTrue(rig.out.isOn(Output.POSITIVE_CONTACTOR), "not under load at once");
        rig.runMs(390);
        assertTrue(rig.out.isOn(Output.POSITIVE_CONTACTOR));
        rig.run(1);
        assertFalse(rig.out.isOn(Output.POSITIVE_CONTACTOR), "but after the bounded wait it is");
    }

    @Test
    void pedalLifted_inverterLags_isNoFalseAlarm() {
        rig.driving().speedKph(40).pedal(1);
        double ampPerNm = rig.in.get(Signal.MOTOR_SPEED_RPM) * 2 * Math.PI / 60 / Rig.PACK_V;
        double[] torqueNm = {0};
        rig.meddle = () -> {
            torqueNm[0] += (rig.torqueNm() - torqueNm[0]) * 0.2;
            rig.in.set(Signal.PACK_CURRENT_A, torqueNm[0] * ampPerNm);
        };
        rig.runMs(2000).pedal(0).runMs(2000);
        assertEquals(0, rig.times(Interlock.TORQUE_UNASKED), "50 ms of lag against 150 ms");
        assertEquals(State.DRIVE_ENABLE, rig.state());
    }
}
