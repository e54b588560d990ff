package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.Rig;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * H03: a speed that cannot be true is not believed, and one that can be is. 1200 kg, ratio 8, wheel 0.3 m: 100 Nm are 2.22 m/s²,
 * or 0.08 km/h a tick. Tyres slow this car by 0.54 km/h a tick.
 */
class SpeedInputTest {
    private static final double KPH_PER_RPM = 2 * Math.PI * 0.3 / 8 / 60 * 3.6;
    private static final double KPH_PER_NM = 8 / 0.3 / 1200 * 3.6 * 0.01;

    private Settings settings = TestVehicle.full().without(Signal.WHEEL_SPEED_KPH);
    private final Readings in = new Rig().in;
    private final Commands last = new Commands();
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final SwitchInput switches = new SwitchInput(settings);
    private DriveInput driver = new DriveInput(settings);
    private final Debounce debounce = new Debounce(settings);
    private double kph;

    @BeforeEach
    void connected() {
        last.set(Output.NEGATIVE_CONTACTOR, true);
        last.set(Output.POSITIVE_CONTACTOR, true);
        in.set(Signal.KEY_ON, 1);
        look(0, 10);
    }

    private void look(double shownKph, int ticks) {
        kph = shownKph;
        in.set(Signal.MOTOR_SPEED_RPM, shownKph / KPH_PER_RPM);
        for (int i = 0; i < ticks; i++) {
            debounce.begin(in);
            switches.update(in, facts, debounce);
            driver.update(in, last, facts, debounce, c);
        }
    }

    /** Brings the shown speed to another one, so many m/s² at a time. */
    private void glide(double toKph, double mps2) {
        double step = mps2 * 3.6 * 0.01;
        while (Math.abs(toKph - kph) > step) {
            look(kph + Math.copySign(step, toKph - kph), 1);
        }
        look(toKph, 1);
    }

    private void torque(double nm) {
        last.set(Output.TORQUE_REQUEST_NM, nm);
    }

    private void brake(boolean pressed) {
        in.set(Signal.BRAKE_PRESSED, pressed ? 1 : 0);
    }

