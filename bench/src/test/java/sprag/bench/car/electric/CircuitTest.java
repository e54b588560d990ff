package sprag.bench.car.electric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.hipparchus.ode.ExpandableODE;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.car.simulation.Driven;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/** The bus against closed forms, published examples and an independent integrator. */
class CircuitTest {
    private static final double MS = 0.001;

    /** A box and a bus with values of one's own, on a source without resistance. */
    private static final class Rig {
        final Pack pack;
        final Circuit circuit;
        final Contactor negative;
        final Contactor precharge;
        final Contactor positive;

        Rig(double sourceV, double resistanceOhm, double capacitanceF, double bleedOhm) {
            Vehicle vehicle = Driven.shipped("coupe")
                    .with(CarParameter.PARTS_PRECHARGE_OHM, resistanceOhm)
                    .with(CarParameter.PARTS_CAPACITANCE_UF, capacitanceF * 1e6)
                    .with(CarParameter.PARTS_BLEED_OHM, bleedOhm)
                    .with(CarParameter.BOX_CONTACT_MOHM, 0.01);
            pack = new Pack(vehicle, 25);
            pack.ocvV = sourceV;
            pack.seriesOhm = 0;
            circuit = new Circuit(vehicle, sourceV);
            circuit.refresh(new Faults());
            negative = Contactor.negative(vehicle);
            precharge = Contactor.precharge(vehicle);
            positive = Contactor.positive(vehicle);
        }

        Rig contacts(boolean minus, boolean pre, boolean plus) {
            negative.closed = minus;
            precharge.closed = pre;
            positive.closed = plus;
            circuit.connect(negative, precharge, positive, pack);
            return this;
        }

        Rig steps(int count, double dtS) {
            for (int i = 0; i < count; i++) {
                double heldV = pack.ocvV - pack.polarV;
                circuit.step(dtS, pack);
                pack.ocvV = heldV + pack.polarV;
            }
            return this;
        }
    }

    private static final double NO_BLEED_OHM = 1e7;

    @Nested
    class Precharge {
        /**
         * Times: t = -RC ln(1 - q), as in the precharge calculator of Sensata (www.sensata.com/calculator/precharge). The
         * bleed and contact resistances of the rig shift the bus by less than 2e-5.
         */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SOURCE_V | OHM | MF | AT_S   | FRACTION | BECAUSE
            400      | 100 | 1  | .16094 | 0.80     | 1.6094 time constants
            400      | 100 | 1  | .23026 | 0.90     | 2.3026 time constants
            400      | 100 | 1  | .29957 | 0.95     | 2.9957 time constants
            400      | 100 | 1  | .39120 | 0.98     | 3.9120 time constants
            400      | 100 | 1  | .46052 | 0.99     | 4.6052 time constants
            800      | 47  | 1  | .07564 | 0.80     | 1.6094 time constants
            800      | 47  | 1  | .10822 | 0.90     | 2.3026 time constants
            800      | 47  | 1  | .14080 | 0.95     | 2.9957 time constants
            800      | 47  | 1  | .18387 | 0.98     | 3.9120 time constants
            800      | 47  | 1  | .21644 | 0.99     | 4.6052 time constants
            """)
        void throughResistor_afterItsTime_busStandsAtFraction(
                double sourceV, double ohm, double mF, double atS, double fraction, String because) {
            Rig rig = new Rig(sourceV, ohm, mF / 1000, NO_BLEED_OHM).contacts(true, true, false);
            int whole = (int) (atS / MS);
            rig.steps(whole, MS).steps(1, atS - whole * MS);
            assertEquals(fraction, rig.circuit.busV / sourceV, 5e-5, because);
        }

        /** The example of a resistor maker (resistor-factory.com, RC time constant): 800 V, 47 ohm, 1000 uF. */
        @Test
        void makersExample_charged_peakCurrentAndEnergyAsPrinted() {
            Rig rig = new Rig(800, 47, 0.001, NO_BLEED_OHM)
                    .contacts(true, true, false)
                    .steps(1000, MS);
            assertEquals(17.0, rig.circuit.box.peakA, 0.05, "peak current");
            assertEquals(13_617, rig.circuit.box.peakA * rig.circuit.box.peakA * 47, 0.5, "peak power");
            assertEquals(320.0, rig.circuit.box.resistorJ, 0.05, "energy in the resistor");
            assertEquals(320.0, rig.circuit.storedJ(), 0.05, "energy in the capacitor");
        }

        /** Energy up to a fraction q is E (1 - (1 - q)^2): 79.80 J of 80 J at 95 %. */
        @Test
        void ninetyFivePercent_reached_resistorTookItsShare() {
            Rig rig = new Rig(400, 100, 0.001, NO_BLEED_OHM).contacts(true, true, false);
            rig.steps(299, MS).steps(1, 0.29957 - 0.299);
            assertEquals(79.80, rig.circuit.box.resistorJ, 0.005);
        }

        @Test
        void oneLongStep_orTenShort_sameBus() {
            Rig slow =
                    new Rig(400, 100, 0.001, 5000).contacts(true, true, false).steps(30, MS);
            Rig fast =
                    new Rig(400, 100, 0.001, 5000).contacts(true, true, false).steps(3, 10 * MS);
            assertEquals(slow.circuit.busV, fast.circuit.busV, 1e-9);
            assertEquals(slow.circuit.box.resistorJ, fast.circuit.box.resistorJ, 1e-9);
            assertEquals(slow.circuit.bleedJ, fast.circuit.bleedJ, 1e-9);
        }

        @Test
        void closedAtFraction_mainContactor_inrushIsHalfCDeltaVSquared() {
            Rig rig = new Rig(400, 100, 0.001, NO_BLEED_OHM).contacts(true, true, false);
            rig.steps(299, MS).steps(1, 0.29957 - 0.299).contacts(true, true, true);
            assertEquals(0.001 * 20 * 20 / 2, rig.circuit.box.inrushJ, 0.001, "95 % leaves a step of 20 V");
        }

        @Test
        void missingCapacitor_precharged_busIsThereAtOnce() {
            Rig rig = new Rig(400, 100, 0.001, NO_BLEED_OHM);
            Faults faults = new Faults();
            faults.inject(FaultSpec.of(PartFault.BUS_CAPACITOR_MISSING));
            rig.circuit.refresh(faults);
            rig.contacts(true, true, false).steps(5, MS);
            assertTrue(rig.circuit.busV > 0.99 * 400, rig.circuit.busV + " V after 5 ms");
        }

        @Test
        void shortedBus_precharged_stallsAtTheDivider() {
            Rig rig = new Rig(400, 100, 0.001, NO_BLEED_OHM);
            Faults faults = new Faults();
            faults.inject(FaultSpec.of(PartFault.BUS_SHORTED));
            rig.circuit.refresh(faults);
            rig.contacts(true, true, false).steps(500, MS);
            assertEquals(400 * 0.5 / 100.5, rig.circuit.busV, 1e-3);
            assertEquals(400.0 * 400 / 100, rig.circuit.box.resistorJ / 0.5, 40, "1.6 kW into the resistor");
        }
    }

    /** Passive discharge t = RC ln(V0/60), the arithmetic behind the usual 5 s to 60 V. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        START_V | MF | OHM  | TO_60_V_S | BECAUSE
        400     | 1  | 1000 | 1.8971    | well inside 5 s
        400     | 1  | 2000 | 3.7942    | inside 5 s
        800     | 1  | 1500 | 3.8854    | inside 5 s
        """)
    void openBus_bleeding_reachesSixtyVolts(double startV, double mF, double ohm, double atS, String because) {
        Rig rig = new Rig(startV, 100, mF / 1000, ohm);
        rig.circuit.busV = startV;
        int whole = (int) (atS / MS);
        rig.steps(whole, MS).steps(1, atS - whole * MS);
        assertEquals(60, rig.circuit.busV, 0.005, because);
    }

