package sprag.supervisor.auxiliaries;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.Wild;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.logic.Journal;
import sprag.supervisor.logic.Logic;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Ticks of 10 ms. Pump at 35, fan at 50, warm at 60 degree Celsius; heater up to 75; after-run 120 s. */
class AuxiliariesTest {
    private static final int S = 100;

    private final TickFacts f = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final Readings in = new Readings();
    private final Commands out = new Commands();
    private Logic logic;
    private Auxiliaries aux;

    AuxiliariesTest() {
        fit(TestVehicle.full());
        for (Signal signal : Signal.values()) {
            in.set(signal, 0);
        }
        c.speedKph = 0;
        c.stateOfCharge = 0.6;
        c.inverterTempC = 25;
        c.coolantTempC = 25;
        c.chargerTempC = 25;
        c.motorTempC = 25;
        c.heaterTempC = 25;
    }

    private void fit(Settings settings) {
        logic = new Logic(settings, Set.of(), Journal.SILENT);
        aux = new Auxiliaries(settings);
    }

    private AuxiliariesTest in(State state) {
        logic.state().state = state;
        return this;
    }

    private AuxiliariesTest driving() {
        logic.permissions().busConnected = true;
        f.set(Fact.KEY_ON, true);
        return in(State.DRIVE_ENABLE);
    }

    private AuxiliariesTest charging() {
        logic.permissions().busConnected = true;
        logic.permissions().charging = true;
        logic.state().charge = ChargePhase.CHARGING;
        f.set(Fact.PLUG_SEEN, true);
        return in(State.CHARGE_LOCKOUT);
    }

    private AuxiliariesTest off() {
        logic.permissions().forbidAll();
        f.set(Fact.KEY_ON, false);
        f.set(Fact.PLUG_SEEN, false);
        return in(State.OFF);
    }