    private boolean doubted() {
        boolean doubted = facts.is(Fact.SPEED_DOUBTED);
        assertEquals(doubted, c.speedKph != c.speedKph, "a doubted speed is unknown, another one is known");
        assertFalse(doubted && facts.is(Fact.STANDSTILL), "a doubted speed is no standstill");
        return doubted;
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        FROM_KPH | TO_KPH | DOUBTED | BECAUSE
        40       | 0      | true    | a broken wire
        3.53     | 0      | false   | what remains: below the margin a lost speed is not seen
        3.55     | 0      | true    | just above it
        40       | 36.47  | false   | tyres and margin
        40       | 36.45  | true    | more than tyres
        -40      | -36.45 | true    | the same backwards
        20       | 26.99  | false   | wheels that spin
        20       | 27.01  | true    | more than wheels
        20       | -20    | true    | no car turns round in a tick
        1        | -1     | false   | around standstill
        """)
    void rolling_speedChangesInATick_doubtedBeyondWhatWheelsCan(
            double fromKph, double toKph, boolean doubted, String because) {
        glide(fromKph, 3);
        look(fromKph, 30);
        assertFalse(doubted());
        look(toKph, 1);
        assertEquals(doubted, doubted(), because);
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        MOTOR_KPH | WHEEL_KPH | BRAKE | STANDS | ROAD_KPH | BECAUSE
        0         | 0         | 0     | true   | 0        | both stand
        0         | 0.9       | 0     | true   | 0.9      | below drive.standstill_kph
        0         | 1         | 1     | false  | 1        | drive.standstill_kph itself is movement
        0         | 1.1       | 1     | false  | 1.1      | it rolls in neutral
        0         | 60        | 1     | false  | 60       | it rolls fast in neutral
        20        | 0         | 1     | false  | 20       | the motor turns in neutral: nobody knows the gear
        0         | NaN       | 1     | false  | NaN      | an unknown second speed is no standstill
        """)
    void clutch_secondSpeed_saysWhetherTheCarStands(
            double motorKph, double wheelKph, double brake, boolean stands, double roadKph, String because) {
        clutch(TestVehicle.full());
        in.set(Signal.WHEEL_SPEED_KPH, wheelKph);
        brake(brake == 1);
        look(motorKph, 30);
        assertEquals(stands, facts.is(Fact.STANDSTILL), because);
        assertEquals(roadKph, c.roadKph, 1e-9, because);
        assertFalse(doubted(), because);
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        MOTOR_KPH | WHEEL_KPH | SHOWN_KPH | BECAUSE
        0         | 0         | 0         | both stand
        20        | 19        | 20        | the faster one
        -20       | 3         | 20        | doubted, and it shows movement all the same
        0         | 28        | 28        | doubted, and the second speed shows movement
        NaN       | 28        | 28        | the motor's speed is lost, the second one is not
        28        | NaN       | 28        | the second one is lost
        NaN       | NaN       | 0         | nothing shows anything
        99999     | 9999      | 0         | no car is as fast: both are lost
        0         | -1        | 0         | no sound sensor shows this
        """)
    void anyReading_believedOrNot_showsMovement(double motorKph, double wheelKph, double shownKph, String because) {
        driver = new DriveInput(TestVehicle.full());
        in.set(Signal.WHEEL_SPEED_KPH, wheelKph);
        look(motorKph, 60);
        assertEquals(shownKph, c.shownKph, 1e-9, because);
    }

    @ParameterizedTest
    @CsvSource({"0, 0, false", "0, 1, true", "3, 1, false"})
    void clutch_noSecondSpeed_standsOnlyUnderTheBrake(double motorKph, double brake, boolean stands) {
        clutch(TestVehicle.full().without(Signal.WHEEL_SPEED_KPH));
        brake(brake == 1);
        look(motorKph, 30);
        assertEquals(stands, facts.is(Fact.STANDSTILL));
    }

    @Test
    void clutch_motorJumpsAndFalls_believed_butUnknownIsLost() {
        clutch(TestVehicle.full().without(Signal.WHEEL_SPEED_KPH));
        look(40, 30);
        look(90, 1);
        assertFalse(doubted(), "the clutch is pressed");
        look(20, 1);
        assertFalse(doubted(), "a higher gear is let in");
        in.set(Signal.MOTOR_SPEED_RPM, Double.NaN);
        look(Double.NaN, 10);
        assertTrue(facts.is(Fact.SPEED_LOST));
        assertTrue(c.roadKph != c.roadKph);
    }

    private void clutch(Settings other) {
        settings = other.with(
                Parameter.DRIVE_GEARBOX, Parameter.DRIVE_GEARBOX.choices().indexOf("clutch"));
        driver = new DriveInput(settings);
    }

    @ParameterizedTest(name = "{0} m/s²")
    @ValueSource(doubles = {3, 9, 14.9})
    void braking_asHardAsTyresCan_believed(double mps2) {
        brake(true);
        glide(100, 10);
        while (kph > 0) {
            look(Math.max(0, kph - mps2 * 0.036), 1);
            assertFalse(doubted(), kph + " km/h");
        }
        assertTrue(facts.is(Fact.STANDSTILL));
    }

    /** A sensor that reports twenty times a second moves in steps. */
    @Test
    void braking_sensorReportsEach50Ms_believed() {
        glide(80, 10);
        look(80, 30);
        while (kph > 0) {
            look(Math.max(0, kph - 9 * 0.05 * 3.6), 5);
            assertFalse(doubted(), kph + " km/h");
        }
    }

    @Test
    void wireBroken_noTimeAlone_endsTheDoubt() {
        glide(40, 3);
        look(0, 100_000);
        assertTrue(doubted(), "a car on a slope rolls on");
    }

    /** 40 km/h are 11.1 s at 1 m/s², and a second more. */
    @Test
    void wireBroken_brakeHeldUntilTheCarMustStand_believedAgain() {
        glide(40, 3);
        look(0, 1);
        brake(true);
        look(0, 1000);
        brake(false);
        look(0, 1);
        brake(true);
        look(0, 1211);
        assertTrue(doubted(), "held without a break");
        look(0, 1);
        assertFalse(doubted());
        assertTrue(facts.is(Fact.STANDSTILL));
    }

    @Test
    void wireBroken_keyOffKeepsTheDoubtAndKeyOnEndsIt() {
        glide(40, 3);
        look(0, 1);
        in.set(Signal.KEY_ON, 0);
        look(0, 100);
        assertTrue(doubted(), "the car may still roll, and a spinning motor lift the bus");
        in.set(Signal.KEY_ON, Double.NaN);
        look(0, 1);
        assertTrue(doubted());
        in.set(Signal.KEY_ON, 0);
        look(0, 1);
        in.set(Signal.KEY_ON, 1);
        look(0, 1);
        assertFalse(doubted());
    }

    /** Brakes lock the wheels on ice: they stand after a tenth of a second, truly, and turn again when the brake is let go. */
    @Test
    void wheelsLockedOnIce_thenRollAgain_believedAfter300Ms() {
        glide(50, 3);
        brake(true);
        glide(0, 140);
        assertTrue(doubted());
        look(0, 50);
        brake(false);
        glide(45, 140);
        for (int i = 0; i < 20; i++) {
            look(kph - 0.02, 1);
            assertTrue(doubted(), "tick " + i);
        }
        look(kph - 0.02, 12);
        assertFalse(doubted());
    }

    /** Spinning wheels rise faster than a car and fall faster than one: for a moment nobody knows, then all is well. */
    @Test
    void wheelsSpinAndGrip_believedAgainWithoutAnyReset() {
        glide(8, 3);
        torque(150);
        glide(60, 60);
        assertFalse(doubted(), "wheels can do that");
        glide(9, 60);
        assertTrue(doubted());
        torque(0);
        for (int i = 0; i < 35; i++) {
            look(kph + 0.02, 1);
        }
        assertFalse(doubted());
    }

    @Test
    void intermittentWire_turnsForLessThan300Ms_staysDoubted() {
        glide(40, 3);
        for (int i = 0; i < 100; i++) {
            look(0, 10);
            assertTrue(doubted());
            look(40, 10);
            assertTrue(doubted());
        }
    }

    /** A sensor that shows too much from one tick to the next turns for ever. Only standstill proves it, or the key. */
    @Test
    void jumped_turnsOn_staysDoubtedUntilItStandsWithTheBrake() {
        glide(20, 3);
        look(28, 1);
        for (int i = 0; i < 1000; i++) {
            look(kph + (i % 100 < 50 ? 0.02 : -0.02), 1);
            assertTrue(doubted());
        }
        brake(true);
        look(8, 10_000);
        assertTrue(doubted(), "it does not show a standstill");
        look(0, 1000);
        assertFalse(doubted());
    }

    /** 100 Nm owe 0.08 km/h a tick, less 0.0054 for rolling: 8 km/h after 108 ticks. */
    @Test
    void launch_torqueWithoutAnySpeed_doubtedWhenTheCarWouldBeFast() {
        torque(100);
        int ticks = (int) Math.ceil(8 / (100 * KPH_PER_NM - 0.15 * 0.036));
        look(0, ticks - 1);
        assertFalse(doubted());
        look(0, 2);
        assertTrue(doubted());
        torque(0);
        brake(true);
        look(0, 330);
        assertFalse(doubted(), "a kerb: with the brake held for three seconds all is well");
    }

    /** Reading zero, a car that was driven for a second may roll: no other direction yet. */
    @Test
    void launch_aMomentOfTorqueWithoutSpeed_isNoStandstillUntilBraked() {
        torque(100);
        look(0, 50);
        torque(0);
        look(0, 1);
        assertFalse(facts.is(Fact.STANDSTILL), "it may have 3.7 km/h");
        assertFalse(doubted());
        brake(true);
        look(0, 40);
        assertTrue(facts.is(Fact.STANDSTILL));
    }

    /** A hill of 20 % takes 88 Nm to hold. The driver changes over from the brake within a second and drives off. */
    @Test
    void hillStart_torqueBuildsUpBeforeTheCarMoves_believed() {
        brake(true);
        for (int i = 0; i < 50; i++) {
            torque(i);
            look(0, 1);
        }
        brake(false);
        for (int i = 50; i < 110; i++) {
            torque(i);
            look(0, 1);
            assertFalse(doubted(), i + " Nm");
        }
        glide(20, 0.5);
        assertFalse(doubted());
        assertTrue(c.speedKph > 19);
    }

    /** With a trailer of its own weight the car gains half as much. */
    @ParameterizedTest(name = "{0} of the acceleration")
    @ValueSource(doubles = {0.5, 0.8, 1})
    void heavyTrailer_launchDriveAndLift_believed(double share) {
        double nm = 0;
        double rollNm = 20;
        for (int i = 0; i < 3000; i++) {
            double wantedNm = i % 1000 < 500 ? 150 : i % 1000 < 800 ? 0 : -40;
            nm += Math.max(-10, Math.min(4, wantedNm - nm));
            torque(nm);
            look(Math.max(0, kph + (nm - rollNm) * KPH_PER_NM * share), 1);
            if (kph <= 0.5 && nm < 0) {
                torque(0);
            }
            assertFalse(doubted(), "tick " + i + ", " + kph + " km/h, " + nm + " Nm");
        }
    }

    /** The sensor hangs at 20 km/h; the driver lifts, and 90 Nm less would slow the car by 2 km/h in 0.28 s. */
    @Test
    void stuckWhileRolling_torqueChanges_doubtedBeforeTheCarStands() {
        torque(10 + 45);
        glide(20, 1);
        torque(10);
        look(20, 300);
        assertFalse(doubted());
        torque(-80);
        look(20, 25);
        assertFalse(doubted());
        look(20, 8);
        assertTrue(doubted());
        torque(0);
        look(20, 1000);
        assertTrue(doubted(), "it does not move");
        glide(19, 1);
        look(19, 31);
        assertFalse(doubted(), "it moves after all");
    }

    @Test
    void steadySpeed_torqueUnchanged_believedForEver() {
        torque(30 + 45);
        glide(80, 1);
        torque(30);
        look(80, 100_000);
        assertFalse(doubted());
    }

    /** 100 Nm and a reading of 0: 41.2 A are losses, more is speed. It is told before torque-unasked, which would open. */
    @Test
    void powerWithoutSpeed_torqueAsked_speedIsDoubtedBeforeTheInverterIs() {
        torque(100);
        in.set(Signal.PACK_CURRENT_A, 60);
        for (int i = 0; i < 9; i++) {
            look(i % 2 == 0 ? 0.4 : 0, 1);
            assertFalse(doubted());
        }
        look(0, 2);
        assertTrue(doubted());
        assertFalse(facts.is(Fact.TORQUE_UNASKED));
        torque(0);
        in.set(Signal.PACK_CURRENT_A, 5);
        look(0, 200);
        assertFalse(facts.is(Fact.TORQUE_UNASKED), "the inverter obeys: nothing opens in traffic");
    }

    @Test
    void powerWithoutSpeed_flowsOnWithoutTorque_theInverterIsCutOff() {
        torque(100);
        in.set(Signal.PACK_CURRENT_A, 60);
        look(0, 10);
        torque(0);
        look(0, 5);
        assertFalse(facts.is(Fact.TORQUE_UNASKED));
        look(0, 1);
        assertTrue(facts.is(Fact.TORQUE_UNASKED));
    }

    @Test
    void unknownForSomeTicks_thenFurtherOn_believed() {
        glide(50, 3);
        look(Double.NaN, 4);
        look(50 - 4 * 0.5, 1);
        assertFalse(doubted());
        look(Double.NaN, 1);
        look(0, 1);
        assertTrue(doubted());
    }

    /** Four ticks without a reading: tyres take 5 * 0.54 km/h and spinning wheels gain 5 * 4 km/h; the margin of 3 km/h comes on top. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        FROM_KPH | TO_KPH | DOUBTED | BECAUSE
        50       | 44.4   | false   | tyres for five ticks, and the margin
        50       | 44.2   | true    | more than tyres
        20       | 42.9   | false   | wheels that spin for five ticks, and the margin
        20       | 43.1   | true    | more than wheels
        """)
    void gap_readingComesBack_isHeldAgainstTheWholeTime(double fromKph, double toKph, boolean doubted, String because) {
        glide(fromKph, 3);
        look(fromKph, 30);
        look(Double.NaN, 4);
        look(toKph, 1);
        assertEquals(doubted, doubted(), because);
    }

