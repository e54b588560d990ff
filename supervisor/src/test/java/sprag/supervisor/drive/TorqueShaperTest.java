package sprag.supervisor.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.Wild;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.TorquePermission;

/** Limits and slew: 200 Nm and 80 kW to drive, 100 Nm to brake, 4 Nm a tick away from zero, 10 Nm a tick towards it. */
class TorqueShaperTest {
    private final Settings settings = TestVehicle.full();
    private final TorqueShaper shaper = new TorqueShaper(settings);
    private final TorqueLimits limits = new TorqueLimits(settings, EnumSet.noneOf(Interlock.class));
    private final Permissions may = new Permissions();
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final Commands out = new Commands();

    @BeforeEach
    void driving() {
        may.torque = TorquePermission.FOLLOW_PEDAL;
        may.engaged = Direction.FORWARD;
        may.inverterEnabled = true;
        c.packVoltageV = 350;
        c.motorTempC = c.inverterTempC = c.coolantTempC = c.packHotC = c.packColdC = 25;
        c.cellMaxV = c.cellMinV = 3.65;
        c.regenShare = 1;
        c.regenLevel = 3;
        c.travel = 0;
        speed(0);
    }

    private void speed(double kph) {
        c.speedKph = kph;
        c.motorSpeedRpm = kph / 3.6 / (2 * Math.PI * 0.3) * 8 * 60;
    }

    private double shape(int ticks) {
        for (int i = 0; i < ticks; i++) {
            shaper.shape(may, facts, c, out);
        }
        return out.get(Output.TORQUE_REQUEST_NM);
    }

    private double limit(boolean drive) {
        limits.update(may, facts, c);
        return drive ? limits.driveNm : limits.regenNm;
    }

    @Test
    void pedalDown_risesGentlyAndFallsQuickly() {
        c.travel = 1;
        assertEquals(4, shape(1), 1e-9);
        assertEquals(200, shape(49), 1e-9);
        assertEquals(200, shape(100), 1e-9);
        c.travel = 0;
        assertEquals(190, shape(1), 1e-9);
        assertEquals(0, shape(19), 1e-9);
        assertEquals(0, shape(1), 1e-9);
    }

    @Test
    void fromDriveToBraking_endsAtZeroThenGoesGently() {
        speed(40);
        c.travel = 0.3;
        double before = shape(100);
        assertTrue(before > 3 && before < 10, "torque " + before);
        c.travel = 0;
        assertEquals(0, shape(1), 1e-9);
        assertEquals(-4, shape(1), 1e-9);
        assertEquals(-100, shape(24), 1e-9);
        c.travel = 1;
        assertEquals(-90, shape(1), 1e-9);
    }

    /** A limit that drops takes torque back as quickly as a lifted pedal does, and no quicker: a jerk at speed is a hazard too. */
    @Test
    void limitDrops_torqueFallsAtItsRateAndStaysThere() {
        c.travel = 1;
        assertEquals(200, shape(60), 1e-9);
        may.limited = true;
        facts.set(Fact.OVERSPEED, true);
        assertEquals(190, shape(1), 1e-9);
        assertEquals(0, shape(19), 1e-9);
        assertEquals(0, shape(20), 1e-9);
    }

    @Test
    void chargeWithdrawnWhileBraking_regenerationEndsAtItsRate() {
        speed(40);
        assertEquals(-100, shape(100), 1e-9);
        may.limited = true;
        facts.set(Fact.CHARGE_WITHDRAWN, true);
        assertEquals(-90, shape(1), 1e-9);
        assertEquals(0, shape(9), 1e-9);
        assertEquals(0, shape(1), 1e-9);
    }

    @Test
    void reverse_isTheMirrorWithItsOwnShare() {
        may.engaged = Direction.REVERSE;
        c.travel = 1;
        assertEquals(-80, shape(100), 1e-9, "0.4 of 200 Nm, the other way");
        speed(-30);
        assertEquals(0, shape(100), 1e-9, "beyond the top speed of reverse");
        c.travel = 0;
        assertEquals(100, shape(100), 1e-9, "braking is forward then");
    }

