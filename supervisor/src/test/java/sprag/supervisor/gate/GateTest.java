package sprag.supervisor.gate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.Rig;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** The last veto: each absolute from both sides. */
class GateTest {
    private final Settings settings = TestVehicle.full();
    private final Readings in = new Rig().in;
    private final Commands c = new Commands();
    private final Gate gate = new Gate(settings);
    private double locked = 1;

    @BeforeEach
    void driving() {
        in.set(Signal.KEY_ON, 1);
        in.set(Signal.BUS_VOLTAGE_V, 350);
        ask();
        assertFalse(gate.check(in, c));
    }

    private void ask() {
        c.set(Output.NEGATIVE_CONTACTOR, true);
        c.set(Output.POSITIVE_CONTACTOR, true);
        c.set(Output.INVERTER_ENABLE, true);
        c.set(Output.TORQUE_REQUEST_NM, 100);
    }

    private boolean charge(double amps, double volts) {
        return charge(amps, volts, gate);
    }

    private boolean charge(double amps, double volts, Gate judge) {
        in.set(Signal.PLUG_LOCKED, locked);
        c.set(Output.INVERTER_ENABLE, false);
        c.set(Output.TORQUE_REQUEST_NM, 0);
        c.set(Output.CHARGER_ENABLE, true);
        c.set(Output.CHARGE_CURRENT_LIMIT_A, amps);
        c.set(Output.CHARGER_1_LIMIT_A, amps / 2);
        c.set(Output.CHARGER_2_LIMIT_A, amps / 4);
        c.set(Output.CHARGER_3_LIMIT_A, amps / 4);
        c.set(Output.CHARGE_VOLTAGE_LIMIT_V, volts);
        return judge.check(in, c);
    }