    @Test
    void gap_carSlowedInIt_nextReadingIsHeldAgainstTheNewSpeed() {
        glide(50, 3);
        look(50, 30);
        look(Double.NaN, 4);
        look(48, 1);
        look(45, 1);
        assertFalse(doubted(), "3 km/h in a tick are within the margin; from 50 km/h they would not be");
    }

    /** One lost reading at walking pace: the car may still have 3.4 - 0.54 km/h, and wheels gain 4 km/h and the margin from there. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        NEXT_KPH | DOUBTED | BECAUSE
        9.8      | false   | as from 2.86 km/h
        9.9      | true    | more than wheels can
        """)
    void oneReadingOfZero_atWalkingPace_nextIsHeldAgainstWhatTheCarStillHas(
            double nextKph, boolean doubted, String because) {
        glide(3.4, 3);
        look(3.4, 30);
        look(0, 1);
        look(nextKph, 1);
        assertEquals(doubted, doubted(), because);
    }

    /** A limit that a reading can meet to the last bit: the speed of 70 rpm. */
    private void standstillAt70Rpm() {
        driver = new DriveInput(settings.with(Parameter.DRIVE_STANDSTILL_KPH, 70 * KPH_PER_RPM));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SHARE | STANDS | AWAY  | BECAUSE
        0.99  | true   | false | below drive.standstill_kph
        1     | false  | false | the limit itself is movement, and no rolling away
        1.01  | false  | true  | above it, and against the lever
        """)
    void backwards_aroundTheStandstillLimit_movesAtIt(double share, boolean stands, boolean away, String because) {
        standstillAt70Rpm();
        in.set(Signal.FORWARD_SWITCH, 1);
        look(-70 * KPH_PER_RPM * share, 200);
        assertEquals(stands, facts.is(Fact.STANDSTILL), because);
        assertEquals(away, facts.is(Fact.ROLLING_AWAY), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SHARE | TICKS | DOUBTED | BECAUSE
        1     | 30    | true    | it must be seen to turn for 300 ms
        1     | 31    | false   | it was: the first tick shows that the reading moves
        0.99  | 5000  | true    | a standstill proves nothing without the brake
        """)
    void doubted_readingAroundTheStandstillLimit_turnsFromTheLimitOn(
            double share, int ticks, boolean doubted, String because) {
        standstillAt70Rpm();
        glide(40, 3);
        look(70 * KPH_PER_RPM * share, 1);
        assertTrue(doubted());
        look(kph, ticks);
        assertEquals(doubted, doubted(), because);
    }

