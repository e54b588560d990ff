package sprag.bench.car.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.EnumSet;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** What holds for the car as a whole. */
class SimulatedCarTest {
    /** Pushes levers, commands and faults about; the same seed pushes the same way. */
    private static long wild(SimulatedCar car, long seed, int ticks) {
        Random random = new Random(seed);
        Commands commands = new Commands();
        Samples samples = new Samples();
        var all = FaultSpec.all(car.vehicle());
        long hash = 17;
        for (int i = 0; i < ticks; i++) {
            if (random.nextInt(20) == 0) {
                Lever lever = Lever.values()[random.nextInt(Lever.COUNT)];
                double at = lever.min + (lever.max - lever.min) * random.nextDouble();
                car.levers().set(lever, lever.unit == Unit.SWITCH ? Math.rint(at) : at);
            }
            Output output = Output.values()[random.nextInt(Output.COUNT)];
            double most = output == Output.TORQUE_REQUEST_NM ? 300 : output.unit == Unit.VOLT ? 420 : 60;
            commands.set(output, output.isSwitch() ? random.nextInt(2) : (random.nextDouble() * 1.3 - 0.3) * most);
            if (random.nextInt(50) == 0) {
                car.faults().inject(all.get(random.nextInt(all.size())));
            }
            if (random.nextInt(200) == 0) {
                car.faults().clear();
            }
            car.command(commands, i);
            car.advance(0.001 * (1 + random.nextInt(15)));
            car.sample(samples, i);
            for (Quantity quantity : Quantity.values()) {
                double truth = car.truth(quantity);
                assertTrue(
                        Double.isFinite(truth),
                        () -> quantity.key() + " = " + truth + " with "
                                + car.faults().present());
                hash = hash * 31 + Double.doubleToLongBits(truth);
            }
            for (Signal signal : car.samples()) {
                hash = hash * 31 + Double.doubleToLongBits(samples.get(signal));
            }
        }
        return hash;
    }

    @Test
    void leversSetBeforeTheStart_showInTheFirstSample() {
        SimulatedCar car = new SimulatedCar(Driven.shipped("coupe"), 1);
        car.levers().set(Lever.SOC, 0);
        car.levers().set(Lever.LV_SOC, 0.1);
        car.levers().set(Lever.PACK_TEMP_C, -15);
        Samples samples = new Samples();
        car.sample(samples, 0);
        assertEquals(0, car.truth(Quantity.SOC));
        assertEquals(car.truth(Quantity.PACK_OCV_V), samples.get(Signal.PACK_VOLTAGE_V), 0.3);
        assertEquals(11.54, samples.get(Signal.LV_SUPPLY_V), 0.04, "11.4 V empty, 12.8 V full");
        car.advance(0.01);
        Samples next = new Samples();
        car.sample(next, 0);
        assertEquals(next.get(Signal.PACK_COLD_V), samples.get(Signal.PACK_COLD_V), 0.02);
        assertEquals(next.get(Signal.CELL_MIN_V), samples.get(Signal.CELL_MIN_V), 0.01);
    }