    /** 400 exp(-0.5) after one second with 1 mF and 2 kohm; a welded pole would hold it at 400 V. */
    @Test
    void openedBus_oneSecondLater_hasDecayedAndAWeldedOneHasNot() {
        Rig sound = new Rig(400, 100, 0.001, 2000).contacts(true, true, true).steps(100, MS);
        sound.contacts(false, false, false).steps(1000, MS);
        assertEquals(242.61, sound.circuit.busV, 0.01);
        Rig welded = new Rig(400, 100, 0.001, 2000).contacts(true, true, true).steps(1100, MS);
        assertEquals(400, welded.circuit.busV, 0.01);
    }

    /** A bus with a load of constant power: C dV/dt = (E - V)/R - V/Rb - P/V, by an eighth-order integrator at 1e-10. */
    private static double reference(double[] eRcRbP, double startV, double forS) {
        OrdinaryDifferentialEquation bus = new OrdinaryDifferentialEquation() {
            @Override
            public int getDimension() {
                return 1;
            }

            @Override
            public double[] computeDerivatives(double t, double[] v) {
                double sourceA = eRcRbP[1] == 0 ? 0 : (eRcRbP[0] - v[0]) / eRcRbP[1];
                return new double[] {(sourceA - v[0] / eRcRbP[3] - eRcRbP[4] / v[0]) / eRcRbP[2]};
            }
        };
        var integrator = new DormandPrince853Integrator(1e-12, 0.01, 1e-10, 1e-10);
        return integrator.integrate(new ExpandableODE(bus), new ODEState(0, new double[] {startV}), forS)
                .getPrimaryState()[0];
    }

    @Nested
    class AgainstAnIntegrator {
        @Test
        void constantPowerWhilePrecharging_everyTenMs_withinHalfAPercent() {
            Rig rig = new Rig(400, 100, 0.001, 8200);
            rig.circuit.busV = 250;
            rig.circuit.loads.otherW = 150;
            rig.contacts(true, true, false);
            for (int ms = 10; ms <= 600; ms += 10) {
                rig.steps(10, MS);
                double expected = reference(new double[] {400, 100.00002, 0.001, 8200, 150}, 250, ms * MS);
                assertEquals(expected, rig.circuit.busV, 0.005 * expected, "after " + ms + " ms");
            }
        }