    @Test
    void creeping_atTheStandstillLimit_isHeldAgainstAChangeOfTorque() {
        standstillAt70Rpm();
        torque(30);
        glide(3, 0.5);
        glide(70 * KPH_PER_RPM + 0.31, 0.05);
        look(70 * KPH_PER_RPM, 2000);
        assertFalse(doubted(), "the torque that keeps a speed owes none");
        torque(90);
        look(kph, 80);
        assertTrue(doubted(), "60 Nm more owe 2 km/h after 0.5 s; from standstill 8 km/h would be waited for");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SHOWN_KPH | DOUBTED | BECAUSE
        0.3       | true    | that much noise is no movement
        0.31      | false   | that is movement
        """)
    void launch_readingTrembles_isHeldUpToItsNoise(double shownKph, boolean doubted, String because) {
        torque(100);
        for (int i = 0; i < 200; i++) {
            look(i % 2 == 0 ? shownKph : 0, 1);
        }
        assertEquals(doubted, doubted(), because);
    }

    /** 3.72 km/h owed; ice and rolling take 0.0414 km/h a tick. 3 km/h are left after 17.5 ticks. */
    @Test
    void launch_braked_standsWhenIceWouldHaveStoppedTheCar() {
        torque(100);
        look(0, 50);
        torque(0);
        look(0, 1);
        brake(true);
        look(0, 16);
        assertFalse(facts.is(Fact.STANDSTILL));
        look(0, 3);
        assertTrue(facts.is(Fact.STANDSTILL));
    }

    /** A change of torque is learned in 3.2 s: 1 Nm that stays owes 0.256 km/h in all. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        MORE_NM | DOUBTED | BECAUSE
        7       | false   | 1.8 km/h owed: a hill explains it
        9       | true    | 2.3 km/h owed
        """)
    void steadySpeed_torqueChangesForGood_doubtedWhenItOwesMoreThan2Kph(
            double moreNm, boolean doubted, String because) {
        torque(30 + 45);
        glide(80, 1);
        torque(30);
        look(80, 3000);
        torque(30 + moreNm);
        look(80, 3000);
        assertEquals(doubted, doubted(), because);
    }