    @ParameterizedTest(name = "loop reads {0}")
    @CsvSource({"0", "NaN", "0.5"})
    void cutLoopNotClosed_releasesEverything(double loop) {
        c.set(Output.PRECHARGE_RELAY, true);
        c.set(Output.CHARGER_ENABLE, true);
        in.set(Signal.CUT_LOOP_CLOSED, loop);
        assertTrue(gate.check(in, c));
        for (Output output : new Output[] {
            Output.NEGATIVE_CONTACTOR,
            Output.PRECHARGE_RELAY,
            Output.POSITIVE_CONTACTOR,
            Output.INVERTER_ENABLE,
            Output.TORQUE_REQUEST_NM,
            Output.CHARGER_ENABLE
        }) {
            assertFalse(c.isOn(output), output.key());
        }
        assertFalse(gate.check(in, c), "nothing is left to take back");
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(
            value = Output.class,
            names = {
                "NEGATIVE_CONTACTOR",
                "PRECHARGE_RELAY",
                "POSITIVE_CONTACTOR",
                "INVERTER_ENABLE",
                "TORQUE_REQUEST_NM",
                "CHARGER_ENABLE",
                "CHARGE_CURRENT_LIMIT_A",
                "CHARGER_1_LIMIT_A",
                "CHARGER_2_LIMIT_A",
                "CHARGER_3_LIMIT_A"
            })
    void cutLoopOpen_anySingleOutputIsVetoed(Output output) {
        c.release();
        c.set(output, 1);
        in.set(Signal.CUT_LOOP_CLOSED, 0);
        assertTrue(gate.check(in, c));
        assertFalse(c.isOn(output));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SIGNAL       | VALUE | VETO  | BECAUSE
        PLUG_PRESENT | 0     | false | no plug
        PLUG_PRESENT | 1     | true  | a plug
        PLUG_PRESENT | NaN   | true  | an unknown plug is a plug
        PROXIMITY_V  | 4.46  | false | an open inlet
        PROXIMITY_V  | 4.0   | false | the threshold
        PROXIMITY_V  | 3.99  | true  | something is in the inlet
        PROXIMITY_V  | NaN   | true  | unknown
        PILOT_PEAK_V | 2.0   | false | the threshold
        PILOT_PEAK_V | 2.01  | true  | a station is there
        PILOT_PEAK_V | -12   | false | no station makes a positive peak
        PILOT_PEAK_V | NaN   | true  | unknown
        """)
    void torqueWithASignOfAPlug_isVetoed(Signal signal, double value, boolean veto, String because) {
        in.set(signal, value);
        assertEquals(veto, gate.check(in, c), because);
        assertEquals(veto ? 0 : 100, c.get(Output.TORQUE_REQUEST_NM));
    }

    @ParameterizedTest(name = "{0} released")
    @EnumSource(
            value = Output.class,
            names = {"NEGATIVE_CONTACTOR", "POSITIVE_CONTACTOR", "INVERTER_ENABLE"})
    void torqueWithoutConnection_isVetoed(Output missing) {
        c.set(missing, false);
        assertTrue(gate.check(in, c));
        assertEquals(0, c.get(Output.TORQUE_REQUEST_NM));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        TORQUE_NM | KEY | VETO  | BECAUSE
        200       | 1   | false | the greatest torque
        200.1     | 1   | true  | more than that
        -200.1    | 1   | true  | either way
        100       | 0   | false | key off: no more than before
        100.1     | 0   | true  | rising with the key off
        -100.1    | 0   | true  | either way
        100.1     | NaN | true  | an unknown key is off
        -100      | 0   | false | as much as before
        0         | 0   | false | nothing
        """)
    void torqueBeyondItsLimits_isVetoed(double torqueNm, double key, boolean veto, String because) {
        in.set(Signal.KEY_ON, key);
        c.set(Output.TORQUE_REQUEST_NM, torqueNm);
        assertEquals(veto, gate.check(in, c), because);
        assertEquals(veto ? 0 : torqueNm, c.get(Output.TORQUE_REQUEST_NM));
    }

    /**
     * FS Rules 2024 EV 5.7.1: precharge to at least 95 % of the actual pack voltage before the second relay closes (FSAE
     * Rules 2026 EV.5.6.1: 90 %).
     */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        BUS_V | PACK_V | VETO  | BECAUSE
        332.5 | 350    | false | 95 %
        332.4 | 350    | true  | below
        NaN   | 350    | true  | unknown
        350   | NaN    | true  | unknown
        """)
    void closingOntoAnUnchargedBus_isVetoed(double busV, double packV, boolean veto, String because) {
        c.set(Output.POSITIVE_CONTACTOR, false);
        c.set(Output.TORQUE_REQUEST_NM, 0);
        assertFalse(gate.check(in, c));
        c.set(Output.POSITIVE_CONTACTOR, true);
        in.set(Signal.BUS_VOLTAGE_V, busV);
        in.set(Signal.PACK_VOLTAGE_V, packV);
        assertEquals(veto, gate.check(in, c), because);
        assertEquals(!veto, c.isOn(Output.POSITIVE_CONTACTOR));
        c.set(Output.POSITIVE_CONTACTOR, true);
        assertEquals(veto, gate.check(in, c), "a contactor that was vetoed is still one that closes anew");
    }

    /** A contactor that is taken back takes the torque with it, in the same tick. */
    @Test
    void torqueWhileTheContactorClosesOntoAnUnchargedBus_bothAreVetoed() {
        c.set(Output.POSITIVE_CONTACTOR, false);
        c.set(Output.TORQUE_REQUEST_NM, 0);
        assertFalse(gate.check(in, c));
        ask();
        in.set(Signal.BUS_VOLTAGE_V, 0);
        assertTrue(gate.check(in, c));
        assertEquals(0, c.get(Output.TORQUE_REQUEST_NM));
    }

    /** What one charger is asked for counts as well as what all are asked for together. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        A_1  | A_2 | A_3  | PLUG | VETO  | BECAUSE
        30   | 30  | 30   | 1    | false | the pack's greatest current together
        30   | 30  | 30.1 | 1    | true  | more than that
        -1   | 30  | 30   | 1    | true  | nonsense
        30   | -1  | 30   | 1    | true  | nonsense
        30   | 30  | -1   | 1    | true  | nonsense
        0    | 0   | 0.1  | 0    | true  | a share alone, without a plug
        0    | 0   | 0    | 0    | false | nothing
        """)
    void sharesOfTheCharge_countAsTheCharge(
            double a1, double a2, double a3, double plug, boolean veto, String because) {
        in.set(Signal.PLUG_PRESENT, plug);
        in.set(Signal.PLUG_LOCKED, 1);
        c.release();
        c.set(Output.CHARGER_1_LIMIT_A, a1);
        c.set(Output.CHARGER_2_LIMIT_A, a2);
        c.set(Output.CHARGER_3_LIMIT_A, a3);
        assertEquals(veto, gate.check(in, c), because);
    }

    @Test
    void contactorThatIsClosedAlready_mayStayOnAFallenBus() {
        in.set(Signal.BUS_VOLTAGE_V, 0);
        assertFalse(gate.check(in, c));
        assertTrue(c.isOn(Output.POSITIVE_CONTACTOR));
    }

    @Test
    void prechargeRelay_isReleasedAfterTwiceItsLongestTime() {
        c.set(Output.PRECHARGE_RELAY, true);
        for (int i = 0; i < 200; i++) {
            assertFalse(gate.check(in, c), "tick " + i);
        }
        assertTrue(gate.check(in, c));
        assertFalse(c.isOn(Output.PRECHARGE_RELAY));
        assertFalse(gate.check(in, c));
        c.set(Output.PRECHARGE_RELAY, true);
        assertFalse(gate.check(in, c), "counted anew after a release");
    }

