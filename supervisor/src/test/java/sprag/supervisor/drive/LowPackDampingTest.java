package sprag.supervisor.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.LowPack;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.TorquePermission;

/**
 * Full pedal on packs from good to hopeless: the torque comes to rest and does not swing, and the pack stays above its least
 * voltage but for a moment shorter than the trip. The pack here is the plainest there is: a source behind a resistance, a motor that
 * follows with a lag, and a voltage that is read one tick late.
 */
class LowPackDampingTest {
    private static final double LEAST_V = 288;
    private static final double RAD_PER_S = 300;

    private final Settings settings =
            TestVehicle.full().without(Signal.CELL_MIN_V).without(Signal.CELL_MAX_V);
    private final TorqueShaper shaper = new TorqueShaper(settings);
    private final LowPack lowPack = new LowPack(settings);
    private final Permissions may = new Permissions();
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final Commands out = new Commands();
    private double torqueNm;
    private double packV;

    /** One tick. 200 Nm at 300 rad/s and an efficiency of 0.9 are 67 kW, some 200 A. */
    private void tick(double restV, double ohm, double lagMs) {
        c.packVoltageV = packV;
        c.driveRoom = lowPack.room(c);
        facts.set(Fact.PACK_LOW, c.driveRoom <= 1);
        may.limited = facts.is(Fact.PACK_LOW);
        shaper.shape(may, facts, c, out);
        torqueNm += (out.get(Output.TORQUE_REQUEST_NM) - torqueNm) * (1 - Math.exp(-10 / lagMs));
        double powerW = torqueNm * RAD_PER_S / 0.9;
        double root = restV * restV - 4 * ohm * powerW;
        packV = root > 0 ? (restV + Math.sqrt(root)) / 2 : restV / 2;
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            REST_V | OHM  | LAG_MS | BECAUSE
            350    | 0.1  | 15     | a good pack: full torque and no limit
            350    | 0.2  | 15     | sags to the beginning of low
            350    | 0.3  | 15     | a cold one
            350    | 0.3  | 50     | and a slow inverter
            350    | 0.6  | 15     | twice as cold
            350    | 0.6  | 50     | and a slow inverter
            350    | 1.0  | 15     | old and very cold: full torque is beyond its greatest power
            350    | 1.0  | 50     | and a slow inverter
            350    | 2.0  | 15     | hopeless
            305    | 0.1  | 15     | nearly empty and warm
            305    | 0.6  | 50     | nearly empty and cold
            294    | 0.3  | 15     | hardly above the end
            290    | 0.1  | 15     | already below the end: it does not drive
            """)
    void fullPedal_comesToRestAboveTheLeastVoltage(double restV, double ohm, double lagMs, String because) {
        may.torque = TorquePermission.FOLLOW_PEDAL;
        may.engaged = Direction.FORWARD;
        c.travel = 1;
        c.speedKph = 40;
        c.motorSpeedRpm = RAD_PER_S * 60 / (2 * Math.PI);
        c.regenShare = 1;
        packV = restV;
        int ticksBelow = 0;
        double lowestNm = Double.MAX_VALUE;
        double highestNm = 0;
        for (int i = 0; i < 1000; i++) {
            tick(restV, ohm, lagMs);
            ticksBelow += packV < LEAST_V ? 1 : 0;
            if (i >= 500) {
                lowestNm = Math.min(lowestNm, torqueNm);
                highestNm = Math.max(highestNm, torqueNm);
            }
        }
        assertTrue(ticksBelow < 25, because + ": below the least voltage for " + ticksBelow + " ticks of 10 ms");
        assertEquals(lowestNm, highestNm, 0.2, because + ": a thousandth of the torque, 5 s after the pedal");
        double endV = LowPack.end(LEAST_V, 403);
        boolean free = highestNm > 199.9;
        assertTrue(
                free ? packV >= endV : Math.abs(packV - endV) < 0.1 || torqueNm < 0.1, because + ": " + packV + " V");
    }

    /** The pack recovers as it warms: the torque follows, without a step and without a swing. */
    @ParameterizedTest(name = "{0} ohm")
    @CsvSource({"0.3", "0.6", "1.0", "2.0"})
    void packWarms_torqueComesBackSteplessly(double ohm) {
        may.torque = TorquePermission.FOLLOW_PEDAL;
        may.engaged = Direction.FORWARD;
        c.travel = 1;
        c.speedKph = 40;
        c.motorSpeedRpm = RAD_PER_S * 60 / (2 * Math.PI);
        packV = 350;
        for (int i = 0; i < 500; i++) {
            tick(350, ohm, 15);
        }
        double before = torqueNm;
        for (int i = 0; i < 3000; i++) {
            double ago = torqueNm;
            tick(350, ohm * Math.exp(-i / 800.0), 15);
            assertTrue(torqueNm >= ago - 0.01, "tick " + i + ": from " + ago + " to " + torqueNm + " Nm");
            assertTrue(torqueNm - ago < 4, "tick " + i + ": from " + ago + " to " + torqueNm + " Nm");
        }
        assertTrue(torqueNm > before && torqueNm > 199, before + " to " + torqueNm);
    }
}