        @Test
        void constantPowerOnAnOpenBus_untilItIsEmpty_exact() {
            Rig rig = new Rig(400, 100, 0.001, NO_BLEED_OHM);
            rig.circuit.busV = 400;
            rig.circuit.loads.inverterW = 5000;
            rig.steps(15, MS);
            double expected = reference(new double[] {0, 0, 0.001, NO_BLEED_OHM, 5000}, 400, 0.015);
            assertEquals(expected, rig.circuit.busV, 1e-3);
            rig.steps(5, MS);
            assertEquals(0, rig.circuit.busV, "80 J last 16 ms at 5 kW");
            assertEquals(80, rig.circuit.loads.inverterJ, 1e-2, "no more than there was");
        }

        @Test
        void heldBus_stepOfPower_settlesWhereTheIntegratorSays() {
            Rig rig = new Rig(350, 100, 0.0007, 8200);
            rig.pack.seriesOhm = 0.06;
            rig.contacts(true, false, true).steps(5, MS);
            rig.circuit.loads.inverterW = 60_000;
            rig.steps(5, MS);
            double expected = reference(new double[] {350, 0.06002, 0.0007, 8200, 60_000}, 350, 0.005);
            assertEquals(expected, rig.circuit.busV, 0.05);
        }
    }

    @Test
    void spinningMotor_openBus_chargesToItsOwnVoltageAndNoFurther() {
        Rig rig = new Rig(350, 100, 0.0007, 8200);
        rig.circuit.emfV = 420;
        rig.steps(2000, MS);
        double divider = 420 * 8200 / (8200 + 0.6);
        assertEquals(divider, rig.circuit.busV, 0.01);
        assertTrue(rig.circuit.loads.inverterJ < 0, "the motor gave to the bus");
    }

    @Test
    void shortBehindTheContactors_fuseBlowsAndTheBusDies() {
        Rig rig = new Rig(350, 100, 0.0007, 8200);
        rig.pack.seriesOhm = 0.06;
        Faults faults = new Faults();
        faults.inject(FaultSpec.of(PartFault.BUS_SHORTED));
        rig.circuit.refresh(faults);
        rig.contacts(true, false, true);
        int ms = 0;
        while (!rig.circuit.box.fuseBlown() && ms < 5000) {
            rig.steps(1, MS);
            ms++;
        }
        double shortA = 350 / 0.56;
        double meltS = 3 * 350.0 * 350 * 2 / (shortA * shortA - 350 * 350);
        assertEquals(
                meltS, ms * MS, 0.02, "melts when the square above the rating has lasted as long as the file says");
        rig.contacts(true, false, true).steps(100, MS);
        assertTrue(rig.circuit.busV < 1, "dead behind the fuse");
    }

    @Test
    void openedUnderLoad_arcIsCounted_openedCold_not() {
        Rig hot = new Rig(350, 100, 0.0007, 8200);
        hot.pack.seriesOhm = 0.06;
        hot.contacts(true, false, true).steps(5, MS);
        hot.circuit.loads.inverterW = 35_000;
        hot.steps(5, MS).contacts(true, false, false);
        assertEquals(100 * 344 * 0.004 / 2, hot.circuit.box.arcJ, 3, "half of voltage, current and time");
        Rig cold = new Rig(350, 100, 0.0007, 8200).contacts(true, false, true).steps(5, MS);
        cold.contacts(true, false, false);
        assertEquals(0, cold.circuit.box.arcJ);
    }

    /** By hand: 385 of 400 V, so 15 V stand across the gap; with 50 mOhm of the pack 15 V make some 300 A, and a third of that after 0.1 ms. */
    @Test
    void bounceWithTheResistorBeside_burnsWithWhatStandsAcrossIt() {
        Rig rig = new Rig(400, 100, 0.002, 1e7);
        rig.pack.seriesOhm = 0.05;
        rig.contacts(true, true, false);
        rig.circuit.busV = 385;
        rig.contacts(true, true, true).steps(1, MS / 10);
        double flowedA = rig.circuit.box.nowA;
        double acrossV = rig.pack.sourceV() - rig.circuit.busV;
        assertTrue(flowedA > 100, flowedA + " A still flow");
        rig.contacts(true, true, false);
        assertEquals(flowedA * acrossV * 0.004 / 2, rig.circuit.box.arcJ, 0.01);
        Rig alone = new Rig(400, 100, 0.002, 1e7);
        alone.pack.seriesOhm = 0.05;
        alone.contacts(true, false, false);
        alone.circuit.busV = 385;
        alone.contacts(true, false, true).steps(1, MS / 10).contacts(true, false, false);
        assertTrue(alone.circuit.box.arcJ > 10 * rig.circuit.box.arcJ, "without the resistor the whole pack feeds it");
    }
}
