package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.Wild;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/** Ticks of 50 ms, 100 Ah. */
class GaugeTest {
    private static final int TICKS_PER_H = 20 * 3600;
    private static final double CELLS = 96;

    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final Settings nmc = TestVehicle.full()
            .with(Parameter.LOOP_TICK_MS, 50)
            .with(Parameter.PACK_CAPACITY_AH, 100)
            .with(Parameter.PACK_CHEMISTRY, 1);
    private final Settings lfp = nmc.with(Parameter.PACK_CHEMISTRY, 0);

    private void run(Gauge gauge, double cellV, double outA, int ticks) {
        c.packVoltageV = cellV * CELLS;
        c.packCurrentA = outA;
        for (int i = 0; i < ticks; i++) {
            gauge.update(c, facts);
        }
    }

    /** Formula from vbatpower.com/formulas/state-of-charge, with its coulombic efficiency of 99.5 % on the way in. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            OUT_A | HOURS | CHANGE | BECAUSE
            20    | 2     | -0.40  | 100 Ah: from 80 % to 40 %
            -20   | 1     | 0.199  | 99.5 % of what goes in stays: from 50 % to 69.9 %
            0     | 5     | 0      | nothing flows
            """)
    void current_isCounted(double outA, int hours, double change, String because) {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 3.75, 0, 1);
        double before = c.stateOfCharge;
        run(gauge, Double.NaN, outA, hours * TICKS_PER_H);
        assertEquals(before + change, c.stateOfCharge, 1e-6, because);
    }

    /** README of soorajsunil/Piecewise-Battery-OCV on GitHub; the simulated car has the same cell. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"0, 2.0102", "0.0534, 3.0872", "0.0885, 3.1942", "0.2972, 3.2772", "0.9833, 3.3511", "0.995, 3.418"})
    void restedVoltageOfLfp_isThePublishedStateOfCharge(double fraction, double cellV) {
        assertEquals(fraction, new OpenCircuitCurve(lfp).fraction(cellV), 1e-9);
    }

    /** Every tenth of ecm_example_ocv.csv of PyBaMM; the simulated car is held against the same file. */
    @ParameterizedTest(name = "{arguments}")
    @CsvFileSource(resources = "/published/nmc-open-circuit.csv", numLinesToSkip = 1)
    void restedVoltage_isThePublishedStateOfCharge(double fraction, double cellV) {
        assertEquals(fraction, new OpenCircuitCurve(nmc).fraction(cellV), 1e-9);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            CHEMISTRY | CELL_V | BEFORE_MIN | UNSURE | BECAUSE
            nmc       | 3.75   | 0.09       | false  | a steep curve, but the cells may not have rested
            nmc       | 3.65   | 0.15       | false  | not so steep here, but far from empty
            nmc       | 3.58   | 0.1        | true   | a tenth may be left
            lfp       | 3.33   | 0.3        | false  | a flat curve says next to nothing, but a quarter is left at the least
            lfp       | 3.28   | 0.3        | true   | a tenth may be left
            lfp       | 2.50   | 0          | false  | an empty pack is known to be empty
            """)
    void wakeUp_takesTheVoltageWithAWideError(
            String chemistry, double cellV, double atLeast, boolean unsure, String because) {
        run(new Gauge(chemistry.equals("lfp") ? lfp : nmc), cellV, 0, 1);
        assertTrue(c.stateOfChargeUncertainty >= atLeast, () -> because + ": " + c.stateOfChargeUncertainty);
        assertEquals(unsure, facts.is(Fact.GAUGE_UNSURE), because);
    }

    @Test
    void wakeUp_unknownVoltage_knowsNothing() {
        Gauge gauge = new Gauge(nmc);
        run(gauge, Double.NaN, 0, 10);
        assertTrue(Double.isNaN(c.stateOfCharge));
        assertEquals(1, c.stateOfChargeUncertainty);
        assertTrue(facts.is(Fact.GAUGE_UNSURE));
        run(gauge, 3.75, 0, 1);
        assertEquals(0.575, c.stateOfCharge, 0.05);
    }

    @Test
    void counting_growsTheUncertaintyByTheSensorAndTheCapacity() {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 3.75, 0, 1);
        double before = c.stateOfChargeUncertainty;
        run(gauge, Double.NaN, 20, TICKS_PER_H);
        assertEquals(before + 0.5 / 100 + 0.03 * 0.20, c.stateOfChargeUncertainty, 1e-6);
    }

    @Test
    void unknownCurrent_growsTheUncertaintyByTheMostThatCouldHaveFlowed() {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 3.75, 0, 1);
        double before = c.stateOfChargeUncertainty;
        run(gauge, 3.75, Double.NaN, 60 * 20);
        assertEquals(before + 300.0 / 60 / 100, c.stateOfChargeUncertainty, 1e-6);
    }

    /** A broken wire of the current sensor reads -2000 A until the car has stopped for it. */
    @ParameterizedTest(name = "{0} A")
    @ValueSource(doubles = {-2000, 2000, -361, 361})
    void currentBeyondTheTrip_isDoubtedAsAWhole(double outA) {
        Gauge gauge = new Gauge(lfp.with(Parameter.PACK_CHARGE_MAX_A, 300));
        run(gauge, 3.25, 0, 1);
        double before = c.stateOfCharge;
        double sureBefore = c.stateOfChargeUncertainty;
        run(gauge, Double.NaN, outA, 20 * 2);
        double most = 2 * 300 / 3600.0 / 100;
        assertTrue(before + most <= c.stateOfCharge + c.stateOfChargeUncertainty - sureBefore);
        assertTrue(before - most >= c.stateOfCharge - c.stateOfChargeUncertainty + sureBefore);
    }

    @Test
    void rest_onASteepCurve_corrects() {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 3.90, 0, 1);
        run(gauge, 3.8544, 0, TICKS_PER_H / 2 - 1);
        assertTrue(c.stateOfChargeUncertainty > 0.05, "half an hour is not over");
        run(gauge, 3.8544, 0, 1);
        assertEquals(0.7, c.stateOfCharge, 0.01);
        assertTrue(c.stateOfChargeUncertainty < 0.03, () -> "now surer: " + c.stateOfChargeUncertainty);
        assertFalse(facts.is(Fact.GAUGE_UNSURE));
    }

    @Test
    void rest_onTheFlatPartOfLfp_keepsValueAndUncertainty() {
        Gauge gauge = new Gauge(lfp.with(Parameter.GAUGE_CURRENT_ERROR_A, 0));
        facts.set(Fact.CHARGE_DONE, true);
        run(gauge, 3.50, 0, 2);
        facts.set(Fact.CHARGE_DONE, false);
        run(gauge, 3.2, 90, TICKS_PER_H / 3);
        double soc = c.stateOfCharge;
        double uncertainty = c.stateOfChargeUncertainty;
        assertEquals(0.69, soc, 0.01);
        run(gauge, 3.318, 0, TICKS_PER_H);
        assertEquals(soc, c.stateOfCharge, 1e-9);
        assertEquals(uncertainty, c.stateOfChargeUncertainty, 1e-9);
    }

    @Test
    void load_isNoRest() {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 3.90, 0, 1);
        run(gauge, 3.8544, 2.1, TICKS_PER_H);
        assertTrue(c.stateOfChargeUncertainty > 0.05, "2 A of 100 Ah count as rest, 2.1 A do not");
    }

    /** At the end of a charge little current flows, and the cell stands above its rest: twice the error of the sensor is the limit. */
    @ParameterizedTest(name = "{0} A")
    @CsvSource({"-1.0, true", "-1.01, false"})
    void littleChargeCurrent_isNoRest_bothSides(double outA, boolean corrects) {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 3.90, 0, 1);
        run(gauge, 3.95, outA, TICKS_PER_H / 2);
        assertEquals(corrects, c.stateOfChargeUncertainty < 0.03, () -> "uncertainty " + c.stateOfChargeUncertainty);
    }

    @Test
    void voltageThatContradicts_isBelieved() {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 4.15, 0, 1);
        run(gauge, 3.5755, 0, TICKS_PER_H / 2);
        assertEquals(0.2, c.stateOfCharge, 0.03);
    }

    @Test
    void chargeDone_knowsTheTop() {
        Gauge gauge = new Gauge(lfp);
        run(gauge, 3.33, 0, 1);
        assertTrue(c.stateOfChargeUncertainty > 0.1, () -> "before: " + c.stateOfChargeUncertainty);
        run(gauge, 3.50, -5, 10);
        facts.set(Fact.CHARGE_DONE, true);
        run(gauge, 3.50, -2, 1);
        assertEquals(1, c.stateOfCharge, 0.02);
        assertTrue(c.stateOfChargeUncertainty < 0.02, () -> "after: " + c.stateOfChargeUncertainty);
    }

    /** Sensor, capacity and voltage are wrong by as much as the vehicle says they may be; the truth stays inside. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void daysOfDrivingAndRest_truthStaysWithinTheUncertainty(long seed) {
        Random random = new Random(seed);
        double biasA = (random.nextDouble() * 2 - 1) * 0.5;
        double capacityAh = 100 * (1 + (random.nextDouble() * 2 - 1) * 0.025);
        double biasV = (random.nextDouble() * 2 - 1) * 0.013;
        Gauge gauge = new Gauge(nmc);
        double truth = 0.2 + 0.6 * random.nextDouble();
        run(gauge, voltsAt(truth) + biasV, biasA, 1);
        for (int leg = 0; leg < 40; leg++) {
            boolean rests = random.nextInt(3) == 0;
            double outA = rests ? 0 : (truth > 0.5 ? 1 : -1) * random.nextDouble() * 60;
            int ticks = rests ? TICKS_PER_H : TICKS_PER_H / 4;
            for (int i = 0; i < ticks; i += 200) {
                truth -= outA * 200 / TICKS_PER_H / capacityAh * (outA < 0 ? 0.995 : 1);
                double loadV = -outA * 0.001;
                run(gauge, voltsAt(truth) + loadV + biasV, outA + biasA, 200);
                double apart = Math.abs(c.stateOfCharge - truth);
                double told = c.stateOfChargeUncertainty;
                assertTrue(apart <= told, () -> "off by " + apart + ", told " + told);
            }
        }
    }

    private double voltsAt(double fraction) {
        OpenCircuitCurve curve = new OpenCircuitCurve(nmc);
        double low = 3.2;
        double high = 4.187;
        for (int i = 0; i < 40; i++) {
            double middle = (low + high) / 2;
            if (curve.fraction(middle) < fraction) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void anyReadings_keepTheGaugeWithinItsScale(long seed) {
        Random random = new Random(seed);
        for (int life = 0; life < 20; life++) {
            Gauge gauge = new Gauge(random.nextBoolean() ? lfp.with(Parameter.GAUGE_REST_MIN, 1) : nmc);
            for (int i = 0; i < 2000; i++) {
                facts.set(Fact.CHARGE_DONE, random.nextInt(5) == 0);
                run(gauge, Wild.of(random, 2, 4.5), Wild.of(random, -300, 300), 1 + random.nextInt(50));
                assertTrue(c.stateOfCharge >= 0 && c.stateOfCharge <= 1 || Double.isNaN(c.stateOfCharge));
                assertTrue(c.stateOfChargeUncertainty >= 0.01 && c.stateOfChargeUncertainty <= 1);
            }
        }
    }

    /** 300 A and a factor of 1.2 make 360 A. */
    @ParameterizedTest(name = "{0} A")
    @ValueSource(doubles = {-360, -300, 300, 360})
    void currentUpToTheTrip_isDoubtedNoMoreThanAnyOther(double outA) {
        Gauge gauge = new Gauge(lfp.with(Parameter.PACK_CHARGE_MAX_A, 300));
        run(gauge, 3.25, 0, 1);
        double before = c.stateOfChargeUncertainty;
        run(gauge, Double.NaN, outA, 20 * 2);
        double change = Math.abs(outA) * 2 / 3600 / 100 * (outA < 0 ? 0.995 : 1);
        assertEquals(before + 0.5 * 2 / 3600 / 100 + 0.03 * change, c.stateOfChargeUncertainty, 1e-9);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            CELL_V | KNOWN | BECAUSE
            0      | false | no pack is there
            0.01   | true  | an empty pack
            4.99   | true  | a full one
            5      | false | a wire that is shorted high
            """)
    void wakeUp_voltageAtTheEndsOfTheScale_saysNothing(double cellV, boolean known, String because) {
        run(new Gauge(nmc), cellV, 0, 1);
        assertEquals(known, !Double.isNaN(c.stateOfCharge), because);
    }

