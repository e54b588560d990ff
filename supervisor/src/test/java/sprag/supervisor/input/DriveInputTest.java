package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.Rig;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Switches and motion; one turn of the motor is 0.2356 m of road (wheel 0.3 m, ratio 8). */
class DriveInputTest {
    private final Settings settings = TestVehicle.full().without(Signal.WHEEL_SPEED_KPH);
    private final Rig source = new Rig();
    private final Readings in = source.in;
    private final Commands last = new Commands();
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private SwitchInput switches = new SwitchInput(settings);
    private DriveInput driver = new DriveInput(settings);
    private Debounce debounce = new Debounce(settings);

    private void look(int ticks) {
        for (int i = 0; i < ticks; i++) {
            switches.update(in, facts, debounce);
            driver.update(in, last, facts, debounce, c);
        }
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        BY             | VOLTS | BRAKE | SHARE | BECAUSE
        lever          | 2.5   | 0     | 0.5   | half-way from 0.5 to 4.5 V
        lever          | 4.7   | 0     | 1     | a little beyond full is full
        lever          | 0.6   | 0     | 0     | at rest
        lever          | 0.1   | 0     | 0     | a shorted wire
        lever          | 4.9   | 0     | 0     | an open wire
        lever          | NaN   | 0     | 0     | unknown
        brake-pressure | 2.5   | 1     | 0.5   | pressure and switch
        brake-pressure | 2.5   | 0     | 0     | pressure without the switch
        brake-pressure | 2.5   | NaN   | 0     | the switch is unknown
        pedal          | 2.5   | 1     | 0     | nothing beside the pedal asks
        """)
    void demand_afterRest_asksForItsShare(String by, double volts, double brake, double share, String because) {
        demand(by);
        in.set(Signal.KEY_ON, 1);
        in.set(Signal.REGEN_DEMAND_V, 0.5);
        look(1);
        assertEquals(0, c.regenAsked, "at rest");
        in.set(Signal.BRAKE_PRESSED, brake);
        in.set(Signal.REGEN_DEMAND_V, volts);
        look(1);
        assertEquals(share, c.regenAsked, 1e-9, because);
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        BY             | VOLTS | LOST  | BECAUSE
        lever          | 0.25  | false | pedal.min_v itself is sound
        lever          | 0.24  | true  | below it the wire is shorted
        lever          | 4.75  | false | pedal.max_v itself is sound
        lever          | 4.76  | true  | above it the wire is open
        brake-pressure | NaN   | true  | unknown
        pedal          | NaN   | false | nothing beside the pedal asks
        """)
    void demand_thatNoSoundSensorShows_isTold(String by, double volts, boolean lost, String because) {
        demand(by);
        in.set(Signal.REGEN_DEMAND_V, volts);
        look(100);
        assertEquals(lost, facts.is(Fact.REGEN_DEMAND_LOST), because);
    }

    @Test
    void demand_neverSeenAtRestSinceTheKey_asksForNothing() {
        demand("lever");
        in.set(Signal.KEY_ON, 1);
        in.set(Signal.REGEN_DEMAND_V, 2.5);
        look(10);
        assertEquals(0, c.regenAsked);
        in.set(Signal.REGEN_DEMAND_V, 0.5);
        look(1);
        in.set(Signal.REGEN_DEMAND_V, 2.5);
        look(1);
        assertEquals(0.5, c.regenAsked, 1e-9);
        in.set(Signal.KEY_ON, 0);
        look(1);
        in.set(Signal.KEY_ON, 1);
        look(1);
        assertEquals(0, c.regenAsked, "the key was turned");
    }

