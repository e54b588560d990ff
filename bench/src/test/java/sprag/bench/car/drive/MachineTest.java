package sprag.bench.car.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.car.simulation.Driven;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/** Torque, envelope, losses and trips of inverter and motor. */
class MachineTest {
    private static final Vehicle COUPE = Driven.shipped("coupe").with(CarParameter.MACHINE_LAG_MS, 20);
    private static final double BUS_V = 360;

    private final Machine machine = new Machine(COUPE);

    @BeforeEach
    void awake() {
        machine.enabled = true;
        for (int i = 0; i < 200; i++) {
            machine.watch(BUS_V, 1);
        }
    }

    private void followMs(int ms, double busV, double radps) {
        for (int i = 0; i < ms; i++) {
            machine.follow(busV, radps, 1);
        }
    }

    /** A first-order lag is at 63.2 % after one time constant and 86.5 % after two. */
    @Test
    void step_ofRequest_followsAFirstOrderLag() {
        machine.requestNm = 100;
        followMs(20, BUS_V, 10);
        assertEquals(63.212, machine.torqueNm, 1e-3);
        followMs(20, BUS_V, 10);
        assertEquals(86.466, machine.torqueNm, 1e-3);
    }

    /** With no torque asked for, the shaft turns iron and air, and the bus gives no more than the inverter's own supply. */
    @Test
    void noTorque_spinning_busGivesTheIdlePowerOnly_andTheShaftTheRest() {
        double radps = 400;
        double idleW = COUPE.get(CarParameter.MACHINE_IDLE_W);
        assertEquals(idleW, machine.powerW(radps, 1), 1e-9);
        assertEquals(machine.motorLossJ, -machine.dragNm(radps) * radps, 1e-6);
        assertTrue(machine.motorLossJ > 0);
        machine.requestNm = 100;
        followMs(1, BUS_V, radps);
        assertEquals(0, machine.dragNm(radps), "with torque the inverter gives all of it");
        assertTrue(machine.powerW(radps, 1) > machine.torqueNm * radps + idleW);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        ASKED | BUS_V | RADPS | NM    | BECAUSE
        220   | 360   | 100   | 220   | inside torque and power
        300   | 360   | 100   | 220   | the torque limit
        -300  | 360   | 100   | -220  | the torque limit holds for regeneration too
        220   | 360   | 1000  | 100   | 100 kW at 1000 rad/s
        220   | 360   | -1000 | 100   | backwards as well
        220   | 315   | 1000  | 90    | the bus at 90 % of its nominal 350 V gives 90 % of the power
        """)
    void asked_inEnvelope(double asked, double busV, double radps, double nm, String because) {
        machine.requestNm = asked;
        followMs(1000, busV, radps);
        assertEquals(nm, machine.torqueNm, 1e-6, because);
    }

    @Test
    void notEnabled_torque_goesAtOnceAndMagnetsDrag() {
        machine.requestNm = 100;
        followMs(100, BUS_V, 500);
        machine.enabled = false;
        machine.watch(BUS_V, 1);
        machine.follow(BUS_V, 500, 1);
        assertEquals(0, machine.torqueNm);
        double krpm = 500 * 60 / (2 * Math.PI) / 1000;
        double dragW = 120 * krpm + 0.45 * krpm * krpm * krpm;
        assertEquals(-dragW / 500, machine.dragNm(500), 1e-9, "iron and windage of a turning magnet");
        assertEquals(dragW / 500, machine.dragNm(-500), 1e-9, "against the motion, whichever way");
    }

    @Test
    void switching_power_isWorkPlusEveryLoss() {
        machine.requestNm = 100;
        followMs(1000, BUS_V, 500);
        double krpm = 500 * 60 / (2 * Math.PI) / 1000;
        double lossW = 0.16 * 100 * 100 + 120 * krpm + 0.45 * krpm * krpm * krpm + 120;
        assertEquals(50_000 + lossW, machine.powerW(500, 0.001), 1e-3);
        assertEquals(lossW * 0.001, machine.inverterLossJ + machine.motorLossJ, 1e-9);
    }

    @Test
    void busAboveTrip_inverterStopsAndSaysSo_untilEnabledAnew() {
        machine.requestNm = 50;
        machine.watch(455.1, 1);
        assertFalse(machine.ready);
        assertTrue(machine.reportsFault());
        machine.watch(BUS_V, 1);
        assertTrue(machine.reportsFault(), "stays until the enable goes");
        machine.enabled = false;
        machine.watch(BUS_V, 1);
        assertFalse(machine.reportsFault());
    }

    @Test
    void busBelowLeast_inverterSleeps_andWakesAfterItsTime() {
        machine.watch(199.9, 1);
        assertFalse(machine.ready);
        machine.watch(200, 99);
        assertFalse(machine.ready, "99 of 100 ms");
        machine.watch(200, 1);
        assertTrue(machine.ready);
    }

    @Test
    void runsOn_requestAndEnableGone_torqueStays() {
        machine.requestNm = 80;
        followMs(1000, BUS_V, 100);
        Faults faults = new Faults();
        faults.inject(FaultSpec.of(PartFault.INVERTER_RUNS_ON));
        machine.refresh(faults);
        machine.requestNm = 0;
        machine.enabled = false;
        machine.watch(BUS_V, 1);
        followMs(1000, BUS_V, 100);
        assertEquals(80, machine.torqueNm, 1e-6);
        machine.watch(100, 1);
        followMs(1, 100, 100);
        assertEquals(0, machine.torqueNm, "without a bus there is no torque");
    }

    @Test
    void spinning_emf_growsWithSpeedAndFlux() {
        double radps = 10_000 * 2 * Math.PI / 60;
        assertEquals(360, machine.emfV(radps), 1e-9, "36 V per 1000 rpm");
        assertEquals(360, machine.emfV(-radps), 1e-9);
        Faults faults = new Faults();
        faults.inject(FaultSpec.of(PartFault.MOTOR_DEMAGNETISED));
        machine.refresh(faults);
        assertEquals(180, machine.emfV(radps), 1e-9);
    }
}
