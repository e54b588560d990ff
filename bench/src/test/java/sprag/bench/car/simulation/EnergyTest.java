package sprag.bench.car.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;

/** Energy is neither made nor lost: drives and charges of whole cars. Each loss is booked by its own law. */
class EnergyTest {
    private static final double CLOSES_TO = 0.005;
    private static final double LONG_STEPS = 5e-4;

    private static double losses(Driven car) {
        return car.truth(Quantity.PACK_LOSS_J)
                + car.truth(Quantity.PACK_SLOW_J)
                + car.truth(Quantity.BOX_LOSS_J)
                + car.truth(Quantity.RESISTOR_ENERGY_J)
                + car.truth(Quantity.BLEED_ENERGY_J)
                + car.truth(Quantity.BUS_LOAD_ENERGY_J)
                + car.truth(Quantity.INVERTER_LOSS_J)
                + car.truth(Quantity.MOTOR_LOSS_J)
                + car.truth(Quantity.GEAR_LOSS_J)
                + car.truth(Quantity.ROLLING_LOSS_J)
                + car.truth(Quantity.DRAG_LOSS_J)
                + car.truth(Quantity.BRAKE_HEAT_J);
    }

    private static double stored(Driven car) {
        return car.truth(Quantity.KINETIC_J) + car.truth(Quantity.POTENTIAL_J) + car.truth(Quantity.BUS_STORED_J);
    }

