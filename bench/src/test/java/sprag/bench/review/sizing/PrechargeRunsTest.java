package sprag.bench.review.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.TickClock;
import sprag.bench.review.formula.Precharge;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.State;

/** What check says of the limits of precharge is what the simulated car does, at every corner of the tolerances. */
class PrechargeRunsTest {
    private static final int MOST_TICKS = 3000;

    private static Vehicle shipped(String name) throws Exception {
        return VehicleReader.read(Catalogue.installed().vehicle(name));
    }

    private static Calculation calculation(Vehicle vehicle, String id) {
        return SizingCheck.calculations(vehicle).stream()
                .filter(c -> c.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** Every corner of capacitance, resistor, bleed resistor and relay; the supervisor knows the nominal values only. */
    private static List<Vehicle> corners(Vehicle vehicle) {
        List<Vehicle> corners = new ArrayList<>();
        for (int corner = 0; corner < 16; corner++) {
            double capacitance = (corner & 1) == 0 ? 1.2 : 0.8;
            double resistor = (corner & 2) == 0 ? 1.05 : 0.95;
            double bleed = (corner & 4) == 0 ? 0.95 : 1.05;
            double relay = (corner & 8) == 0 ? 1.5 : 1;
            corners.add(vehicle.with(
                            CarParameter.PARTS_CAPACITANCE_UF, capacitance * vehicle.get(Parameter.BUS_CAPACITANCE_UF))
                    .with(CarParameter.PARTS_PRECHARGE_OHM, resistor * vehicle.get(Parameter.PRECHARGE_RESISTANCE_OHM))
                    .with(CarParameter.PARTS_BLEED_OHM, bleed * vehicle.get(CarParameter.PARTS_BLEED_OHM))
                    .with(CarParameter.BOX_RELAY_CLOSE_MS, relay * vehicle.get(CarParameter.BOX_RELAY_CLOSE_MS)));
        }
        return corners;
    }

    private static ClosedLoop loop(Vehicle vehicle) {
        SimulatedCar car = new SimulatedCar(vehicle, 1);
        ClosedLoop loop = new ClosedLoop(car, car, new TickClock(), EnumSet.noneOf(Interlock.class));
        ticks(loop, 20);
        return loop;
    }

    private static void ticks(ClosedLoop loop, int count) {
        for (int i = 0; i < count; i++) {
            loop.tick();
        }
    }

    /** Key, brake, start; then whatever comes of it. */
    private static State started(ClosedLoop loop) {
        loop.move("key", 1);
        loop.move("brake", 0.5);
        ticks(loop, 60);
        loop.move("start", 1);
        ticks(loop, 20);
        loop.move("start", 0);
        for (int i = 0; i < MOST_TICKS && loop.state() != State.DRIVE_ENABLE && loop.state() != State.FAULT; i++) {
            loop.tick();
        }
        return loop.state();
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void limitsThatCheckJustAccepts_everyCornerOfTolerance_starts(String name) throws Exception {
        Vehicle vehicle = shipped(name);
        double tickMs = vehicle.get(Parameter.LOOP_TICK_MS);
        double slowestMs = calculation(vehicle, "precharge-time").result().value();
        double fastestMs =
                calculation(vehicle, "precharge-called-too-fast").result().value();
        Vehicle tight = vehicle.with(Parameter.PRECHARGE_TIMEOUT_MS, Math.ceil(slowestMs / tickMs) * tickMs)
                .with(Parameter.PRECHARGE_FAST_MS, Math.floor(fastestMs / tickMs) * tickMs)
                .with(Parameter.PRECHARGE_MIN_MS, Math.floor(fastestMs / tickMs) * tickMs);
        assertEquals(
                Calculation.Verdict.KEPT, calculation(tight, "precharge-time").verdict());
        assertEquals(
                Calculation.Verdict.KEPT,
                calculation(tight, "precharge-called-too-fast").verdict());
        for (Vehicle corner : corners(tight)) {
            ClosedLoop loop = loop(corner);
            assertEquals(State.DRIVE_ENABLE, started(loop), () -> name + ": " + loop.acting());
        }
    }

    /** Drive, key off, and start again in the moment in which the bus counts as discharged. */
    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void restartWithBusHalfCharged_fastestCorner_isNotCalledTooFast(String name) throws Exception {
        Vehicle vehicle = shipped(name);
        double tickMs = vehicle.get(Parameter.LOOP_TICK_MS);
        double fastestMs =
                calculation(vehicle, "precharge-restart-too-fast").result().value();
        Vehicle tight = vehicle.with(Parameter.PRECHARGE_FAST_MS, Math.floor(fastestMs / tickMs) * tickMs);
        for (Vehicle corner : corners(tight)) {
            ClosedLoop loop = loop(corner);
            assertEquals(State.DRIVE_ENABLE, started(loop));
            loop.move("key", 0);
            for (int i = 0; i < MOST_TICKS && loop.state() != State.OFF; i++) {
                loop.tick();
            }
            assertEquals(State.OFF, loop.state());
            assertEquals(State.DRIVE_ENABLE, started(loop), () -> name + ": " + loop.acting());
        }
    }

    /** Whoever takes the limits from the nominal values alone has starts that fail; check must not accept them. */
    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void limitsThatNominalPartsJustKeep_someCornerFails_andCheckSaysSo(String name) throws Exception {
        Vehicle vehicle = shipped(name);
        double nominalMs = 1000
                * Precharge.idealSecondsToShare(
                        vehicle.get(Parameter.PRECHARGE_RESISTANCE_OHM),
                        vehicle.get(Parameter.BUS_CAPACITANCE_UF) * 1e-6,
                        0.97);
        Vehicle slow = vehicle.with(Parameter.PRECHARGE_TIMEOUT_MS, Math.ceil(nominalMs / 10) * 10);
        assertEquals(
                Calculation.Verdict.BROKEN, calculation(slow, "precharge-time").verdict());
        assertTrue(
                corners(slow).stream().anyMatch(corner -> endsIn(corner, Interlock.PRECHARGE_SLOW)),
                "no corner was too slow");
        Vehicle fast = vehicle.with(Parameter.PRECHARGE_FAST_MS, Math.floor(0.8 * nominalMs / 10) * 10)
                .with(Parameter.PRECHARGE_MIN_MS, Math.ceil(nominalMs / 10) * 10);
        assertEquals(
                Calculation.Verdict.BROKEN,
                calculation(fast, "precharge-called-too-fast").verdict());
        assertTrue(
                corners(fast).stream().anyMatch(corner -> endsIn(corner, Interlock.PRECHARGE_FAST)),
                "no corner was too fast");
    }

    @Test
    void timeoutOf600Ms_capacitorsTwentyPercentAbove_failsAndIsAStop() throws Exception {
        Vehicle van = shipped("parcel-van").with(Parameter.PRECHARGE_TIMEOUT_MS, 600);
        assertEquals(
                Calculation.Verdict.BROKEN, calculation(van, "precharge-time").verdict());
        assertTrue(endsIn(van.with(CarParameter.PARTS_CAPACITANCE_UF, 3960), Interlock.PRECHARGE_SLOW));
    }

    private static boolean endsIn(Vehicle vehicle, Interlock interlock) {
        ClosedLoop loop = loop(vehicle);
        return started(loop) == State.FAULT && loop.acting().contains(interlock);
    }
}