    @Test
    void rest_currentOfTwoPercentOfTheCapacity_isStillRest() {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 3.90, 0, 1);
        run(gauge, 3.8544, 2.0, TICKS_PER_H / 2);
        assertTrue(c.stateOfChargeUncertainty < 0.03, () -> "uncertainty " + c.stateOfChargeUncertainty);
    }

    /** Voltage errors of 0.05 V: awake at 3.90 V the truth lies between the charge of 3.80 V and that of 4.00 V. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            REST_V | LOW_V | HIGH_V | BECAUSE
            4.02   | 3.97  | 4.00   | the upper part of what was known
            3.78   | 3.80  | 3.83   | the lower part
            3.90   | 3.85  | 3.95   | the voltage alone is narrower
            4.10   | 4.05  | 4.15   | it contradicts: the voltage is believed
            3.70   | 3.65  | 3.75   | it contradicts the other way
            """)
    void rest_secondOpinion_theTruthLiesInBoth(double restV, double lowV, double highV, String because) {
        Gauge gauge =
                new Gauge(nmc.with(Parameter.GAUGE_CURRENT_ERROR_A, 0).with(Parameter.GAUGE_VOLTAGE_ERROR_V, 0.05));
        run(gauge, 3.90, 0, 1);
        run(gauge, restV, 0, TICKS_PER_H / 2);
        isBetween(lowV, highV, because);
    }

    private void isBetween(double lowV, double highV, String because) {
        OpenCircuitCurve curve = new OpenCircuitCurve(nmc);
        double low = curve.fraction(lowV);
        double high = curve.fraction(highV);
        assertEquals((low + high) / 2, c.stateOfCharge, 1e-9, because);
        assertEquals((high - low) / 2, c.stateOfChargeUncertainty, 1e-9, because);
    }

    /** Voltage errors of 0.2 V; 60 s of unknown current make the gauge less sure by 5 %. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            WAKE_V | REST_V | BECAUSE
            3.2    | 3.35   | nearly empty, and the voltage says only that it is not full
            4.15   | 4.05   | nearly full, and the voltage says only that it is not empty
            """)
    void rest_voltageThatSaysNothingNew_changesNothing(double wakeV, double restV, String because) {
        Gauge gauge =
                new Gauge(nmc.with(Parameter.GAUGE_CURRENT_ERROR_A, 0).with(Parameter.GAUGE_VOLTAGE_ERROR_V, 0.2));
        run(gauge, wakeV, 0, 1);
        run(gauge, Double.NaN, Double.NaN, 60 * 20);
        double soc = c.stateOfCharge;
        double uncertainty = c.stateOfChargeUncertainty;
        run(gauge, restV, 0, TICKS_PER_H / 2);
        assertEquals(soc, c.stateOfCharge, 1e-9, because);
        assertEquals(uncertainty, c.stateOfChargeUncertainty, 1e-9, because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            REST_V | CHANGES | BECAUSE
            0.125  | false   | with its error it may be no voltage at all
            0.13   | true    | an empty pack
            4.87   | true    | a full one
            4.875  | false   | with its error it reaches the end of the scale
            """)
    void rest_voltageAtTheEndsOfTheScale_changesNothing(double restV, boolean changes, String because) {
        Gauge gauge =
                new Gauge(nmc.with(Parameter.GAUGE_CURRENT_ERROR_A, 0).with(Parameter.GAUGE_VOLTAGE_ERROR_V, 0.125));
        run(gauge, 3.70, 0, 1);
        double soc = c.stateOfCharge;
        run(gauge, restV, 0, TICKS_PER_H / 2);
        assertEquals(changes, c.stateOfCharge != soc, because);
    }

    @Test
    void chargeDone_cellStandsAtMost50MvAboveItsRest() {
        Gauge gauge = new Gauge(nmc);
        run(gauge, 3.75, 0, 1);
        run(gauge, Double.NaN, Double.NaN, 30_000);
        assertEquals(1, c.stateOfChargeUncertainty, "25 min of unknown current: nothing is known");
        facts.set(Fact.CHARGE_DONE, true);
        run(gauge, 3.90, Double.NaN, 1);
        isBetween(3.90 - 0.05 - 0.015, 3.90 + 0.015, "50 mV and the error of 15 mV below, the error above");
    }

    @Test
    void voltageBeyondTheCurve_isFull_andUnknownIsUnknown() {
        for (Settings cell : new Settings[] {nmc, lfp}) {
            assertEquals(1, new OpenCircuitCurve(cell).fraction(4.3));
            assertEquals(Double.NaN, new OpenCircuitCurve(cell).fraction(Double.NaN));
        }
    }
}
