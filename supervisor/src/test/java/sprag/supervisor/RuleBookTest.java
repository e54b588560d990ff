package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.input.PedalInputTest;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/**
 * Two published rule books for student racing cars, the clearest public texts on the matter, rule by rule: FSAE Rules 2026
 * (version 1.0) and FS Rules 2024 (version 1.1). Where this supervisor does otherwise on purpose, the test says why: a car in
 * traffic is not a car on a closed track. Pedal disagreement, range and brake are in {@link PedalInputTest} and
 * {@link UnaskedMovementTest}.
 */
class RuleBookTest {
    private final Rig rig = new Rig();
    private final Settings settings = rig.settings;

    /** FSAE T.4.2.5, FS T 11.8.8: motor power off immediately and completely; the shutdown circuit need not open. */
    @Test
    void pedalImplausible_powerOffButContactorsStay() {
        rig.driving().pedal(0.5).runMs(1000);
        rig.pedalA(0.3).run(10);
        assertTrue(rig.torqueNm() >= 0);
        rig.run(1);
        assertEquals(0, rig.torqueNm());
        assertTrue(rig.out.isOn(Output.POSITIVE_CONTACTOR));
    }

    /** FS T 11.9.4: a message may be 500 ms late at most. A sample is stale and then counts within less. */
    @Test
    void lateSamples_countWithinHalfASecond() {
        double ms = settings.get(Parameter.LOOP_STALE_MS) + settings.get(Parameter.LOOP_BLIND_MS);
        assertTrue(ms <= 500, ms + " ms");
    }

    /** FSAE EV.5.6.1 asks for 90 %, FS EV 5.7.1 for 95 % of the pack: the default is the stricter. */
    @Test
    void prechargeLevel_isTheStricterOfBoth() {
        assertEquals(0.95, Parameter.PRECHARGE_DONE_FRACTION.byDefault());
    }

    /** FSAE EV.9.2, FS EV 4.11: low voltage on, then traction active, then ready to drive. */
    @Test
    void order_isLowVoltageThenTractionThenDrive() {
        rig.given(Signal.START_REQUEST, 1).given(Signal.BRAKE_PRESSED, 1).runMs(1000);
        assertEquals(State.OFF, rig.state(), "no traction without low voltage on");
        rig.given(Signal.START_REQUEST, 0);
        rig.precharging();
        while (rig.state() == State.PRECHARGE) {
            assertEquals(0, rig.torqueNm());
            assertFalse(rig.out.isOn(Output.INVERTER_ENABLE), "not ready to drive while traction comes alive");
            rig.run(1);
        }
        assertEquals(State.DRIVE_ENABLE, rig.state());
        assertTrue(rig.out.isOn(Output.POSITIVE_CONTACTOR));
    }

    /** FSAE EV.9.6.2, FS EV 4.11.7: brake pressed and held and a manual action at the same time. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            BRAKE | START | GOES  | BECAUSE
            1     | 1     | true  | both
            0     | 1     | false | no brake
            1     | 0     | false | no action
            0     | 0     | false | neither
            """)
    void start_needsBrakeAndAct(int brake, int start, boolean goes, String because) {
        rig.ignition()
                .given(Signal.BRAKE_PRESSED, brake)
                .given(Signal.START_REQUEST, start)
                .run(10);
        assertEquals(goes, rig.state() == State.PRECHARGE, because);
    }

    /** FS EV 4.11.8: ready to drive is left at once when the shutdown circuit opens. */
    @Test
    void shutdown_leavesReadyAtOnce() {
        rig.driving().pedal(0.5).run(50);
        rig.given(Signal.CUT_LOOP_CLOSED, 0).run(1);
        assertEquals(State.FAULT, rig.state());
        assertEquals(0, rig.torqueNm());
        assertFalse(
                rig.anyContactor(), "within one tick; both rule books allow 250 ms to bring the current down first");
    }

    /**
     * FSAE EV.5.4.5 and FS EV 6.1.5 allow 250 ms before the relays open. A fault that can wait waits up to 400 ms by default:
     * for the fall of the torque and the lag of an inverter. What must not wait does not wait at all.
     */
    @Test
    void boundedWait_isLongerOnPurpose() {
        assertEquals(400, Parameter.RUNDOWN_WAIT_MS.byDefault());
        assertTrue(Parameter.RUNDOWN_WAIT_MS.min() <= 250, "a vehicle may ask for the rule's figure");
    }

    /** FSAE EV.7.2.2, FS EV 6.1.5: to 60 V d.c. within 5 s; that is the default, and 60 V the most a vehicle may call dead. */
    @Test
    void discharge_isWithinFiveSecondsToSixtyVolts() {
        assertEquals(5000, Parameter.BUS_BLEED_MS.byDefault());
        assertEquals(60, Parameter.BUS_DISCHARGED_V.max());
    }

    /** FSAE EV.7.6.3, FS EV 6.3.3: 500 ohm per volt. */
    @Test
    void isolation_isFiveHundredOhmPerVolt() {
        assertEquals(500, Parameter.ISOLATION_MIN_OHM_PER_V.byDefault());
    }

    /** FSAE EV.7.5.2, FS EV 5.8.5: cells at 60 °C at most; the default is lower. FS EV 5.8.7: 500 ms for voltage and current. */
    @Test
    void pack_tripsWithinTheRules() {
        assertTrue(Parameter.PACK_HOT_C.byDefault() <= 60);
        assertTrue(Parameter.PACK_TRIP_MS.byDefault() <= 500);
        assertTrue(Parameter.CELL_TRIP_MS.byDefault() <= 500);
        assertTrue(Parameter.PACK_OVER_MS.byDefault() <= 500);
    }

    /**
     * FSAE EV.7.2.3, FS EV 6.1.6: a battery monitor's fault is latched and opens the relays. Here a withdrawn permit takes
     * the torque and leaves the contactors: in traffic the steering and the lights hang on them. The last lines, over and under
     * voltage and heat, do open and latch.
     */
    @Test
    void monitorWithdrawsPermit_takesTorqueOnly() {
        rig.driving().pedal(0.5).run(50);
        rig.given(Signal.DISCHARGE_PERMIT, 0).run(6);
        assertEquals(0, rig.torqueNm());
        assertEquals(State.DRIVE_ENABLE, rig.state());
    }

    /** FS EV 4.10.5: a relay's state is the mechanical one, not the command. */
    @Test
    void contactorState_isTheContactsNotTheCommands() {
        rig.precharging()
                .until(Step.OVERLAP, 200)
                .meddle(Signal.POSITIVE_AUX_CLOSED, 0)
                .run(10);
        assertEquals(State.FAULT, rig.state());
        assertTrue(rig.times(Interlock.CONTACTOR_NOT_CLOSED) > 0);
    }
}
