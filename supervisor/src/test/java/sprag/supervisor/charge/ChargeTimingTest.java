package sprag.supervisor.charge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** How quickly voltage and measured current take charge current away: 18 A, 400 V with a tolerance of 4 V, a lag of 2 s, ticks of 10 ms. */
class ChargeTimingTest {
    private final Settings settings = TestVehicle.full();
    private final Permissions may = new Permissions();
    private final Conditioned c = new Conditioned();
    private final Readings in = new Readings();
    private final Commands out = new Commands();
    private ChargeShaper shaper = new ChargeShaper(settings);

    @BeforeEach
    void well() {
        may.charging = true;
        ChargeShaperTest.well(c, in);
    }

    private double run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            shaper.shape(may, c, in, out);
        }
        return out.get(Output.CHARGE_CURRENT_LIMIT_A);
    }

    /** The full tolerance above takes the full current away in 10 s; half a volt of it 0.225 A a second. */
    @Test
    void voltageHalfAVoltAbove_takesCurrentAwaySlowly() {
        assertEquals(18, run(1000), 1e-9);
        assertTrue(out.isOn(Output.CHARGER_ENABLE));
        c.packVoltageV = 400.5;
        // at 400.5 V the charger's rating leaves 6600 W
        double ratedA = 6600 / 400.5;
        assertEquals(ratedA, run(1), 1e-6);
        double before = 18 - 0.00225;
        assertEquals(Math.min(before - 99 * 0.00225, ratedA), run(99), 1e-6);
        assertEquals(18 - 1000 * 0.00225, run(900), 1e-6);
    }

    /** From a quarter to three quarters of the tolerance the current falls at once. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PACK_V | CURRENT_A | BECAUSE
            401.5  | 13.5      | a quarter of the way
            402    | 9         | half of it
            402.5  | 4.5       | three quarters of it
            403    | 0         | all of it
            288    | 18        | pack.min_v itself is not drained
            287.9  | 1.8       | below it
            """)
    void voltage_bendsTheCurrentAtOnce(double packV, double currentA, String because) {
        run(1000);
        c.packVoltageV = packV;
        assertEquals(currentA, run(1), 1e-9, because);
    }

    /** The last tick of charger.silent_ms still counts, the next one no longer. */
    @Test
    void silentCharger_countsForItsTimeExactly() {
        shaper = new ChargeShaper(settings.with(Parameter.CHARGER_COUNT, 2).with(Parameter.CHARGER_2_MAX_W, 6600));
        in.set(Signal.CHARGER_2_OK, 1);
        in.set(Signal.CHARGER_2_CURRENT_A, 0);
        in.set(Signal.CHARGER_2_VOLTAGE_V, 350);
        run(1000);
        in.set(Signal.CHARGER_2_OK, Double.NaN);
        in.set(Signal.CHARGER_2_CURRENT_A, Double.NaN);
        assertEquals(9, run(300), 1e-6);
        assertEquals(9.05, run(1), 1e-6);
    }

    /** 2 A too much: of that an eighth a second is added to the trim, four times the lag of 2 s. */
    @Test
    void measuredAboveAsked_isTakenBackWithinFourLags() {
        run(1000);
        c.packCurrentA = -20;
        assertEquals(18 - 2 * 0.01 / 8, run(1), 1e-9);
        assertEquals(18 - 2 * 2 * 0.01 / 8, run(1), 1e-9);
        c.packCurrentA = -17;
        assertEquals(18 - 2 * 2 * 0.01 / 8 + 0.01 / 8, run(1), 1e-9, "less takes it back");
    }

    /** The cap falls from 18 A to 9.48 A at once; the chargers may follow with their lag before more is taken back. */
    @Test
    void capFalls_chargersMayFollowWithTheirLag() {
        run(1000);
        c.packCurrentA = -18;
        run(1);
        c.allowedAcA = 16;
        double capA = 16 * 230 * 0.98 * 0.92 / 350;
        double expectedA = 18 + (capA - 18) * 0.01 / 2;
        assertEquals(capA - (18 - expectedA) * 0.01 / 8, run(1), 1e-9);
        double later = expectedA + (capA - expectedA) * 0.01 / 2;
        assertEquals(capA - ((18 - expectedA) + (18 - later)) * 0.01 / 8, run(1), 1e-9);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PACK_V   | CURRENT | BECAUSE
            Infinity | 0       | no voltage
            -Infinity| 0       | no voltage
            NaN      | 0       | unknown
            """)
    void voltageThatIsNone_allowsNothing(double packV, double currentA, String because) {
        run(1000);
        c.packVoltageV = packV;
        assertEquals(currentA, run(1), because);
    }

    /** The regulation had left 0.5 A: it remembers that over a tick without a voltage, and goes on from there. */
    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void voltageThatIsNoneForATick_regulationGoesOnWhereItWas(double packV) {
        run(1000);
        c.packVoltageV = 400.5;
        int ticks = (int) (17.5 / 0.00225);
        double leftA = 18 - ticks * 0.00225;
        assertEquals(leftA, run(ticks), 1e-6);
        c.packVoltageV = packV;
        assertEquals(0, run(1));
        c.packVoltageV = 400.5;
        assertEquals(0.05, run(1), 1e-9, "the ramp");
        assertEquals(leftA - 20 * 0.00225, run(19), 1e-6);
    }

    /** A charger that can only be switched is on while nothing asks for less than all of it. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PACK_V | COLD_C | CHARGER_C | ON    | BECAUSE
            350    | 24     | 30        | true  | all is well
            402.9  | 24     | 30        | true  | below three quarters of 4 V above 400 V
            403    | 24     | 30        | false | three quarters
            350    | 11     | 30        | false | cells that are cool ask for less
            350    | 24     | 60        | true  | charger.warm_c itself
            350    | 24     | 61        | false | a warm charger asks for less
            350    | 24     | NaN       | false | unknown
            NaN    | 24     | 30        | false | unknown
            """)
    void switchedCharger_isOnWhileNothingAsksForLess(
            double packV, double coldC, double chargerC, boolean on, String because) {
        shaper = new ChargeShaper(settings.with(
                Parameter.CHARGER_CONTROL, Parameter.CHARGER_CONTROL.choices().indexOf("switched")));
        c.packVoltageV = packV;
        c.packColdC = coldC;
        c.chargerTempC = chargerC;
        assertEquals(on ? 18 : 0, run(1), because);
        assertEquals(on, out.isOn(Output.CHARGER_ENABLE), because);
        assertEquals(on ? 400 : 0, out.get(Output.CHARGE_VOLTAGE_LIMIT_V), because);
        may.charging = false;
        assertEquals(0, run(1));
        assertFalse(out.isOn(Output.CHARGER_ENABLE));
    }

    @Test
    void switchedChargerWithoutAThermometer_isOnAllTheSame() {
        shaper = new ChargeShaper(settings.with(
                        Parameter.CHARGER_CONTROL,
                        Parameter.CHARGER_CONTROL.choices().indexOf("switched"))
                .without(Signal.CHARGER_TEMP_V));
        c.chargerTempC = Double.NaN;
        assertEquals(18, run(1));
    }
}