    /** Full torque, a hill, regeneration, the brake, a stop: everything that takes and gives. */
    private static void drive(Driven car) {
        double fullNm = car.vehicle.get(Parameter.DRIVE_TORQUE_NM);
        double regenNm = car.vehicle.get(Parameter.REGEN_TORQUE_NM);
        car.connect().enable().on(Output.DCDC_ENABLE);
        for (int lap = 0; lap < 4; lap++) {
            car.set(Lever.GRADE_PERCENT, lap % 2 == 0 ? 4 : -3).set(Lever.BRAKE, 0);
            car.set(Output.TORQUE_REQUEST_NM, 0.8 * fullNm).runS(8);
            car.set(Output.TORQUE_REQUEST_NM, 0.1 * fullNm).runS(10);
            car.set(Output.TORQUE_REQUEST_NM, -0.8 * regenNm).runS(3);
            car.set(Output.TORQUE_REQUEST_NM, 0).set(Lever.BRAKE, 0.4).runS(10);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void driven_energyOutOfTheCells_isLossesPlusWhatIsStored(String name) {
        Driven car = Driven.of(name);
        drive(car);
        double out = car.truth(Quantity.PACK_STORED_OUT_J);
        assertTrue(car.truth(Quantity.DISTANCE_M) > 200, "it drove " + car.truth(Quantity.DISTANCE_M) + " m");
        assertEquals(out, losses(car) + stored(car), CLOSES_TO * out);
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void driven_everyLink_closesByItself(String name) {
        Driven car = Driven.of(name);
        drive(car);
        double inverter = car.truth(Quantity.INVERTER_ENERGY_J);
        double machine = car.truth(Quantity.INVERTER_LOSS_J) + car.truth(Quantity.MOTOR_LOSS_J);
        double work = car.truth(Quantity.MOTOR_WORK_J);
        assertEquals(inverter, machine + work, CLOSES_TO * inverter, "inverter and motor");
        double onBus = inverter
                + car.truth(Quantity.BUS_LOAD_ENERGY_J)
                + car.truth(Quantity.BLEED_ENERGY_J)
                + car.truth(Quantity.BUS_STORED_J)
                + car.truth(Quantity.RESISTOR_ENERGY_J)
                + car.truth(Quantity.BOX_LOSS_J);
        double out = car.truth(Quantity.PACK_ENERGY_OUT_J);
        assertEquals(out, onBus, 1e-6 * out, "pack terminals and bus");
    }

    @Test
    void magnetsSpinning_contactorsOpened_busEnergyComesFromTheMotion() {
        Driven coupe = Driven.of("coupe").connect().enable();
        coupe.set(Lever.SPEED_KPH, 150).runS(0.1);
        double before = coupe.truth(Quantity.KINETIC_J);
        coupe.off(Output.INVERTER_ENABLE, Output.POSITIVE_CONTACTOR, Output.NEGATIVE_CONTACTOR);
        double lossesBefore = losses(coupe);
        double storedBefore = coupe.truth(Quantity.BUS_STORED_J);
        coupe.runS(5);
        double found = losses(coupe) - lossesBefore + coupe.truth(Quantity.BUS_STORED_J) - storedBefore;
        double lost = before - coupe.truth(Quantity.KINETIC_J);
        assertTrue(coupe.truth(Quantity.BUS_VOLTAGE_V) > 300, "held up by the motor");
        assertEquals(lost, found, CLOSES_TO * lost);
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void charged_energyFromTheStation_isLossesPlusWhatTheCellsTook(String name) {
        Driven car = Driven.of(name).set(Lever.SOC, 0.3).set(Lever.PLUG, 1).runS(2);
        if (car.vehicle.is(Parameter.CHARGER_SIDE, "bus-side")) {
            car.connect();
        }
        double outBefore = car.truth(Quantity.PACK_STORED_OUT_J);
        double lossesBefore = losses(car);
        double storedBefore = car.truth(Quantity.BUS_STORED_J);
        car.on(Output.DCDC_ENABLE).charge().runS(3600);
        double took = outBefore - car.truth(Quantity.PACK_STORED_OUT_J);
        double ac = car.truth(Quantity.AC_ENERGY_J);
        double lost = losses(car) - lossesBefore + car.truth(Quantity.CHARGER_LOSS_J);
        assertTrue(took > 0.5 * ac, "the cells took " + took + " J of " + ac);
        assertEquals(ac, took + lost + car.truth(Quantity.BUS_STORED_J) - storedBefore, CLOSES_TO * ac);
        double dc = car.truth(Quantity.CHARGER_ENERGY_J);
        assertEquals(car.vehicle.get(Parameter.CHARGER_EFFICIENCY), dc / ac, 1e-9);
    }

    /** Longer steps are taken where nothing fast happens; it must make no difference that anyone would measure. */
    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void driven_inTheStepsTheCarChooses_endsAsInMilliseconds(String name) {
        Driven chosen = Driven.of(name);
        Driven fine = Driven.of(name).inMilliseconds();
        drive(chosen);
        drive(fine);
        for (Quantity quantity : List.of(
                Quantity.DISTANCE_M,
                Quantity.ALTITUDE_M,
                Quantity.SOC,
                Quantity.PACK_STORED_OUT_J,
                Quantity.PACK_LOSS_J,
                Quantity.MOTOR_WORK_J,
                Quantity.INVERTER_LOSS_J,
                Quantity.DRAG_LOSS_J,
                Quantity.BRAKE_HEAT_J,
                Quantity.MOTOR_TEMP_C)) {
            double truth = fine.truth(quantity);
            assertEquals(truth, chosen.truth(quantity), LONG_STEPS * Math.abs(truth), quantity.key());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe"})
    void charged_inTheStepsTheCarChooses_endsAsInMilliseconds(String name) {
        Driven chosen = Driven.of(name);
        Driven fine = Driven.of(name).inMilliseconds();
        for (Driven car : List.of(chosen, fine)) {
            car.set(Lever.SOC, 0.3).set(Lever.PLUG, 1).runS(2);
            if (car.vehicle.is(Parameter.CHARGER_SIDE, "bus-side")) {
                car.connect();
            }
            car.on(Output.DCDC_ENABLE).charge().runS(600);
        }
        for (Quantity quantity : List.of(
                Quantity.SOC, Quantity.AC_ENERGY_J, Quantity.PACK_LOSS_J, Quantity.PACK_VOLTAGE_V, Quantity.LV_SOC)) {
            double truth = fine.truth(quantity);
            assertEquals(truth, chosen.truth(quantity), LONG_STEPS * Math.abs(truth), quantity.key());
        }
    }
}
