package sprag.bench.car.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.hipparchus.ode.ExpandableODE;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.car.simulation.Driven;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/** Road load against published numbers, motion against an integrator, standstill against creeping. */
class RoadTest {
    private static final double MS = 0.001;

    /** The four-wheeler of the NPTEL course on electric vehicles, week 2: 1500 kg, Cd 0.3, 2.5 m2, rolling 0.015. */
    private static Vehicle courseCar() {
        return Driven.shipped("coupe")
                .with(CarParameter.BODY_MASS_KG, 1500)
                .with(CarParameter.BODY_DRAG_AREA_M2, 0.3 * 2.5)
                .with(CarParameter.BODY_ROLLING, 0.015)
                .with(CarParameter.BODY_AIR_KG_PER_M3, 1.2);
    }

    private static final double EIGHT_DEGREES = 100 * Math.tan(Math.toRadians(8));

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        KPH | UPHILL | NEWTON  | BECAUSE
        30  | false  | 251.98  | 31.25 aero and 220.73 rolling on the flat
        80  | false  | 442.95  | 222.22 aero and 220.73 rolling on the flat
        80  | true   | 2488.73 | 222.22 aero, 218.58 rolling and 2047.93 slope at 8 degrees
        0   | true   | 2047.93 | the slope alone
        """)
    void courseExample_resistance_asPublished(double kph, boolean uphill, double newton, String because) {
        Road road = new Road(courseCar());
        road.set(uphill ? EIGHT_DEGREES : 0, 0);
        assertEquals(newton, road.resistanceN(kph / 3.6), 0.01, because);
    }

    @Test
    void coastDown_fromHundredToThirty_asTheIntegratorSays() {
        Vehicle vehicle = courseCar();
        Road road = new Road(vehicle);
        road.speedMps = 100 / 3.6;
        double inertia = 1500 * (1 + vehicle.get(CarParameter.BODY_ROTATING_SHARE));
        OrdinaryDifferentialEquation coasting = new OrdinaryDifferentialEquation() {
            @Override
            public int getDimension() {
                return 2;
            }

            @Override
            public double[] computeDerivatives(double t, double[] y) {
                double force = 1.2 / 2 * 0.75 * y[0] * y[0] + 0.015 * 1500 * 9.81;
                return new double[] {-force / inertia, y[0]};
            }
        };
        var integrator = new DormandPrince853Integrator(1e-6, 1, 1e-10, 1e-10);
        double[] reference = integrator
                .integrate(new ExpandableODE(coasting), new ODEState(0, new double[] {100 / 3.6, 0}), 60)
                .getPrimaryState();
        for (int i = 0; i < 60_000; i++) {
            road.step(0, MS);
        }
        assertEquals(reference[0], road.speedMps, 1e-4 * reference[0]);
        assertEquals(reference[1], road.distanceM, 1e-4 * reference[1]);
    }

    @Test
    void brakingToAStop_onTheFlat_standsExactlyAndStays() {
        Road road = new Road(courseCar());
        road.speedMps = 10;
        road.set(0, 0.5);
        for (int i = 0; i < 10_000; i++) {
            road.step(0, MS);
        }
        assertEquals(0, road.speedMps);
        double stoppedM = road.distanceM;
        for (int i = 0; i < 10_000; i++) {
            road.step(0, MS);
        }
        assertEquals(stoppedM, road.distanceM, "no creeping");
        assertTrue(road.isHeld());
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        GRADE | BRAKE | MOVES | BECAUSE
        1.4   | 0     | 0     | rolling resistance of 1.5 % holds it
        1.6   | 0     | -1    | the slope is steeper than rolling resistance
        -1.6  | 0     | 1     | downhill it rolls forward
        10    | 0.3   | 0     | the brake holds it
        """)
    void standingOnAHill_released_rollsOnlyWhenItMust(double grade, double brake, double moves, String because) {
        Road road = new Road(courseCar());
        road.set(grade, brake);
        for (int i = 0; i < 2000; i++) {
            road.step(0, MS);
        }
        assertEquals(moves, Math.signum(road.speedMps), because);
    }

    @Test
    void upAndDownAHill_energy_closes() {
        Road road = new Road(courseCar());
        double torqueNm = 90;
        for (int i = 0; i < 60_000; i++) {
            if (i % 10_000 == 0) {
                road.set(i % 20_000 == 0 ? 3 : -4, i == 50_000 ? 0.2 : 0);
                torqueNm = i == 50_000 ? 0 : i % 20_000 == 0 ? 90 : -30;
            }
            road.step(torqueNm, MS);
        }
        double found = road.gearLossJ + road.rollingJ + road.dragJ + road.brakeJ + road.kineticJ() + road.potentialJ();
        assertEquals(road.shaftJ, found, 1e-4 * road.rollingJ);
    }
}
