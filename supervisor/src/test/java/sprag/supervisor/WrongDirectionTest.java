package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** H03: torque against the chosen direction, a direction change while rolling. H04: drive lost in traffic. */
class WrongDirectionTest {
    private final Rig rig = new Rig();

    private void lever(Direction direction) {
        rig.given(Signal.FORWARD_SWITCH, direction == Direction.FORWARD ? 1 : 0);
        rig.given(Signal.REVERSE_SWITCH, direction == Direction.REVERSE ? 1 : 0);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            KPH   | TRAVEL | ENGAGES | BECAUSE
            0     | 0      | true    | standing, pedal released
            0.99  | 0      | true    | nearly standing
            1.01  | 0      | false   | rolling
            -1.01 | 0      | false   | rolling back
            0     | 0.06   | false   | pedal pressed
            NaN   | 0      | false   | nobody knows whether it stands
            """)
    void reverseAsked_engagesNearStandstillWithThePedalReleased(
            double kph, double travel, boolean engages, String because) {
        rig.driving().speedKph(kph).pedal(travel).run(1);
        lever(Direction.REVERSE);
        rig.run(2);
        assertEquals(
                engages ? Direction.REVERSE : Direction.FORWARD,
                rig.supervisor.state().engaged(),
                because);
        assertEquals(!engages, rig.acts(Interlock.DIRECTION_ROLLING), because);
        rig.pedal(0.5).run(1);
        assertEquals(engages, rig.torqueNm() < 0, because);
        assertTrue(rig.torqueNm() <= 0, "never forward with the lever at reverse");
    }

    @Test
    void neutralAtSpeed_takesTorqueAndGivesItBackAfterAReleasedPedal() {
        rig.driving().speedKph(50).pedal(0.6).runMs(500);
        assertTrue(rig.torqueNm() > 0);
        lever(Direction.NEUTRAL);
        rig.run(1);
        assertEquals(0, rig.torqueNm());
        lever(Direction.FORWARD);
        rig.run(20);
        assertEquals(0, rig.torqueNm(), "the pedal is still pressed");
        rig.pedal(0).run(2).pedal(0.6).run(10);
        assertTrue(rig.torqueNm() > 0, "a lever knocked at speed is put back without stopping");
    }

    @Test
    void bothSwitches_takeTheTorque() {
        rig.driving().pedal(0.6).runMs(500);
        rig.given(Signal.REVERSE_SWITCH, 1).run(1);
        assertEquals(0, rig.torqueNm());
        assertEquals(State.DRIVE_ENABLE, rig.state());
    }

    @Test
    void rollingBack_regenerationNeverPushes() {
        rig.driving().given(Signal.REGEN_LEVEL, 3).speedKph(-10).runMs(1000);
        assertEquals(0, rig.torqueNm());
        rig.pedal(0.3).run(20);
        assertTrue(rig.torqueNm() > 0, "but the pedal drives out of it");
    }

    /** H04: what limits leaves enough to get off the road. */
    @ParameterizedTest(name = "{0} = {1}")
    @CsvSource({
        "MOTOR_TEMP_V, 5",
        "INVERTER_TEMP_V, 0",
        "COOLANT_TEMP_V, NaN",
        "PACK_HOT_V, 5",
        "CELL_MAX_V, NaN",
        "ISOLATION_KOHM, 0",
        "LV_SUPPLY_V, 11",
        "CHARGE_PERMIT, 0",
        "CELL_MIN_V, 3.05"
    })
    void driving_limitingFault_leavesTorque(Signal signal, double value) {
        rig.driving().pedal(1).runMs(2000);
        rig.given(signal, value).runMs(4000);
        assertEquals(State.DRIVE_ENABLE, rig.state());
        assertTrue(rig.torqueNm() >= 20, "torque " + rig.torqueNm());
        assertTrue(rig.supervisor.permissions().limited);
    }

    /** H04: a sensor that breaks while its part is warm does not take the drive away for the time of its debouncing. */
    @Test
    void motorWarm_sensorBreaks_torqueNeverCollapses() {
        rig.driving().pedal(1).celsius(Signal.MOTOR_TEMP_V, 115).runMs(2000);
        rig.given(Signal.MOTOR_TEMP_V, 5);
        for (int i = 0; i < 300; i++) {
            rig.run(1);
            assertTrue(rig.torqueNm() >= 79, "tick " + i + ": " + rig.torqueNm());
        }
    }

    /** H04: a pedal wire that breaks at speed neither drives nor brakes. */
    @ParameterizedTest(name = "track A at {0} V")
    @CsvSource({"0", "5", "NaN", "3.5"})
    void pedalWireBreaksAtSpeed_torqueGoesToZeroAndNoFurther(double volts) {
        rig.driving().given(Signal.REGEN_LEVEL, 3).speedKph(80).pedal(0.6).runMs(1000);
        rig.given(Signal.PEDAL_A_V, volts);
        for (int i = 0; i < 30; i++) {
            rig.run(1);
            assertTrue(rig.torqueNm() >= 0, "tick " + i + ": " + rig.torqueNm());
        }
        assertEquals(0, rig.torqueNm());
        assertFalse(rig.state() != State.DRIVE_ENABLE, "the contactors stay");
    }
}