    @ParameterizedTest(name = "{0}, seeds 1 to 4")
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void sameSeed_wildUse_sameRunBitForBit(String name) {
        for (long seed = 1; seed <= 4; seed++) {
            SimulatedCar first = new SimulatedCar(Driven.shipped(name), seed);
            long hash = wild(first, seed, 1000);
            assertEquals(hash, wild(new SimulatedCar(Driven.shipped(name), seed), seed, 1000), "seed " + seed);
            assertNotEquals(hash, wild(new SimulatedCar(Driven.shipped(name), seed + 1), seed, 1000), "other noise");
        }
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void driveAndCharge_allocateNothing(String name) {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        long me = Thread.currentThread().getId();
        Driven car = Driven.of(name).connect().enable();
        double fullNm = car.vehicle.get(Parameter.DRIVE_TORQUE_NM);
        FaultSpec stuck = FaultSpec.parse("pedal_a_v.delay", car.vehicle);
        long leastBytes = Long.MAX_VALUE;
        for (int round = 0; round < 6; round++) {
            car.car.faults().inject(stuck);
            long before = threads.getThreadAllocatedBytes(me);
            for (int i = 0; i < 3000; i++) {
                car.set(Output.TORQUE_REQUEST_NM, (i & 512) == 0 ? fullNm : -0.3 * fullNm);
                if (i % 1000 == 0) {
                    car.set(Lever.BRAKE, i / 3000.0);
                    car.commands.set(Output.POSITIVE_CONTACTOR, false);
                } else if (i % 1000 == 100) {
                    car.commands.set(Output.POSITIVE_CONTACTOR, true);
                }
                car.tick();
                car.sample();
                car.truth(Quantity.BUS_VOLTAGE_V);
            }
            leastBytes = Math.min(leastBytes, threads.getThreadAllocatedBytes(me) - before);
            car.car.faults().clear();
        }
        assertEquals(0, leastBytes, "bytes allocated in 30 s of driving");
    }

    @Test
    void samplesAndDrives_followTheVehicle() {
        SimulatedCar cart = new SimulatedCar(Driven.shipped("yard-cart"), 1);
        assertTrue(cart.samples().contains(Signal.PEDAL_A_V));
        assertTrue(!cart.samples().contains(Signal.PEDAL_B_V));
        assertTrue(!cart.samples().contains(Signal.LOOP_OVERRUN), "that is the loop's");
        assertTrue(!cart.drives().contains(Output.COOLANT_PUMP), "cooled by air");
        Samples samples = new Samples();
        cart.sample(samples, 5);
        EnumSet<Signal> given = EnumSet.noneOf(Signal.class);
        for (Signal signal : Signal.values()) {
            if (samples.ageNs(signal, 5) == 0) {
                given.add(signal);
            }
        }
        assertEquals(cart.samples(), given, "every signal it has, and no other");
    }

    @Test
    void lever_outOfRange_isRefused() {
        SimulatedCar car = new SimulatedCar(Driven.shipped("coupe"), 1);
        assertThrows(IllegalArgumentException.class, () -> car.levers().set(Lever.PEDAL, 1.01));
        assertThrows(IllegalArgumentException.class, () -> car.levers().set(Lever.PEDAL, Double.NaN));
        assertEquals(0, car.levers().get(Lever.PEDAL));
    }

    @Test
    void standing_longStepsOrShort_sameCar() {
        Driven fast = Driven.of("coupe").connect().on(Output.DCDC_ENABLE);
        Driven slow = Driven.of("coupe").connect().on(Output.DCDC_ENABLE);
        fast.runS(20);
        slow.runS(20, t -> {});
        for (int i = 0; i < 200; i++) {
            fast.runS(0.01);
            slow.runMs(10);
        }
        assertEquals(slow.truth(Quantity.BUS_VOLTAGE_V), fast.truth(Quantity.BUS_VOLTAGE_V), 1e-3);
        assertEquals(slow.truth(Quantity.PACK_STORED_OUT_J), fast.truth(Quantity.PACK_STORED_OUT_J), 0.01);
    }

    @Test
    void twelveVolt_withoutConverter_sagsAndIsHeldWithIt() {
        Driven van = Driven.of("parcel-van").set(Lever.KEY, 1).runS(1);
        double alone = van.truth(Quantity.LV_VOLTAGE_V);
        assertEquals(11.4 + 1.4 * 0.8 - 0.015 * 4, alone, 1e-3, "rest voltage at 80 % less 4 A through 15 mohm");
        van.on(Output.DCDC_ENABLE).runS(1);
        assertTrue(van.truth(Quantity.LV_VOLTAGE_V) > alone + 0.5);
        assertEquals(60, van.truth(Quantity.DCDC_CURRENT_A), 1e-9, "at its limit into a battery that wants more");
        van.runS(3600);
        assertEquals(13.8, van.truth(Quantity.LV_VOLTAGE_V), 0.2, "held");
    }
}
