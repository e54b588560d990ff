package sprag.bench.car.electric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.simulation.Driven;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/** The pack against published points and closed forms. */
class PackTest {
    /** Every tenth of ecm_example_ocv.csv of PyBaMM, its demonstration cell. */
    @ParameterizedTest(name = "{arguments}")
    @CsvFileSource(files = "../supervisor/src/test/resources/published/nmc-open-circuit.csv", numLinesToSkip = 1)
    void nickelCell_atRest_asPublished(double soc, double volts) {
        assertEquals(volts, CellCurve.of("nmc").volts(soc), 1e-9);
    }

    @ParameterizedTest
    @ValueSource(strings = {"lfp", "nmc"})
    void everyCurve_fromBelowEmptyToBeyondFull_rises(String chemistry) {
        CellCurve curve = CellCurve.of(chemistry);
        for (int i = -200; i < 1200; i++) {
            assertTrue(curve.volts((i + 1) / 1000.0) > curve.volts(i / 1000.0), chemistry + " at " + i / 1000.0);
        }
    }

    /** Coulomb counting, SoC = SoC0 + I t / Q: 100 Ah, 80 %, 20 A out for 2 h leave 40 %. */
    @Test
    void twentyAmpere_forTwoHours_takeFortyPercent() {
        Vehicle vehicle = Driven.shipped("coupe").with(CarParameter.CELLS_CAPACITY_AH, 100);
        Pack pack = new Pack(vehicle, 25);
        pack.soc = 0.8;
        for (int i = 0; i < 7200; i++) {
            pack.draw(20, 400, 1);
        }
        assertEquals(0.4, pack.soc, 1e-9);
    }

    /** One RC: V(t) = I R (1 - exp(-t/tau)), and the heat in both resistors. */
    @Test
    void constantCurrent_slowPart_followsItsExponential() {
        Vehicle vehicle = Driven.shipped("coupe");
        Pack pack = new Pack(vehicle, 25);
        double polarOhm = 96 * vehicle.get(CarParameter.CELLS_POLAR_MOHM) / 1000;
        double tauS = vehicle.get(CarParameter.CELLS_POLAR_S);
        for (int i = 0; i < 30_000; i++) {
            pack.draw(0.1, 10, 0.001);
        }
        assertEquals(100 * polarOhm * (1 - Math.exp(-30 / tauS)), pack.polarV, 1e-6);
        assertEquals(pack.storedOutJ - pack.lossJ - pack.polarStoredJ, pack.terminalOutJ, 1e-6);
        double seriesJ = 100 * 100 * 96 * vehicle.get(CarParameter.CELLS_RESISTANCE_MOHM) / 1000 * 30;
        double polarJ = 100 * 100 * polarOhm * (30 - tauS * (1 - Math.exp(-30 / tauS)));
        double storedJ = tauS * 100 * 100 * polarOhm * Math.pow(1 - Math.exp(-30 / tauS), 2) / 2;
        assertEquals(storedJ, pack.polarStoredJ, 1e-3 * storedJ);
        assertEquals(seriesJ + polarJ - storedJ, pack.lossJ, 1e-3 * pack.lossJ);
    }

    /** Heat only grows: what the slow part gives back after the current has turned is no cold. */
    @Test
    void currentReversed_heat_neverFalls() {
        Pack pack = new Pack(Driven.shipped("parcel-van"), 5);
        double before = 0;
        for (int i = 0; i < 400_000; i++) {
            double currentA = i / 50_000 % 2 == 0 ? 200 : -20;
            pack.draw(currentA * 0.001, currentA * currentA * 0.001, 0.001);
            assertTrue(pack.lossJ > before, "at " + i + " ms");
            before = pack.lossJ;
            if (i % 100 == 0) {
                pack.tempC += 0.01;
                pack.heat();
            }
        }
        assertEquals(pack.storedOutJ - pack.lossJ - pack.polarStoredJ, pack.terminalOutJ, 1e-3);
    }

    /** Points of the published measurement, C/32. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"0, 2.0102", "0.0885, 3.1942", "0.2972, 3.2772", "0.9833, 3.3511", "0.9950, 3.4180", "1, 3.5981"})
    void phosphateCell_atRest_asMeasured(double soc, double volts) {
        assertEquals(volts, CellCurve.of("lfp").volts(soc), 2e-3);
    }

    @Test
    void coldPack_resistance_growsAndWarmDoesNot() {
        Vehicle vehicle = Driven.shipped("parcel-van");
        Pack pack = new Pack(vehicle, 25);
        double soundOhm = pack.seriesOhm;
        assertEquals(30 * 0.45e-3, soundOhm, 1e-12);
        pack.tempC = 5;
        pack.heat();
        assertEquals(soundOhm * 1.4 * 1.4, pack.seriesOhm, 1e-9, "1.4 for each 10 K below 25 C");
        pack.tempC = 40;
        pack.heat();
        assertEquals(soundOhm, pack.seriesOhm, 1e-12);
    }
}