    private void demand(String by) {
        driver = new DriveInput(
                settings.with(Parameter.REGEN_BY, Parameter.REGEN_BY.choices().indexOf(by)));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        FORWARD | REVERSE | DIRECTION | CONFLICT | BECAUSE
        0       | 0       | NEUTRAL   | false    | neither
        1       | 0       | FORWARD   | false    | forward
        0       | 1       | REVERSE   | false    | reverse
        1       | 1       | NEUTRAL   | true     | both
        NaN     | 0       | NEUTRAL   | true     | unknown
        0       | NaN     | NEUTRAL   | true     | unknown
        1       | NaN     | NEUTRAL   | true     | forward, but who knows
        1       | 0.5     | NEUTRAL   | true     | half-way is unknown
        """)
    void lever_isReadFromBothSwitches(double fwd, double rev, Direction direction, boolean conflict, String because) {
        in.set(Signal.FORWARD_SWITCH, fwd);
        in.set(Signal.REVERSE_SWITCH, rev);
        look(1);
        assertEquals(direction, facts.direction(), because);
        assertEquals(conflict, facts.is(Fact.DIRECTION_CONFLICT), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SIGNAL            | VALUE | FACT            | IS    | BECAUSE
        KEY_ON            | 1     | KEY_ON          | true  | on
        KEY_ON            | NaN   | KEY_ON          | false | unknown is not on
        KEY_ON            | NaN   | KEY_OFF         | false | and not off
        KEY_ON            | 0     | KEY_OFF         | true  | off
        START_REQUEST     | 0     | START_REQUESTED | false | released
        START_REQUEST     | 1     | START_REQUESTED | true  | held
        START_REQUEST     | NaN   | START_REQUESTED | false | unknown starts nothing
        START_REQUEST     | NaN   | START_RELEASED  | false | and is not released either
        START_REQUEST     | 0     | START_RELEASED  | true  | released
        SERVICE_RESET     | 1     | SERVICE_RESET   | true  | held
        SERVICE_RESET     | NaN   | SERVICE_RESET   | false | unknown resets nothing
        BRAKE_PRESSED     | 1     | BRAKE_PRESSED   | true  | pressed
        BRAKE_PRESSED     | NaN   | BRAKE_PRESSED   | false | unknown allows no start
        CUT_LOOP_CLOSED   | NaN   | CUT_LOOP_OPEN   | true  | an unknown loop is open
        CRASH_LOOP_CLOSED | 0     | CRASH_SEEN      | true  | open
        CRASH_LOOP_CLOSED | NaN   | CRASH_SEEN      | false | unknown is no crash, but readings lost
        INVERTER_FAULT    | NaN   | INVERTER_FAULTED| true  | unknown is a fault
        """)
    void switch_unknownGoesToTheSafeSide(Signal signal, double value, Fact fact, boolean is, String because) {
        in.set(signal, value);
        look(1);
        assertEquals(is, facts.is(fact), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        ASKED | LEVEL | BECAUSE
        0     | 0     | coast
        1     | 1     | known
        3     | 3     | the highest of three
        4     | 0     | this vehicle has three
        -1    | 0     | nonsense
        NaN   | 0     | unknown is coast
        2.7   | 2     | rounded down
        """)
    void regenLevel_unknownIsCoast(double asked, int level, String because) {
        in.set(Signal.REGEN_LEVEL, asked);
        look(1);
        assertEquals(level, c.regenLevel, because);
    }

    @Test
    void speed_followsFromWheelAndRatio() {
        in.set(Signal.MOTOR_SPEED_RPM, 1000);
        look(1);
        assertEquals(2 * Math.PI * 0.3 / 8 * 1000 / 60 * 3.6, c.speedKph, 1e-9);
        assertEquals(14.137, c.speedKph, 1e-3);
        assertEquals(1000, c.motorSpeedRpm);
        in.set(Signal.MOTOR_SPEED_RPM, 15_001);
        look(1);
        assertEquals(Double.NaN, c.speedKph, "beyond what the motor can turn");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        RPM    | STANDS | BECAUSE
        0      | true   | stands
        70.7   | true   | 0.9995 km/h
        70.8   | false  | 1.0009 km/h
        -70.7  | true   | backwards
        -70.8  | false  | backwards
        NaN    | false  | unknown does not stand
        """)
    void standstill_needsAKnownSpeed(double rpm, boolean stands, String because) {
        in.set(Signal.MOTOR_SPEED_RPM, rpm);
        look(1);
        assertEquals(stands, facts.is(Fact.STANDSTILL), because);
    }

    @Test
    void acceleration_settlesAtTheSlopeOfTheSpeed() {
        for (int i = 0; i < 300; i++) {
            source.speedKph(i * 0.036);
            look(1);
        }
        assertEquals(1.0, c.accelerationMps2, 1e-3, "0.036 km/h a tick are 1 m/s²");
        in.set(Signal.MOTOR_SPEED_RPM, Double.NaN);
        look(1);
        assertEquals(0, c.accelerationMps2, "unknown");
        in.set(Signal.MOTOR_SPEED_RPM, 0);
        look(2);
        assertEquals(0, c.accelerationMps2, "no jump when it comes back");
    }

    @Test
    void acceleration_takesAFifthOfASecond() {
        source.speedKph(0);
        look(1);
        for (int i = 1; i <= 20; i++) {
            source.speedKph(i * 0.036);
            look(1);
        }
        assertEquals(1 - Math.pow(1 - 0.01 / 0.21, 20), c.accelerationMps2, 1e-9);
    }

    /** 100 Nm at 3000 rpm are 89.8 A of 350 V; 35 % of that and of a quarter of the pack's 300 A and 15 A of loads come on top. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        TORQUE_NM | RPM  | AMPS   | UNASKED | BECAUSE
        0         | 0    | 15     | false   | loads on the bus
        0         | 0    | 15.1   | true    | current without torque
        0         | 0    | -15.1  | true    | either way
        0         | 3000 | 15.1   | true    | at any speed
        100       | 3000 | 162.4  | false   | what 100 Nm may take
        100       | 3000 | 162.6  | true    | more than that
        100       | 3000 | 0      | false   | less is no unasked torque
        -100      | 3000 | -162.4 | false   | the same for regeneration
        -100      | 3000 | -162.6 | true    | more than that
        100       | 3000 | -72.6  | false   | the other way: only losses and loads
        100       | 3000 | -72.8  | true    | it brakes although it should drive
        100       | 0    | 41.2   | false   | at standstill only losses: 15 A and 35 % of 75 A
        100       | 0    | 41.3   | true    | more
        0         | 0    | NaN    | false   | unknown is another cause
        """)
    void torqueUnasked_isCurrentThatTheTorqueDoesNotExplain(
            double torqueNm, double rpm, double amps, boolean is, String because) {
        last.set(Output.NEGATIVE_CONTACTOR, true);
        last.set(Output.POSITIVE_CONTACTOR, true);
        last.set(Output.TORQUE_REQUEST_NM, torqueNm);
        in.set(Signal.MOTOR_SPEED_RPM, rpm);
        in.set(Signal.PACK_CURRENT_A, amps);
        look(16);
        assertEquals(is, facts.is(Fact.TORQUE_UNASKED), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        CHARGER | NEG   | POS   | PRE   | UNASKED | BECAUSE
        false   | true  | true  | false | true    | connected
        true    | true  | true  | false | false   | that is charge
        false   | false | true  | false | false   | not connected
        false   | true  | false | false | false   | not connected
        false   | true  | true  | true  | false   | still in the overlap
        """)
    void torqueUnasked_isJudgedOnlyWhileConnected(
            boolean charger, boolean neg, boolean pos, boolean pre, boolean is, String because) {
        last.set(Output.CHARGER_ENABLE, charger);
        last.set(Output.NEGATIVE_CONTACTOR, neg);
        last.set(Output.POSITIVE_CONTACTOR, pos);
        last.set(Output.PRECHARGE_RELAY, pre);
        in.set(Signal.PACK_CURRENT_A, 100);
        look(15);
        assertFalse(facts.is(Fact.TORQUE_UNASKED), "not long enough");
        look(1);
        assertEquals(is, facts.is(Fact.TORQUE_UNASKED), because);
    }

    @Test
    void inverterNotReady_countsOnlyWhileEnabled() {
        in.set(Signal.INVERTER_READY, 0);
        look(1000);
        assertFalse(facts.is(Fact.INVERTER_NOT_READY));
        last.set(Output.INVERTER_ENABLE, true);
        look(20);
        assertFalse(facts.is(Fact.INVERTER_NOT_READY));
        look(1);
        assertTrue(facts.is(Fact.INVERTER_NOT_READY));
    }

    @Test
    void heaterWithoutAir_countsOnlyWhileTheBlowerRuns() {
        in.set(Signal.HEATER_AIRFLOW, 0);
        look(1000);
        assertFalse(facts.is(Fact.HEATER_WITHOUT_AIR));
        last.set(Output.HEATER_BLOWER, true);
        look(150);
        assertFalse(facts.is(Fact.HEATER_WITHOUT_AIR));
        look(1);
        assertTrue(facts.is(Fact.HEATER_WITHOUT_AIR));
    }

    @Test
    void optionalSwitches_notFitted_areNotJudged() {
        Settings bare = settings.without(Signal.COVER_LOOP_CLOSED)
                .without(Signal.CRASH_LOOP_CLOSED)
                .without(Signal.INVERTER_FAULT)
                .without(Signal.HEATER_AIRFLOW);
        switches = new SwitchInput(bare);
        driver = new DriveInput(bare);
        debounce = new Debounce(bare);
        in.set(Signal.COVER_LOOP_CLOSED, 0);
        in.set(Signal.CRASH_LOOP_CLOSED, 0);
        in.set(Signal.INVERTER_FAULT, 1);
        in.set(Signal.HEATER_AIRFLOW, 0);
        last.set(Output.HEATER_BLOWER, true);
        look(1000);
        assertFalse(facts.is(Fact.COVER_LOOP_OPEN) || facts.is(Fact.CRASH_SEEN));
        assertFalse(facts.is(Fact.INVERTER_FAULTED) || facts.is(Fact.HEATER_WITHOUT_AIR));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        KPH    | LEVER   | AWAY  | BECAUSE
        -1.01  | FORWARD | true  | rolls back
        -0.99  | FORWARD | false | hardly
        1.01   | REVERSE | true  | rolls forward in reverse
        10     | FORWARD | false | the way it should
        -10    | NEUTRAL | false | no way was chosen
        """)
    void rollingAway_isAgainstTheLever(double kph, Direction lever, boolean away, String because) {
        in.set(Signal.FORWARD_SWITCH, lever == Direction.FORWARD ? 1 : 0);
        in.set(Signal.REVERSE_SWITCH, lever == Direction.REVERSE ? 1 : 0);
        source.speedKph(kph);
        look(6);
        assertEquals(away, facts.is(Fact.ROLLING_AWAY), because);
    }
}
