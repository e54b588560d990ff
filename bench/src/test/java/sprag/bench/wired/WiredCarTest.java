package sprag.bench.wired;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Set;
import org.junit.jupiter.api.Test;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.drawing.live.Schedules;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Mistakes in the drawing do in the simulated car what they would do in the real one. */
class WiredCarTest {
    private static final int START_TICKS = 400;
    private static final long NS_PER_MS = 1_000_000;

    private static WiredRigs van(String... replacements) throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        return WiredRigs.of(
                new WiredPlan(Schedules.of("parcel-van", replacements), vehicle), vehicle, null, 1, Set.of());
    }

    /** Key, brake and start, and some seconds. */
    private static ClosedLoop started(WiredRigs rigs) {
        ClosedLoop loop = rigs.loop();
        for (int tick = 0; tick < START_TICKS; tick++) {
            if (tick == 50) {
                loop.car().levers().set(Lever.KEY, 1);
                loop.car().levers().set(Lever.BRAKE, 0.4);
            }
            loop.car().levers().set(Lever.START, tick > 100 && tick < 130 ? 1 : 0);
            loop.tick();
        }
        return loop;
    }

    private static void run(WiredRigs rigs, String fault, int ticks) {
        rigs.wires().inject(rigs.wires().plan().fault(fault).orElseThrow());
        for (int tick = 0; tick < ticks; tick++) {
            rigs.loop().tick();
        }
    }

    @Test
    void soundDrawing_start_carIsReadyToDrive() throws Exception {
        assertEquals(State.DRIVE_ENABLE, started(van()).state());
    }

    @Test
    void crossedMainCoils_start_isRefusedByTheAuxiliaryContacts() throws Exception {
        ClosedLoop loop = started(van(
                "contactor_negative.coil_minus,supervisor.negative_contactor",
                "contactor_negative.coil_minus,supervisor.positive_contactor",
                "contactor_positive.coil_minus,supervisor.positive_contactor",
                "contactor_positive.coil_minus,supervisor.negative_contactor"));
        assertEquals(State.FAULT, loop.state());
        assertEquals(0, loop.car().truth(Quantity.BUS_VOLTAGE_V), 1);
    }

    @Test
    void supervisorGroundBroken_start_nothingHappens() throws Exception {
        WiredRigs broken = van();
        run(broken, "E003.broken", 1);
        assertFalse(broken.wires().isAwake());
        ClosedLoop loop = started(broken);
        assertEquals(0, loop.car().truth(Quantity.NEGATIVE_CLOSED));
        assertEquals(0, loop.car().arrives(Output.READY_LAMP));
    }

    @Test
    void coilFedBeforeTheCutOff_cutOffPressed_staysPulledUntilTheSupervisorLetsGo() throws Exception {
        WiredRigs sound = van();
        WiredRigs behind = van("node_coils.2,contactor_negative.coil_plus", "post_12v.4,contactor_negative.coil_plus");
        assertEquals(0, afterCutOff(sound));
        assertEquals(1, afterCutOff(behind));
    }

    /** Whether the negative contactor's coil pulls in the tick in which the cut-off is pressed, with a supervisor that holds on. */
    private static double afterCutOff(WiredRigs rigs) {
        ClosedLoop loop = started(rigs);
        assertEquals(State.DRIVE_ENABLE, loop.state());
        run(rigs, "supervisor.negative_contactor-ground.stuck_closed", 1);
        loop.car().levers().set(Lever.CUT_LOOP, 0);
        for (int tick = 0; tick < 30; tick++) {
            loop.tick();
        }
        return loop.car().truth(Quantity.NEGATIVE_CLOSED);
    }

    @Test
    void pedalGroundBroken_driving_bothTracksReadHighAndTorqueEnds() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "S018.broken", 30);
        assertEquals(5, loop.readings().get(Signal.PEDAL_A_V), 0.01);
        assertEquals(0, loop.commands().get(Output.TORQUE_REQUEST_NM));
    }

    @Test
    void coilFuseOut_driving_everyContactorOpens() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "fuse_coils.stuck_open", 30);
        assertEquals(0, loop.car().truth(Quantity.NEGATIVE_CLOSED));
        assertEquals(0, loop.car().truth(Quantity.POSITIVE_CLOSED));
    }

    @Test
    void coilFeedChafed_driving_blowsItsFuse() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "L012.chafed", 30);
        assertTrue(
                rigs.wires().said().toString().contains("fuse_coils blows"),
                rigs.wires().said().toString());
        assertEquals(0, loop.car().truth(Quantity.POSITIVE_CLOSED));
    }

    @Test
    void packWireBroken_driving_busHangsOnNothing() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        assertTrue(loop.car().truth(Quantity.BUS_VOLTAGE_V) > 90);
        run(rigs, "T012.broken", 600);
        assertTrue(
                loop.car().truth(Quantity.BUS_VOLTAGE_V) < 60, "" + loop.car().truth(Quantity.BUS_VOLTAGE_V));
    }

    @Test
    void dataPairBroken_driving_pedalStillReadAndPackUnknown() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "S025.broken", 60);
        assertTrue(Double.isNaN(loop.readings().get(Signal.PACK_VOLTAGE_V)));
        assertFalse(Double.isNaN(loop.readings().get(Signal.PEDAL_A_V)));
        assertEquals(State.RUNDOWN, loop.state());
    }

    @Test
    void tractionChafed_contactorsClosed_insulationIsLost() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "T011.chafed", 5);
        assertTrue(loop.car().truth(Quantity.ISOLATION_KOHM) < 10);
    }

    @Test
    void mainContactWelded_keyOff_staysClosed() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        loop.car().levers().set(Lever.KEY, 0);
        run(rigs, "contactor_positive.in-out.stuck_closed", 100);
        assertEquals(1, loop.car().truth(Quantity.POSITIVE_CLOSED));
    }

    @Test
    void mainContactStuckOpen_driving_isOpen() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "contactor_positive.in-out.stuck_open", 30);
        assertEquals(0, loop.car().truth(Quantity.POSITIVE_CLOSED));
    }

    @Test
    void phaseBroken_driving_inverterTrips() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "T014.broken", 30);
        assertEquals(1, loop.readings().get(Signal.INVERTER_FAULT));
    }

    @Test
    void pedalWiperChafed_driving_thatTrackReadsNothing() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "S016.chafed", 30);
        assertEquals(0, loop.readings().get(Signal.PEDAL_A_V), 0.01);
        assertTrue(loop.readings().get(Signal.PEDAL_B_V) > 0.1);
        assertEquals(0, loop.commands().get(Output.TORQUE_REQUEST_NM));
    }

    /** The watchdog relay feeds the coils: whatever is asked of them, they drop with it. */
    @Test
    void heartbeatStops_contactorsAskedFor_openAllTheSame() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        Commands asked = new Commands();
        asked.copyFrom(loop.commands());
        long beganMs = loop.timeMs();
        for (long ms = 0; ms <= 500; ms += 10) {
            rigs.wires().command(asked, (beganMs + ms) * NS_PER_MS);
            boolean closed = rigs.wires().arriving().isOn(Output.NEGATIVE_CONTACTOR);
            assertTrue(closed || ms > 50, "open after " + ms + " ms: a beat may come late");
            assertTrue(!closed || ms <= 250, "closed after " + ms + " ms without a beat");
        }
    }

    @Test
    void inverterHearsNothing_driving_keepsTheLastTorqueAndThenLetsGo() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        loop.car().levers().set(Lever.DIRECTION, 1);
        loop.tick();
        loop.car().levers().set(Lever.BRAKE, 0);
        loop.car().levers().set(Lever.PEDAL, 0.5);
        for (int tick = 0; tick < 100; tick++) {
            loop.tick();
        }
        assertTrue(rigs.wires().arriving().get(Output.TORQUE_REQUEST_NM) > 5);
        run(rigs, "S026.broken", 40);
        assertTrue(rigs.wires().arriving().get(Output.TORQUE_REQUEST_NM) > 5, "the last word");
        for (int tick = 0; tick < 20; tick++) {
            loop.tick();
        }
        assertEquals(0, rigs.wires().arriving().get(Output.TORQUE_REQUEST_NM));
    }

    @Test
    void supervisorWithoutGround_whateverIsAsked_nothingArrives() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        run(rigs, "E003.broken", 1);
        Commands asked = new Commands();
        asked.set(Output.TORQUE_REQUEST_NM, 20);
        rigs.wires().command(asked, loop.timeMs() * NS_PER_MS);
        assertEquals(0, rigs.wires().arriving().get(Output.TORQUE_REQUEST_NM));
    }

    @Test
    void brakeLampFeedBroken_brakePressed_lampsStayDark() throws Exception {
        WiredRigs rigs = van();
        ClosedLoop loop = started(rigs);
        assertEquals(1, loop.car().arrives(Output.BRAKE_LAMP), "the brake is held");
        run(rigs, "L026.broken", 2);
        assertEquals(0, loop.car().arrives(Output.BRAKE_LAMP));
    }

    /** Two timers of 1.2 s, fed together when the run relay pulls in. */
    @Test
    void relaysAlone_start_mainContactorClosesAfterTheTimers() throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle("relay-van"));
        WiredRigs.Relays relays = WiredRigs.relays(WiredPlan.of(vehicle), vehicle, 1);
        SimulatedCar car = relays.loop().car();
        int fedTick = 0;
        int closedTick = 0;
        for (int tick = 1; tick < 2 * START_TICKS && closedTick == 0; tick++) {
            car.levers().set(Lever.KEY, tick > 50 ? 1 : 0);
            car.levers().set(Lever.BRAKE, 0.4);
            car.levers().set(Lever.START, tick > 100 && tick < 130 ? 1 : 0);
            relays.loop().decide();
            relays.loop().live();
            fedTick = fedTick == 0 && car.truth(Quantity.NEGATIVE_CLOSED) > 0 ? tick : fedTick;
            closedTick = car.truth(Quantity.POSITIVE_CLOSED) > 0 ? tick : 0;
        }
        assertTrue(fedTick > 0, "the run relay closes the negative contactor");
        assertEquals(120, closedTick - fedTick, 10, "ticks of 10 ms between both");
    }
}