    /** Twice the precharge time alone would be too short for a vehicle with a long weld test or overlap. */
    @ParameterizedTest(name = "{0} of 500 ms")
    @EnumSource(
            value = Parameter.class,
            names = {"CONTACTOR_WELD_TEST_MS", "CONTACTOR_OVERLAP_MS", "CONTACTOR_CLOSE_MS"})
    void slowParts_leaveTheGateRoom(Parameter slow) {
        Settings quick = settings.with(Parameter.PRECHARGE_TIMEOUT_MS, 100).with(slow, 500);
        Gate patient = new Gate(quick);
        c.set(Output.PRECHARGE_RELAY, true);
        c.set(Output.POSITIVE_CONTACTOR, false);
        c.set(Output.TORQUE_REQUEST_NM, 0);
        for (int i = 0; i < 100; i++) {
            assertFalse(patient.check(in, c), "tick " + i);
        }
        assertTrue(patient.check(in, c));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        PLUG | AMPS | VOLTS | VETO  | BECAUSE
        1    | 90   | 403   | false | at the limits of the pack
        1    | 90.1 | 403   | true  | too much current
        1    | 90   | 403.1 | true  | too much voltage
        1    | -0.1 | 403   | true  | nonsense
        0    | 10   | 403   | true  | no plug
        """)
    void charge_isVetoedBeyondThePackOrWithoutAPlug(
            double plug, double amps, double volts, boolean veto, String because) {
        in.set(Signal.PLUG_PRESENT, plug);
        assertEquals(veto, charge(amps, volts), because);
        for (Output output : new Output[] {
            Output.CHARGER_ENABLE,
            Output.CHARGE_CURRENT_LIMIT_A,
            Output.CHARGER_1_LIMIT_A,
            Output.CHARGER_2_LIMIT_A,
            Output.CHARGER_3_LIMIT_A
        }) {
            assertEquals(!veto, c.isOn(output), output.key());
        }
    }

    /** The rig shows an open inlet; an unknown sign stops the drive, and is no leave to charge. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SWITCH | PROXIMITY_V | PILOT_V | VETO  | BECAUSE
        0      | 4.46        | 0       | true  | nothing shows a plug
        NaN    | 4.46        | 0       | true  | an unknown switch shows none
        0      | NaN         | 0       | true  | an unknown proximity shows none
        0      | 4.46        | NaN     | true  | an unknown pilot shows none
        NaN    | NaN         | NaN     | true  | everything unknown
        1      | NaN         | NaN     | false | the switch shows it
        NaN    | 1.53        | NaN     | false | the proximity shows it
        NaN    | NaN         | 9       | false | the pilot shows it
        0      | 3.9         | 0       | false | a plug in any connector family
        0      | 4.0         | 0       | true  | no plug from here on
        0      | 4.46        | 2.1     | false | a pilot
        0      | 4.46        | 2.0     | true  | no pilot up to here
        """)
    void chargeBehindAPlugThatIsNotSeen_isVetoed(
            double plug, double proximityV, double pilotV, boolean veto, String because) {
        in.set(Signal.PLUG_PRESENT, plug);
        in.set(Signal.PROXIMITY_V, proximityV);
        in.set(Signal.PILOT_PEAK_V, pilotV);
        assertEquals(veto, charge(10, 400), because);
    }

    @ParameterizedTest(name = "contact reads {0}: {1}")
    @CsvSource({"1, false", "0, true", "NaN, true"})
    void chargeBehindALockThatIsNotSeenClosed_isVetoed(double contact, boolean veto) {
        in.set(Signal.PLUG_PRESENT, 1);
        locked = contact;
        assertEquals(veto, charge(10, 400));
        Settings lockless = settings.with(Parameter.INLET_LOCK, 0).without(Signal.PLUG_LOCKED);
        assertFalse(charge(10, 400, new Gate(lockless)), "a car without a lock has nothing to see");
    }

    @Test
    void chargeWithTheInverterAlive_isVetoed() {
        in.set(Signal.PLUG_PRESENT, 1);
        assertFalse(charge(10, 400));
        c.set(Output.INVERTER_ENABLE, true);
        assertTrue(gate.check(in, c));
        assertFalse(c.isOn(Output.CHARGER_ENABLE));
    }

    @Test
    void currentLimitWithoutEnable_isAChargeAsWell() {
        c.release();
        c.set(Output.CHARGE_CURRENT_LIMIT_A, 5);
        assertTrue(gate.check(in, c));
        assertEquals(0, c.get(Output.CHARGE_CURRENT_LIMIT_A));
    }

    @Test
    void nothingAsked_isNeverVetoed() {
        c.release();
        in.clear();
        assertFalse(gate.check(in, c));
    }
}
