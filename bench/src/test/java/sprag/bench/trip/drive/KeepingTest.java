package sprag.bench.trip.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.trip.trace.SpeedTrace;

/** The tolerance of 40 CFR 86.115, in the wording of 40 CFR 600.109: 2 mph within a second, more for less than two seconds. */
class KeepingTest {
    /** 36 km/h for a minute, a step to 72 at 30 s. */
    private static final SpeedTrace STEP = new SpeedTrace(
            "step", "", new double[] {0, 30, 30.001, 60}, new double[] {36, 36, 72, 72}, new double[4], new boolean[4]);

    @ParameterizedTest
    @CsvSource({
        "15,   39.2, 0, 3.2 km/h above, 2 mph are 3.2187",
        "15,   39.3, 1, more",
        "15,   32.8, 0, 3.2 below",
        "15,   32.7, 1, more",
        "30.9, 36,   0, within a second of the lower speed",
        "31.1, 36,   1, a second has passed",
        "29.1, 72,   0, a second before the step",
        "28.9, 72,   1, earlier",
        "0,    36,   0, at the start the trace goes on as it begins",
        "60,   72,   0, at the end too",
    })
    void speed_atATime_countsWhenOutside(double atS, double kph, int counts, String because) {
        Keeping keeping = new Keeping(STEP);
        keeping.judge(atS, kph / 3.6, false, 1);
        assertEquals(counts, keeping.outsideS, because);
    }

    @ParameterizedTest
    @CsvSource({"19, 0, 1.9 s are allowed", "20, 1, two are not"})
    void outside_forALittleOrLong_isAllowedOrNot(int tenths, int occasions, String because) {
        Keeping keeping = new Keeping(STEP);
        for (int i = 0; i < tenths; i++) {
            keeping.judge(10 + i * 0.1, 20 / 3.6, true, 0.1);
        }
        keeping.judge(20, 10, false, 0.1);
        assertEquals(occasions, keeping.longOccasions, because);
        assertEquals(tenths * 0.1, keeping.outsideAtFullPedalS, 1e-9);
    }
}