    /** 125 km/h are 34.72 s at 1 m/s², and a second more. */
    @Test
    void wireBrokenAtSpeed_brakeMustBeHeldForAllOfIt() {
        glide(125, 10);
        look(0, 1);
        brake(true);
        look(0, 3572);
        assertTrue(doubted());
        look(0, 1);
        assertFalse(doubted());
    }

    /** 60 A at 350 V over 100 Nm are 210 rad/s or 28.35 km/h: 7.875 s at 1 m/s², and a second more. */
    @Test
    void powerWithoutSpeed_brakeMustBeHeldForTheSpeedThatExplainsIt() {
        torque(100);
        in.set(Signal.PACK_CURRENT_A, 60);
        look(0, 9);
        assertFalse(doubted());
        look(0, 1);
        assertTrue(doubted(), "in the tick in which it is decided");
        torque(0);
        in.set(Signal.PACK_CURRENT_A, 5);
        brake(true);
        look(0, 887);
        assertTrue(doubted());
        look(0, 1);
        assertFalse(doubted());
    }

    /** 130 km/h are 9195 rpm; a quarter more is 11 494 rpm. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        RPM   | LOST  | BECAUSE
        11490 | false | a motor that drives the car to its greatest speed may turn a quarter faster downhill
        11500 | true  | no car is as fast
        """)
    void motorBelowTheSpeedOfTheCar_readingIsLostBeyondTheFasterOfBoth(double rpm, boolean lost, String because) {
        driver = new DriveInput(settings.with(Parameter.MOTOR_MAX_RPM, 6000));
        look(rpm * KPH_PER_RPM, 200);
        assertEquals(lost, facts.is(Fact.SPEED_LOST), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        RPM   | FAST  | BECAUSE
        12000 | false | the limit itself is allowed
        12001 | true  | above motor.max_rpm
        """)
    void motorAtItsLimit_inAFastCar_isOverspeedBeyondIt(double rpm, boolean fast, String because) {
        driver = new DriveInput(settings.with(Parameter.DRIVE_MAX_KPH, 200));
        glide(rpm * KPH_PER_RPM, 10);
        in.set(Signal.MOTOR_SPEED_RPM, rpm);
        for (int i = 0; i < 200; i++) {
            driver.update(in, last, facts, debounce, c);
        }
        assertEquals(fast, facts.is(Fact.OVERSPEED), because);
    }
}