    @Test
    void withoutPermission_zeroAtOnce() {
        c.travel = 1;
        shape(100);
        may.torque = TorquePermission.NONE;
        may.inverterEnabled = false;
        assertEquals(0, shape(1));
        assertFalse(out.isOn(Output.INVERTER_ENABLE));
        may.torque = TorquePermission.FOLLOW_PEDAL;
        assertEquals(4, shape(1), 1e-9, "and from there gently again");
    }

    @Test
    void rampToZero_neverGrows() {
        c.travel = 1;
        shape(100);
        may.torque = TorquePermission.RAMP_TO_ZERO;
        for (int i = 19; i >= 0; i--) {
            assertEquals(10 * i, shape(1), 1e-9);
        }
        assertEquals(0, shape(10));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            ENGAGED | TRAVEL | KPH | BECAUSE
            NEUTRAL | 1      | 0   | no direction
            FORWARD | 1      | NaN | unknown speed
            FORWARD | NaN    | 0   | unknown travel
            FORWARD | NaN    | 60  | unknown travel neither drives nor brakes
            """)
    void unknown_isNoTorque(Direction engaged, double travel, double kph, String because) {
        may.engaged = engaged;
        c.travel = travel;
        speed(kph);
        assertEquals(0, shape(100), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PACK_V | KPH   | DRIVE_NM | REGEN_NM | BECAUSE
            350    | 0     | 200      | 100      | the torque limits
            350    | 40    | 200      | 100      | still
            350    | 80    | 135      | 53.15625  | 80 kW, and 90 A into 350 V, over 592.59 rad/s
            100    | 80    | 50.625   | 15.1875  | 300 A and 90 A at 100 V
            350    | 126.75| 42.6036  | 33.5503  | half way through the fade from 123.5 to 130 km/h
            350    | 130   | 0        | 32.7115  | top speed: braking stays
            350    | -20   | 200      | 100      | rolling back
            NaN    | 0     | 0        | 0        | unknown pack
            -5     | 0     | 0        | 0        | nonsense
            """)
    void limits_areTorqueThenPowerThenCurrent(
            double packV, double kph, double driveNm, double regenNm, String because) {
        c.packVoltageV = packV;
        speed(kph);
        assertEquals(driveNm, limit(true), 1e-3, because);
        assertEquals(regenNm, limit(false), 1e-3, because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            FACT              | QUANTITY | VALUE | DRIVE | REGEN | BECAUSE
            MOTOR_WARM        | motor    | 110   | 1     | 1     | at warm: all
            MOTOR_WARM        | motor    | 125   | 0.5   | 0.5   | half way to hot
            MOTOR_WARM        | motor    | 140   | 0     | 0     | hot: nothing
            MOTOR_WARM        | motor    | 200   | 0     | 0     | beyond
            MOTOR_WARM        | motor    | NaN   | 0.4   | 0.4   | sensor lost while warm: enough to get home
            INVERTER_WARM     | inverter | 77.5  | 0.5   | 0.5   | half way
            INVERTER_WARM     | inverter | NaN   | 0.4   | 0.4   | lost while warm
            COOLANT_WARM      | coolant  | 67.5  | 0.5   | 0.5   | half way
            COOLANT_WARM      | coolant  | NaN   | 0.4   | 0.4   | lost while warm
            PACK_WARM         | hot      | 50    | 0.5   | 0.5   | half way
            PACK_WARM         | hot      | NaN   | 0.4   | 0.4   | lost while warm
            PACK_COOL         | cold     | 5     | 1     | 0.5   | cold cells take less, and give all
            PACK_COOL         | cold     | 0     | 1     | 0     | cold: no regeneration
            PACK_COOL         | cold     | NaN   | 1     | 0     | unknown
            PACK_FULL         | room     | 1     | 1     | 1     | room for all of it
            PACK_FULL         | room     | 0.5   | 1     | 0.5   | half
            PACK_FULL         | room     | 0     | 1     | 0     | full
            PACK_FULL         | room     | NaN   | 1     | 0     | unknown
            PACK_LOW          | low      | -1    | 1     | 1     | it holds the torque and sets no share, see below
            CHARGE_WITHDRAWN  | none     | 0     | 1     | 0     | nothing into the pack
            PACK_SENSOR_LOST  | none     | 0     | 0.4   | 0     | both warm and cold
            MONITOR_SILENT    | none     | 0     | 0.4   | 0     | unknown cells
            ISOLATION_LOW     | none     | 0     | 0.4   | 0.4   | a first fault
            ISOLATION_SILENT  | none     | 0     | 0.4   | 0.4   | a silent monitor
            CURRENTS_APART    | none     | 0     | 0.4   | 0.4   | the greater of the two guards the pack
            LV_LOW            | none     | 0     | 0.4   | 0.4   | sagging
            DRIVE_SENSOR_LOST | none     | 0     | 0.4   | 0.4   | unknown is warm
            COOLING_LOST      | none     | 0     | 0.4   | 0.4   | no flow
            OVERSPEED         | none     | 0     | 0     | 1     | braking stays
            """)
    void limitingFact_takesItsShare(Fact fact, String which, double value, double drive, double regen, String because) {
        switch (which) {
            case "motor" -> c.motorTempC = value;
            case "inverter" -> c.inverterTempC = value;
            case "coolant" -> c.coolantTempC = value;
            case "hot" -> c.packHotC = value;
            case "cold" -> c.packColdC = value;
            case "room" -> c.regenShare = value;
            case "low" -> c.driveRoom = value;
            default -> assertEquals("none", which);
        }
        facts.set(fact, true);
        assertEquals(200, limit(true), 1e-9, "Logic must have said so");
        may.limited = true;
        assertEquals(200 * drive, limit(true), 1e-9, because);
        assertEquals(100 * regen, limit(false), 1e-9, because);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({"1, 100", "0.5, 50", "0.001, 0.1", "0, 0", "NaN, 0"})
    void fullPackNotYetActing_regenerationFallsAllTheSame(double room, double regenNm) {
        c.regenShare = room;
        assertEquals(200, limit(true), 1e-9);
        assertEquals(regenNm, limit(false), 1e-9);
    }

    @Test
    void severalLimits_theLeastCounts() {
        may.limited = true;
        facts.set(Fact.MOTOR_WARM, true);
        facts.set(Fact.COOLANT_WARM, true);
        c.motorTempC = 125;
        c.coolantTempC = 64.5;
        assertEquals(200 * 0.5, limit(true), 1e-9, "0.5 and 0.7");
        assertEquals(100 * 0.5, limit(false), 1e-9);
        c.coolantTempC = 72;
        assertEquals(200 * 0.2, limit(true), 1e-9);
        assertEquals(100 * 0.2, limit(false), 1e-9);
    }

    /** 200 Nm within 0.7 s for a room of 1 are 2.857 Nm a tick; it never rises by more than 4 Nm nor falls by more than 10. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            ROOM     | PEDAL | BEFORE_NM | AFTER_NM | BECAUSE
            1.5      | 1     | 100       | 104      | room enough: the usual rise
            1.4      | 1     | 100       | 104      | the last room that takes nothing away
            1        | 1     | 100       | 102.857  | the torque grows more slowly
            0.5      | 1     | 100       | 101.429  | half of that
            0.001    | 1     | 100       | 100.003  | hardly any more
            0        | 1     | 100       | 100      | the voltage is where it shall stay
            -0.001   | 1     | 100       | 99.997   | a little below: it falls, and not by a step
            -1       | 1     | 100       | 97.143   | further below: quicker
            -3.5     | 1     | 100       | 90       | as quickly as it may fall
            -100     | 1     | 100       | 90       | no quicker
            -2       | 1     | 4         | 0        | it ends at zero
            -100     | 1     | 0         | 0        | and never becomes regeneration
            0.5      | 1     | 0         | 1.429    | from a standstill it grows with the room
            0        | 0     | 100       | 90       | a released pedal is obeyed as quickly as ever
            NaN      | 1     | 100       | 97.143   | an unknown voltage is no room
            NaN      | 1     | 0         | 0        | and none to begin with
            Infinity | 1     | 100       | 104      | nonsense does not hurry
            """)
    void lowPack_torqueGrowsAndFallsWithItsRoom(
            double room, double pedal, double beforeNm, double afterNm, String because) {
        c.travel = 1;
        assertEquals(beforeNm, shape((int) (beforeNm / 4)), 1e-9);
        c.travel = pedal;
        c.driveRoom = room;
        may.limited = true;
        facts.set(Fact.PACK_LOW, true);
        assertEquals(afterNm, shape(1), 1e-3, because);
    }

    /** 300 A at most. What motor and inverter lose is in the current and not in the power at the shaft. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            current_a | pedal | before_nm | after_nm | because
            0         | 1     | 100       | 104      | the pack gives little
            269       | 1     | 100       | 104      | below nine tenths nothing is held back
            270       | 1     | 100       | 104      | nine tenths themselves hold nothing back
            271       | 1     | 100       | 101.933  | above, the torque grows with the room that is left
            300       | 1     | 100       | 100      | the pack gives what it may
            303       | 1     | 100       | 99.8     | a little above: it falls, and not by a step
            360       | 1     | 100       | 96       | where the stop begins: quicker
            600       | 1     | 100       | 90       | as quickly as it may fall, and no quicker
            600       | 1     | 0         | 0        | never becomes regeneration
            300       | 0     | 100       | 90       | a released pedal is obeyed as quickly as ever
            -300      | 1     | 100       | 104      | a pack that is charged has room
            NaN       | 1     | 100       | 104      | an unknown current stops by a row of its own
            Infinity  | 1     | 100       | 90       | nonsense is no room
            """, useHeadersInDisplayName = true)
    void packGivesAllItMay_torqueGrowsAndFallsWithTheRoom(
            double currentA, double pedal, double beforeNm, double afterNm, String because) {
        c.travel = 1;
        assertEquals(beforeNm, shape((int) (beforeNm / 4)), 1e-9);
        c.travel = pedal;
        c.packCurrentA = currentA;
        assertEquals(afterNm, shape(1), 1e-3, because);
    }

    /** 100 Nm to brake, all of it from 8 km/h and none at 1.5 km/h; the pedal drives the rest of the time. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            ASKED | KPH  | TRAVEL | LEVEL | TORQUE_NM | BECAUSE
            0     | 40   | 1      | 3     | 200       | nobody asks
            0.5   | 40   | 1      | 3     | -50       | half of it, whatever the pedal says
            1     | 40   | 0.5    | 0     | -100      | all of it
            0.25  | 40   | 0      | 3     | -100      | the lifted pedal brakes more
            0.5   | 4.75 | 1      | 3     | -25       | half way down the fade
            1     | 1.5  | 1      | 3     | 0         | gone before standstill, and not driven either
            """)
    void brakingAskedFor_isTheStrongerOfTwo(
            double asked, double kph, double travel, int level, double torqueNm, String because) {
        speed(kph);
        c.travel = travel;
        c.regenLevel = level;
        c.regenAsked = asked;
        assertEquals(torqueNm, shape(100), 1e-9, because);
    }

    /** The voltage goes while the pack gives all it may: the torque falls by its rate, and comes back with the voltage. */
    @Test
    void voltageLostWhilePackGivesAllItMay_torqueFallsAndComesBack() {
        c.travel = 1;
        assertEquals(100, shape(25), 1e-9);
        c.packCurrentA = 300;
        c.packVoltageV = Double.NaN;
        assertEquals(90, shape(1), 1e-9);
        assertEquals(80, shape(1), 1e-9);
        c.packCurrentA = 0;
        c.packVoltageV = 350;
        assertEquals(84, shape(1), 1e-9);
    }

    @Test
    void packGivesAllItMay_inReverse_isTheMirror() {
        may.engaged = Direction.REVERSE;
        c.travel = 1;
        assertEquals(-40, shape(10), 1e-9);
        c.packCurrentA = 360;
        assertTrue(shape(1) > -40);
    }

    /** Cold and low at once: Logic names one of the two, both count, and the one that is taken out does not. */
    @Test
    void rowTakenOut_takesNothingWhileAnotherLimits() {
        TorqueShaper without = new TorqueShaper(settings, EnumSet.of(Interlock.PACK_LOW));
        c.travel = 1;
        c.driveRoom = -1;
        may.limited = true;
        facts.set(Fact.PACK_LOW, true);
        facts.set(Fact.PACK_COOL, true);
        without.shape(may, facts, c, out);
        assertEquals(4, out.get(Output.TORQUE_REQUEST_NM), 1e-9);
        assertEquals(0, shape(1), 1e-9);
    }

    @Test
    void lowPackInReverse_isTheMirror() {
        may.engaged = Direction.REVERSE;
        c.travel = 1;
        assertEquals(-40, shape(10), 1e-9);
        may.limited = true;
        facts.set(Fact.PACK_LOW, true);
        c.driveRoom = -1;
        assertEquals(-37.143, shape(1), 1e-3);
        c.driveRoom = -100;
        assertEquals(0, shape(10), 1e-9);
    }

    /** What goes into the pack lifts it: a low one takes all of it. */
    @Test
    void lowPackWhileBraking_regenerationStays() {
        speed(40);
        c.driveRoom = -100;
        may.limited = true;
        facts.set(Fact.PACK_LOW, true);
        assertEquals(-100, shape(100), 1e-9);
    }

    @Test
    void anything_staysFiniteAndInsideTheLimits() {
        Random random = new Random(1);
        TorquePermission[] permissions = TorquePermission.values();
        for (int i = 0; i < 200_000; i++) {
            may.torque = permissions[random.nextInt(permissions.length)];
            may.engaged = Direction.values()[random.nextInt(3)];
            may.limited = random.nextBoolean();
            facts.set(Fact.values()[random.nextInt(Fact.COUNT)], random.nextInt(2));
            c.travel = Math.min(Math.max(Wild.of(random, 0, 1), 0), 1);
            speed(Math.min(Math.max(Wild.of(random, -150, 150), -240), 240));
            c.packVoltageV = Wild.of(random, 0, 1000);
            c.motorTempC = Wild.of(random, -40, 200);
            c.packHotC = Wild.of(random, -40, 100);
            c.packColdC = Wild.of(random, -40, 100);
            c.cellMaxV = Wild.of(random, 2, 5);
            c.cellMinV = Wild.of(random, 2, 5);
            c.driveRoom = Wild.of(random, -2, 2);
            c.regenLevel = random.nextInt(5);
            double before = out.get(Output.TORQUE_REQUEST_NM);
            double now = shape(1);
            assertTrue(Double.isFinite(now), "tick " + i);
            double along = now * may.engaged.sign;
            assertTrue(
                    along <= 200 && along >= -100 || may.torque != TorquePermission.FOLLOW_PEDAL,
                    "tick " + i + " " + now);
            boolean grows = Math.abs(now) > Math.abs(before) + 1e-9;
            assertTrue(!grows || may.torque == TorquePermission.FOLLOW_PEDAL, "tick " + i);
            assertTrue(!grows || Math.abs(now - before) <= 4 + 1e-9, "tick " + i + ": " + before + " to " + now);
        }
    }
}