    private AuxiliariesTest run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            aux.shape(logic, f, c, in, out);
        }
        return this;
    }

    private boolean on(Output output) {
        return out.isOn(output);
    }

    /** How many of the next ticks an output is on. */
    private int onFor(Output output, int ticks) {
        int count = 0;
        for (int i = 0; i < ticks; i++) {
            run(1);
            count += on(output) ? 1 : 0;
        }
        return count;
    }

    @Nested
    class Coolant {
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                INVERTER_C | COOLANT_C | CHARGER_C | PUMP  | FAN  | BECAUSE
                25         | 25        | 25        | false | 0    | all cool
                34.9       | 25        | 25        | false | 0    | just below coolant.pump_c
                35         | 25        | 25        | true  | 0    | at it
                25         | 35        | 25        | true  | 0    | the coolant counts
                25         | 25        | 35        | true  | 0    | the chargers count
                36         | 49.9      | 25        | true  | 0    | just below coolant.fan_c
                36         | 50        | 25        | true  | 0.3  | at it: least duty
                36         | 55        | 25        | true  | 0.65 | half-way to coolant.warm_c
                36         | 60        | 25        | true  | 1    | warm: full
                NaN        | 25        | 25        | true  | 0    | an unknown inverter counts as hot for the pump
                25         | NaN       | 25        | true  | 1    | unknown coolant counts as hot
                """)
        void temperature_runsPumpAndFan(
                double inverterC, double coolantC, double chargerC, boolean pump, double fan, String because) {
            c.inverterTempC = inverterC;
            c.coolantTempC = coolantC;
            c.chargerTempC = chargerC;
            driving().run(1);
            assertEquals(pump, on(Output.COOLANT_PUMP), because);
            assertEquals(fan, out.get(Output.RADIATOR_FAN_DUTY), 1e-9, because);
        }

        @Test
        void temperatureAtTheEdge_doesNotChatter() {
            c.inverterTempC = 35;
            driving().run(1);
            c.inverterTempC = 32;
            assertTrue(run(1).on(Output.COOLANT_PUMP), "3 K below");
            c.inverterTempC = 31.9;
            assertFalse(run(1).on(Output.COOLANT_PUMP));
            c.inverterTempC = 34.9;
            assertFalse(run(1).on(Output.COOLANT_PUMP));
        }

        @Test
        void keyOffHot_pumpRunsOnForItsTimeAndNotLonger() {
            c.coolantTempC = 55;
            driving().run(10);
            off().run(120 * S - 1);
            assertTrue(on(Output.COOLANT_PUMP));
            assertTrue(out.get(Output.RADIATOR_FAN_DUTY) > 0);
            run(1);
            assertFalse(on(Output.COOLANT_PUMP), "the 12 V battery is worth more");
            assertEquals(0, out.get(Output.RADIATOR_FAN_DUTY));
        }

        @Test
        void keyOffHot_pumpStopsWhenCool() {
            c.coolantTempC = 55;
            driving().run(10);
            off().run(S);
            c.coolantTempC = 30;
            assertFalse(run(1).on(Output.COOLANT_PUMP));
        }

        @Test
        void hotButNeverWorked_staysOff() {
            c.coolantTempC = 55;
            assertFalse(off().run(S).on(Output.COOLANT_PUMP), "a car parked in the sun");
        }

        @ParameterizedTest
        @EnumSource(
                value = Fact.class,
                names = {"MOTOR_WARM", "INVERTER_WARM", "COOLANT_WARM", "COOLING_LOST", "DRIVE_SENSOR_LOST"})
        void alarm_runsEverything(Fact fact) {
            f.set(fact, true);
            driving().run(1);
            assertTrue(on(Output.COOLANT_PUMP));
            assertEquals(1, out.get(Output.RADIATOR_FAN_DUTY));
        }

        @Test
        void noSensorsAtAll_pumpRunsWheneverTheCarWorks() {
            fit(TestVehicle.full().without(Signal.COOLANT_TEMP_V).without(Signal.INVERTER_TEMP_V));
            c.inverterTempC = Double.NaN;
            c.coolantTempC = Double.NaN;
            assertTrue(driving().run(1).on(Output.COOLANT_PUMP));
            assertFalse(off().run(1).on(Output.COOLANT_PUMP));
        }
    }

    @Nested
    class Heating {
        /** Bus connected, heat asked for, airflow seen off before and steady now. */
        private void heating() {
            in.set(Signal.HEATER_AIRFLOW, 0);
            off().run(5);
            in.set(Signal.HEATER_REQUEST, 1);
            driving().run(20);
            in.set(Signal.HEATER_AIRFLOW, 1);
            run(S);
        }

        @Test
        void element_waitsForSteadyAir() {
            off().run(5);
            in.set(Signal.HEATER_REQUEST, 1);
            driving().run(20);
            assertTrue(on(Output.HEATER_BLOWER));
            assertFalse(on(Output.HEATER_ELEMENT), "no airflow yet");
            in.set(Signal.HEATER_AIRFLOW, 1);
            assertFalse(run(49).on(Output.HEATER_ELEMENT), "not steady yet");
            assertTrue(run(1).on(Output.HEATER_ELEMENT));
        }

        @Test
        void airflowSwitchStuckOn_provesNothing() {
            in.set(Signal.HEATER_AIRFLOW, 1);
            off().run(5);
            in.set(Signal.HEATER_REQUEST, 1);
            assertFalse(driving().run(10 * S).on(Output.HEATER_ELEMENT));
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                SIGNAL         | VALUE | BECAUSE
                HEATER_AIRFLOW | 0     | the air is gone
                HEATER_AIRFLOW | NaN   | the air is unknown
                HEATER_REQUEST | 0     | nobody asks
                HEATER_REQUEST | NaN   | nobody knows whether somebody asks
                """)
        void elementEndsInTheSameTick(Signal signal, double value, String because) {
            heating();
            assertTrue(on(Output.HEATER_ELEMENT));
            in.set(signal, value);
            assertFalse(run(1).on(Output.HEATER_ELEMENT), because);
            assertTrue(on(Output.HEATER_BLOWER), "the blower cools the element");
        }

        @ParameterizedTest
        @EnumSource(
                value = Fact.class,
                names = {"LV_LOW", "LV_LOST", "PACK_LOW", "PACK_WARM", "DISCHARGE_WITHDRAWN", "HEATER_WITHOUT_AIR"})
        void elementIsShedFirst(Fact fact) {
            heating();
            f.set(fact, true);
            assertFalse(run(1).on(Output.HEATER_ELEMENT));
        }

        @Test
        void thermostat_hasHysteresis() {
            heating();
            c.heaterTempC = 74.9;
            assertTrue(run(1).on(Output.HEATER_ELEMENT));
            c.heaterTempC = 75;
            assertFalse(run(1).on(Output.HEATER_ELEMENT), "heater.max_c");
            c.heaterTempC = 70;
            assertFalse(run(1).on(Output.HEATER_ELEMENT), "5 K below is not yet below");
            c.heaterTempC = 69.9;
            assertTrue(run(1).on(Output.HEATER_ELEMENT));
            c.heaterTempC = Double.NaN;
            assertFalse(run(1).on(Output.HEATER_ELEMENT), "unknown");
        }

        @Test
        void busOpens_elementEndsAndBlowerRunsOutItsTime() {
            heating();
            off().run(1);
            assertFalse(on(Output.HEATER_ELEMENT));
            assertEquals(998, onFor(Output.HEATER_BLOWER, 20 * S), 1, "10 s");
        }

        @ParameterizedTest
        @EnumSource(
                value = Signal.class,
                names = {"HEATER_AIRFLOW", "HEATER_TEMP_V", "HEATER_REQUEST"})
        void whatIsNotFitted_leavesTheElementOff(Signal signal) {
            fit(TestVehicle.full().without(signal));
            heating();
            assertFalse(on(Output.HEATER_ELEMENT));
        }
    }

    @Nested
    class LowVoltage {
        @Test
        void sag_shedsInOrder() {
            c.coolantTempC = 55;
            driving().run(10);
            f.set(Fact.LV_LOW, true);
            run(5 * S);
            assertTrue(out.get(Output.RADIATOR_FAN_DUTY) > 0, "the fan goes after 5 s");
            run(1);
            assertEquals(0, out.get(Output.RADIATOR_FAN_DUTY));
            run(60 * S);
            assertTrue(on(Output.COOLANT_PUMP), "a driving car keeps its pump");
            off();
            run(1);
            assertFalse(on(Output.COOLANT_PUMP));
        }

        /** The pump that runs on after a hot drive: it is worth 15 s of a sagging battery. */
        @Test
        void sagWithTheKeyOff_pumpRunsOnFor15SecondsOnly() {
            c.coolantTempC = 55;
            driving().run(10);
            f.set(Fact.LV_LOW, true);
            off().run(15 * S);
            assertTrue(on(Output.COOLANT_PUMP));
            assertFalse(run(1).on(Output.COOLANT_PUMP));
            f.set(Fact.LV_LOW, false);
            assertTrue(run(1).on(Output.COOLANT_PUMP), "the sag is over, and the after-run is not");
            f.set(Fact.LV_LOW, true);
            assertTrue(run(15 * S).on(Output.COOLANT_PUMP), "a new sag counts from its beginning");
            assertFalse(run(1).on(Output.COOLANT_PUMP));
        }

        @Test
        void sag_leavesTheFanToAWarmInverter() {
            f.set(Fact.INVERTER_WARM, true);
            f.set(Fact.LV_LOW, true);
            driving().run(60 * S);
            assertEquals(1, out.get(Output.RADIATOR_FAN_DUTY));
        }

        @Test
        void lost_everythingButTheLampsGoes() {
            c.coolantTempC = 55;
            driving().run(10);
            f.set(Fact.LV_LOST, true);
            f.set(Fact.BRAKE_PRESSED, true);
            run(1);
            assertFalse(on(Output.COOLANT_PUMP));
            assertEquals(0, out.get(Output.RADIATOR_FAN_DUTY));
            assertTrue(on(Output.BRAKE_LAMP));
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                SIDE      | KEY   | PLUG  | BUS   | FACT              | ON    | BECAUSE
                bus-side  | true  | false | false | BUS_FLAT          | false | no bus yet
                bus-side  | false | false | true  | BUS_FLAT          | true  | follows the bus
                pack-side | false | false | false | BUS_FLAT          | false | the car sleeps
                pack-side | true  | false | false | BUS_FLAT          | true  | key on
                pack-side | false | true  | false | BUS_FLAT          | false | a finished charge is not run down again
                pack-side | false | true  | false | LV_LOW            | true  | unless the 12 V battery sags
                pack-side | false | false | false | LV_LOW            | false | unplugged and asleep: nobody tops it up again
                pack-side | true  | false | false | CUT_LOOP_OPEN     | false | somebody asked for everything to be dead
                pack-side | true  | false | false | CRASH_SEEN        | false | after a crash
                pack-side | true  | false | false | PACK_UNDERVOLTAGE | false | a drained pack is left alone
                pack-side | true  | false | false | CELL_UNDERVOLTAGE | false | a drained cell is left alone
                """)
        void converter(String side, boolean key, boolean plug, boolean bus, Fact fact, boolean on, String because) {
            fit(TestVehicle.full()
                    .with(Parameter.DCDC_SIDE, Parameter.DCDC_SIDE.choices().indexOf(side)));
            f.set(Fact.KEY_ON, key);
            f.set(Fact.PLUG_SEEN, plug);
            f.set(fact, true);
            logic.permissions().busConnected = bus;
            assertEquals(on, run(1).on(Output.DCDC_ENABLE), because);
        }

        /** Beside the pack it would go on drawing from a pack that may be the fault itself. */
        @ParameterizedTest(name = "{0}")
        @EnumSource(State.class)
        void packSide_keyOn_runsInEveryStateButFault(State state) {
            fit(TestVehicle.full()
                    .with(Parameter.DCDC_SIDE, Parameter.DCDC_SIDE.choices().indexOf("pack-side")));
            f.set(Fact.KEY_ON, true);
            assertEquals(state != State.FAULT, in(state).run(1).on(Output.DCDC_ENABLE));
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                SIDE      | NEEDED | PLUG  | ON    | BECAUSE
                pack-side | true   | true  | true  | the 12 V battery needs it
                pack-side | false  | true  | false | it does not
                pack-side | true   | false | false | unplugged and asleep
                bus-side  | true   | true  | false | the bus is dead
                """)
        void converter_batteryOnTheCable(String side, boolean needed, boolean plug, boolean on, String because) {
            fit(TestVehicle.full()
                    .with(Parameter.DCDC_SIDE, Parameter.DCDC_SIDE.choices().indexOf(side)));
            f.set(Fact.PLUG_SEEN, plug);
            c.lvSupport = needed;
            assertEquals(on, run(1).on(Output.DCDC_ENABLE), because);
        }

        @Test
        void drainedPackBeingCharged_feedsTheLowVoltageSideAgain() {
            fit(TestVehicle.full().with(Parameter.DCDC_SIDE, 0));
            f.set(Fact.CELL_UNDERVOLTAGE, true);
            assertTrue(charging().run(1).on(Output.DCDC_ENABLE));
        }
    }

    @Nested
    class Brake {
        /**
         * UN R13-H, from memory: the lamp may light from 0.7 m/s2 on and must above 1.3. 1200 kg, gear 8, wheel 0.3 m:
         * 45 Nm are 1 m/s2.
         */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                KPH | TORQUE_NM | ACCELERATION | LAMP  | BECAUSE
                50  | -40       | -1.3         | false | the limit itself
                50  | -40       | -1.31        | true  | above it
                50  | 40        | -2           | false | no regeneration: a hill, or the air
                50  | 0         | -2           | false | no regeneration
                -8  | 40        | 1.31         | true  | backwards
                -8  | -40       | -2           | false | backwards, driving
                50  | -60       | -0.71        | true  | asked for 1.33 m/s2 and already slowing: early is allowed
                50  | -60       | -0.7         | false | holding back on a slope: must not light
                0   | -60       | -2           | false | standing
                0.5 | -60       | -2           | false | as good as standing
                0.6 | -60       | -2           | true  | rolling
                -0.5| 60        | 2            | false | as good as standing
                -0.6| 60        | 2            | true  | rolling back
                NaN | -60       | -2           | false | unknown speed: torque is about to go
                50  | -40       | NaN          | false | unknown deceleration
                """)
        void regeneration_lightsTheLamp(
                double kph, double torqueNm, double accelerationMps2, boolean lamp, String because) {
            driving();
            c.speedKph = kph;
            c.accelerationMps2 = accelerationMps2;
            out.set(Output.TORQUE_REQUEST_NM, torqueNm);
            assertEquals(lamp, run(1).on(Output.BRAKE_LAMP), because);
        }

        @Test
        void lamp_staysUntilTheLowerLimit() {
            driving();
            c.speedKph = 50;
            out.set(Output.TORQUE_REQUEST_NM, -40);
            c.accelerationMps2 = -1.5;
            run(1);
            c.accelerationMps2 = -0.7;
            assertTrue(run(1).on(Output.BRAKE_LAMP));
            c.accelerationMps2 = -0.69;
            assertFalse(run(1).on(Output.BRAKE_LAMP));
            c.accelerationMps2 = -0.8;
            assertFalse(run(1).on(Output.BRAKE_LAMP));
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                STATE        | SWITCH | LAMP  | BECAUSE
                DRIVE_ENABLE | 1      | true  | pressed
                OFF          | 1      | true  | pressed, also with the key off
                DRIVE_ENABLE | 0      | false | released
                DRIVE_ENABLE | NaN    | true  | unknown in traffic: warn
                OFF          | NaN    | false | unknown at rest: the battery is worth more
                """)
        void pedal_lightsTheLamp(State state, double value, boolean lamp, String because) {
            in.set(Signal.BRAKE_PRESSED, value);
            f.set(Fact.BRAKE_PRESSED, value == 1);
            assertEquals(lamp, in(state).run(1).on(Output.BRAKE_LAMP), because);
        }
    }

    @Nested
    class Signs {
        @ParameterizedTest
        @EnumSource(State.class)
        void readyLamp_isLitOnlyInDriveEnable(State state) {
            assertEquals(state == State.DRIVE_ENABLE, in(state).run(1).on(Output.READY_LAMP));
        }

        /** FSAE 2026 EV.9.7.2 and FS 2024 EV 4.12.1: 1 to 3 s. */
        @Test
        void readySound_lastsBetweenOneAndThreeSeconds() {
            in(State.PRECHARGE).run(10);
            driving();
            int ticks = onFor(Output.BUZZER, 10 * S);
            assertTrue(ticks >= S && ticks <= 3 * S, "ticks: " + ticks);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                STATE          | LATCHED   | TORQUE         | RELEASED | FACT               | OF_200 | BECAUSE
                DRIVE_ENABLE   | NONE      | NONE           | true     | BUS_FLAT           | 0      | all is well
                FAULT          | KEY_CYCLE | NONE           | true     | BUS_FLAT           | 200    | latched: steady
                RUNDOWN        | SERVICE   | NONE           | true     | BUS_FLAT           | 200    | latched on the way down
                DRIVE_ENABLE   | NONE      | KEY_CYCLE      | true     | BUS_FLAT           | 100    | a pedal fault: flashing
                DRIVE_ENABLE   | NONE      | PEDAL_RELEASE  | false    | BUS_FLAT           | 100    | the pedal does nothing: let go of it
                DRIVE_ENABLE   | NONE      | PEDAL_RELEASE  | true     | BUS_FLAT           | 0      | in neutral
                DRIVE_ENABLE   | NONE      | NONE           | true     | MOTOR_WARM         | 100    | something limits
                DRIVE_ENABLE   | NONE      | NONE           | true     | ROLLING_AWAY       | 100    | something warns
                DRIVE_ENABLE   | NONE      | NONE           | true     | GAUGE_UNSURE       | 0      | after every wake-up: no fault
                IGNITION       | NONE      | NONE           | true     | ISOLATION_LOW      | 100    | what keeps the car from starting
                IGNITION       | NONE      | NONE           | true     | CUT_LOOP_OPEN      | 100    | what keeps the car from starting
                CHARGE_LOCKOUT | NONE      | NONE           | true     | HEATER_WITHOUT_AIR | 100    | a warning while charging
                CHARGE_LOCKOUT | NONE      | NONE           | true     | PILOT_INVALID      | 0      | the charge lamp tells
                OFF            | NONE      | NONE           | true     | LV_LOW             | 0      | a sleeping car does not flash
                """)
        void faultLamp(
                State state, Reset latched, Reset torque, boolean released, Fact fact, int of200, String because) {
            logic.state().latched = latched;
            logic.state().torqueLatched = torque;
            f.set(Fact.PEDAL_RELEASED, released);
            f.set(fact, true);
            assertEquals(of200, in(state).onFor(Output.FAULT_LAMP, 2 * S), because);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                STATE          | PHASE    | CHARGING | OF_400 | BECAUSE
                CHARGE_LOCKOUT | CHARGING | true     | 400    | steady
                CHARGE_LOCKOUT | CHARGING | false    | 200    | the contactors are still closing
                CHARGE_LOCKOUT | WAITING  | false    | 200    | slow
                CHARGE_LOCKOUT | ENDING   | false    | 200    | slow
                CHARGE_LOCKOUT | REFUSED  | false    | 200    | fast
                CHARGE_LOCKOUT | FINISHED | false    | 0      | dark
                OFF            | WAITING  | false    | 0      | not plugged
                """)
        void chargeLamp(State state, ChargePhase phase, boolean charging, int of400, String because) {
            logic.state().charge = phase;
            logic.permissions().charging = charging;
            assertEquals(of400, in(state).onFor(Output.CHARGE_LAMP, 4 * S), because);
        }

        @Test
        void refusedCharge_beepsOnceAPlug() {
            logic.state().charge = ChargePhase.REFUSED;
            in(State.CHARGE_LOCKOUT);
            assertEquals(75, onFor(Output.BUZZER, 10 * S), 1, "three beeps of 250 ms");
            logic.state().charge = ChargePhase.WAITING;
            run(1);
            logic.state().charge = ChargePhase.REFUSED;
            assertEquals(0, onFor(Output.BUZZER, 10 * S), "people sleep");
            off().run(1);
            in(State.CHARGE_LOCKOUT);
            assertEquals(75, onFor(Output.BUZZER, 10 * S), 1);
        }

        @Test
        void rollingAway_soundsAsLongAsItRolls() {
            driving().run(10 * S);
            f.set(Fact.ROLLING_AWAY, true);
            assertEquals(500, onFor(Output.BUZZER, 10 * S));
            f.set(Fact.ROLLING_AWAY, false);
            assertEquals(0, onFor(Output.BUZZER, S));
        }

        @Test
        void heartbeat_togglesEveryTick() {
            for (int i = 0; i < 10; i++) {
                double before = out.get(Output.HEARTBEAT);
                run(1);
                assertNotEquals(before, out.get(Output.HEARTBEAT));
            }
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource({"0.6, 0.6", "NaN, 0", "1.2, 1", "-0.1, 0"})
        void gauge_showsTheStateOfCharge(double fraction, double shown) {
            c.stateOfCharge = fraction;
            run(1);
            assertEquals(shown, out.get(Output.GAUGE_FRACTION));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void anyInput_neverHeatsWithoutAirBusAndCoolOutlet(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 100_000; i++) {
            if (random.nextInt(30) == 0) {
                shuffle(random);
            }
            run(1);
            double duty = out.get(Output.RADIATOR_FAN_DUTY);
            assertTrue(duty >= 0 && duty <= 1);
            if (on(Output.HEATER_ELEMENT)) {
                assertTrue(logic.permissions().busConnected && in.isOn(Signal.HEATER_AIRFLOW));
                assertTrue(on(Output.HEATER_BLOWER) && c.heaterTempC < 75 && !f.is(Fact.LV_LOW));
            }
            if (f.is(Fact.BRAKE_PRESSED)) {
                assertTrue(on(Output.BRAKE_LAMP));
            }
        }
    }

    private void shuffle(Random random) {
        logic.state().state = State.values()[random.nextInt(State.values().length)];
        logic.state().charge = ChargePhase.values()[random.nextInt(ChargePhase.values().length)];
        logic.permissions().busConnected = random.nextInt(4) != 0;
        logic.permissions().charging = logic.state().state == State.CHARGE_LOCKOUT;
        for (Fact fact : Fact.values()) {
            f.set(fact, random.nextInt(12) == 0 && fact.labels.size() == 2);
        }
        in.set(Signal.HEATER_REQUEST, random.nextInt(4) == 0 ? Wild.aSwitch(random) : 1);
        in.set(Signal.HEATER_AIRFLOW, Wild.aSwitch(random));
        c.heaterTempC = Wild.of(random, 20, 90);
        c.coolantTempC = Wild.of(random, 20, 90);
        c.inverterTempC = Wild.of(random, 20, 90);
        c.speedKph = Wild.of(random, -50, 100);
        c.accelerationMps2 = Wild.of(random, -5, 5);
        out.set(Output.TORQUE_REQUEST_NM, Wild.of(random, -100, 200));
    }
}
