package sprag.bench.charge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.State;

/** Whole charges of the shipped vehicles: energy, limits, and what the gauge says about them. */
@Execution(ExecutionMode.CONCURRENT)
class ChargeDayTest {
    /** Charges until the charge is finished, or fails. */
    private static void chargeToTheEnd(ClosedCar run, double withinS) {
        run.set(Lever.PLUG, 1);
        double untilS = run.nowS() + withinS;
        run.runS(60);
        while (run.supervisor.state().charge() != ChargePhase.FINISHED) {
            assertTrue(
                    run.nowS() < untilS,
                    () -> "still " + run.state() + "/" + run.supervisor.state().charge() + " at soc "
                            + run.truth(Quantity.SOC));
            run.runS(10);
        }
    }

    /** One charge carries three checks. The scenario of a whole night begins with less in the pack. */
    @Test
    void wholeCharge_ofTheVan_energyCloses_noLimitIsPassed_andItStaysFinished() {
        wholeCharge("parcel-van");
    }

    @Tag("long")
    @ParameterizedTest
    @ValueSource(strings = {"coupe", "yard-cart"})
    void wholeCharge_energyCloses_noLimitIsPassed_andItStaysFinished(String name) {
        wholeCharge(name);
    }

    private static void wholeCharge(String name) {
        ClosedCar run = ClosedCar.of(name, 1, 0.6);
        Absolutes seen = new Absolutes(run);
        double[] most = new double[3];
        List<String> wrong = new ArrayList<>();
        int[] ticks = new int[1];
        run.watch = () -> {
            seen.look();
            most[0] = Math.max(most[0], run.truth(Quantity.PACK_VOLTAGE_V));
            most[1] = Math.max(most[1], -run.truth(Quantity.PACK_CURRENT_A));
            most[2] = Math.max(most[2], run.truth(Quantity.AC_CURRENT_A) - run.truth(Quantity.CABLE_LIMIT_A));
            if (ticks[0]++ % 500 == 50) {
                look(run, wrong);
            }
        };
        chargeToTheEnd(run, 10 * 3600);
        assertEnergyCloses(run);
        assertEquals(List.of(), seen.broken);
        assertEquals(List.of(), wrong);
        double mostV = run.vehicle.get(Parameter.CHARGE_VOLTAGE_V) + run.vehicle.get(Parameter.CHARGE_OVER_V);
        assertTrue(most[0] <= mostV, most[0] + " V of " + mostV);
        assertTrue(most[1] <= run.vehicle.get(Parameter.CHARGE_CURRENT_A) * 1.02, most[1] + " A");
        assertTrue(most[2] <= 0.5, most[2] + " A more than the cable and the station allow");
        run.runS(1800);
        assertEquals(ChargePhase.FINISHED, run.supervisor.state().charge());
        assertTrue(run.truth(Quantity.LV_VOLTAGE_V) > run.vehicle.get(Parameter.LV_LOW_V));
    }

    private static void assertEnergyCloses(ClosedCar run) {
        double taken = run.truth(Quantity.AC_ENERGY_J);
        double found = -run.truth(Quantity.PACK_STORED_OUT_J)
                + run.truth(Quantity.PACK_LOSS_J)
                + run.truth(Quantity.PACK_SLOW_J)
                + run.truth(Quantity.BUS_LOAD_ENERGY_J)
                + run.truth(Quantity.CHARGER_LOSS_J)
                + run.truth(Quantity.BOX_LOSS_J)
                + run.truth(Quantity.RESISTOR_ENERGY_J)
                + run.truth(Quantity.BLEED_ENERGY_J)
                + run.truth(Quantity.BUS_STORED_J);
        assertTrue(run.truth(Quantity.SOC) > 0.9, "full: " + run.truth(Quantity.SOC));
        assertEquals(taken, found, 0.005 * taken);
    }

    /** Charge, drive, rest, charge: the gauge's own error band holds the truth at every look. */
    @Tag("long")
    @ParameterizedTest(name = "{0} from {1}")
    @CsvSource({"parcel-van, 0.75", "coupe, 0.7", "yard-cart, 0.8"})
    void chargeDriveCharge_truthStaysWithinTheGaugesUncertainty(String name, double soc) {
        ClosedCar run = ClosedCar.of(name, 4, soc);
        List<String> wrong = new ArrayList<>();
        int[] ticks = new int[1];
        run.watch = () -> {
            if (ticks[0]++ % 500 == 50) {
                look(run, wrong);
            }
        };
        chargeToTheEnd(run, 8 * 3600);
        double sureAtTheTop = run.supervisor.conditioned().stateOfChargeUncertainty;
        run.set(Lever.PLUG, 0).runS(20);
        drive(run);
        run.runS(2000);
        chargeToTheEnd(run, 8 * 3600);
        assertEquals(List.of(), wrong);
        assertTrue(sureAtTheTop <= 0.05, "at the end of a charge the gauge is sure: " + sureAtTheTop);
    }

    private static void drive(ClosedCar run) {
        run.set(Lever.KEY, 1).set(Lever.BRAKE, 0.3).set(Lever.DIRECTION, 1).runS(0.5);
        run.set(Lever.START, 1).runS(0.3).set(Lever.START, 0).runS(5);
        assertEquals(State.DRIVE_ENABLE, run.state());
        for (int lap = 0; lap < 40; lap++) {
            run.set(Lever.BRAKE, 0).set(Lever.PEDAL, 0.8).runS(20);
            run.set(Lever.PEDAL, 0).runS(5);
            run.set(Lever.BRAKE, 0.3).runS(5);
        }
        run.runS(10).set(Lever.KEY, 0).set(Lever.DIRECTION, 0).runS(30);
        assertEquals(State.OFF, run.state());
    }

    private static void look(ClosedCar run, List<String> wrong) {
        double told = run.supervisor.conditioned().stateOfCharge;
        double band = run.supervisor.conditioned().stateOfChargeUncertainty;
        double truth = run.truth(Quantity.SOC);
        if (!(Math.abs(told - truth) <= band) && wrong.size() < 3) {
            wrong.add("at " + run.nowS() + " s: told " + told + " within " + band + ", true is " + truth);
        }
    }
}
