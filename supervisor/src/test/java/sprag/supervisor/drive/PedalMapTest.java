package sprag.supervisor.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/** The map against its formula: coast point 0.25 from 30 km/h, shape 1.4, fade from 8 to 1.5 km/h, levels 0.35, 0.65, 1, 1. */
class PedalMapTest {
    private static final double[] LEVELS = {0, 0.35, 0.65, 1, 1};

    private final Settings settings = TestVehicle.full();
    private final PedalMap map = new PedalMap(settings);

    private static double exact(double t, double kph, int level, double shape) {
        double c = 0.25 * Math.min(Math.max(kph / 30, 0), 1);
        if (t >= c) {
            return Math.pow((t - c) / (1 - c), shape);
        }
        double fade = Math.min(Math.max((kph - 1.5) / 6.5, 0), 1);
        return -(c - t) / c * LEVELS[level] * fade;
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            TRAVEL | KPH  | LEVEL | SHARE     | BECAUSE
            0      | 0    | 3     | 0         | released at standstill: nothing
            1      | 0    | 3     | 1         | full is full
            1      | 100  | 0     | 1         | at any speed
            0.5    | 0    | 3     | 0.378929  | 0.5 ^ 1.4: at standstill the whole travel drives
            0.25   | 30   | 3     | 0         | the coast point at speed
            0.125  | 15   | 3     | 0         | the coast point grows with the speed
            0      | 30   | 3     | -1        | released at speed: all of the level
            0      | 30   | 1     | -0.35     | level 1
            0      | 30   | 2     | -0.65     | level 2
            0      | 30   | 0     | 0         | level 0 coasts
            0.125  | 30   | 3     | -0.5      | half way to the coast point
            0      | 8    | 3     | -1        | the fade begins at 8 km/h
            0      | 4.75 | 3     | -0.5      | half way down the fade
            0      | 1.5  | 3     | 0         | gone before standstill
            0      | 0.5  | 3     | 0         | never pushes
            0      | -5   | 3     | 0         | rolling back: no regeneration
            0.5    | -5   | 3     | 0.378929  | rolling back: the whole travel drives
            """)
    void share_isTheFormula(double travel, double kph, int level, double share, String because) {
        assertEquals(share, map.share(travel, kph, level), 1e-4, because);
    }

    @ParameterizedTest(name = "shape {0}")
    @ValueSource(doubles = {1, 1.4, 2, 3})
    void anyTravelSpeedAndLevel_agreeWithTheFormula(double shape) {
        PedalMap shaped = new PedalMap(settings.with(Parameter.DRIVE_SHAPE, shape));
        Random random = new Random(1);
        for (int i = 0; i < 100_000; i++) {
            double t = random.nextDouble();
            double kph = random.nextDouble() * 200 - 50;
            int level = random.nextInt(5);
            double share = shaped.share(t, kph, level);
            assertEquals(exact(t, kph, level, shape), share, 1e-4, t + " at " + kph + " level " + level);
            assertTrue(share >= -1 && share <= 1);
        }
    }

    /** A degressive pedal is steep at its beginning, where straight pieces follow the power less closely. */
    @Test
    void degressiveShape_staysWithinOneAndAHalfPerCent() {
        PedalMap shaped = new PedalMap(settings.with(Parameter.DRIVE_SHAPE, 0.5));
        for (double t = 0; t <= 1; t += 0.0001) {
            assertEquals(Math.sqrt(t), shaped.share(t, 0, 3), t < 0.01 ? 0.0157 : 2e-3, "at " + t);
        }
    }

    /** FS Rules 2024 T 11.8.12: with the pedal released the wheel torque is zero or braking. */
    @Test
    void releasedPedal_neverDrives() {
        for (double kph = -50; kph <= 200; kph += 0.1) {
            for (int level = 0; level <= 4; level++) {
                assertTrue(map.share(0, kph, level) <= 0);
            }
        }
    }

    @Test
    void moreTravel_neverMeansLess() {
        for (double kph = -10; kph <= 150; kph += 1.7) {
            for (int level = 0; level <= 4; level++) {
                double before = map.share(0, kph, level);
                for (double t = 0; t <= 1; t += 0.005) {
                    double share = map.share(t, kph, level);
                    assertTrue(share >= before - 1e-12, t + " at " + kph);
                    before = share;
                }
            }
        }
    }

    @Test
    void coastPoint_growsUpToItsLimit() {
        assertEquals(0, map.coastPoint(-10));
        assertEquals(0, map.coastPoint(0));
        assertEquals(0.125, map.coastPoint(15), 1e-12);
        assertEquals(0.25, map.coastPoint(30), 1e-12);
        assertEquals(0.25, map.coastPoint(130), 1e-12);
    }
}
