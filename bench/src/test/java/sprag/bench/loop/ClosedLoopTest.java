package sprag.bench.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.Clock;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.State;

/** One loop for every use: which interlock asked for a state, interlocks left out, ticks on the real clock. */
class ClosedLoopTest {
    private static Vehicle van;

    @BeforeAll
    static void read() throws Exception {
        van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
    }

    private static ClosedLoop driving(Set<Interlock> without) {
        SimulatedCar car = new SimulatedCar(van, 1);
        ClosedLoop loop = new ClosedLoop(car, car, new TickClock(), without);
        ticks(loop, 20);
        loop.move("key", 1);
        loop.move("brake", 0.5);
        ticks(loop, 60);
        loop.move("start", 1);
        ticks(loop, 20);
        loop.move("start", 0);
        ticks(loop, 400);
        assertEquals(State.DRIVE_ENABLE, loop.state());
        return loop;
    }

    private static List<Event> ticks(ClosedLoop loop, int count) {
        List<Event> events = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            loop.tick();
            events.addAll(loop.news());
        }
        return events;
    }

    @Test
    void driveEnable_plugSeen_entersRundownForThatInterlock() {
        ClosedLoop loop = driving(EnumSet.noneOf(Interlock.class));
        loop.move("plug", 1);
        List<Event> events = ticks(loop, 100);
        assertTrue(events.contains(new Event.Began(Interlock.PLUG_PRESENT)), events.toString());
        Event.Entered entered = events.stream()
                .filter(Event.Entered.class::isInstance)
                .map(Event.Entered.class::cast)
                .findFirst()
                .orElseThrow();
        assertEquals(State.RUNDOWN, entered.via().to);
        assertEquals(Interlock.PLUG_PRESENT, entered.stopper());
        assertTrue(loop.why().endsWith("(" + Interlock.PLUG_PRESENT.cause + ")"), loop.why());
    }

    @Test
    void driveEnable_plugSeenWithThatInterlockLeftOut_driveEnableStays() {
        ClosedLoop loop = driving(EnumSet.of(Interlock.PLUG_PRESENT));
        loop.move("plug", 1);
        ticks(loop, 100);
        assertEquals(State.DRIVE_ENABLE, loop.state());
        assertFalse(loop.acting().contains(Interlock.PLUG_PRESENT));
    }

    @Test
    void driveEnable_keyOff_entersRundownForNoInterlock() {
        ClosedLoop loop = driving(EnumSet.noneOf(Interlock.class));
        loop.move("key", 0);
        ticks(loop, 50);
        assertEquals("the key was turned off", loop.why());
    }

    @Test
    void realClock_runForTenTicks_showsTheFramesOfTheTickClock() {
        ClosedLoop ticked = new ClosedLoop(van, 1);
        SimulatedCar car = new SimulatedCar(van, 1);
        long[] nowNs = {0};
        ClosedLoop paced = new ClosedLoop(car, car, clock(nowNs), EnumSet.noneOf(Interlock.class));
        Frame expected = ticked.channels().newFrame();
        Frame shown = ticked.channels().newFrame();
        paced.run(() -> paced.loop().ticks() < 10, () -> {
            ticked.tick(expected);
            paced.show(shown);
            assertEquals(expected.timeMs, shown.timeMs);
            assertTrue(java.util.Arrays.equals(expected.value, shown.value), "tick at " + shown.timeMs + " ms");
        });
        assertEquals(10, ticked.loop().ticks());
        assertEquals(ticked.car().nowS(), paced.car().nowS());
    }

    @Test
    void realClock_lateTicksAskedFor_areRefused() {
        SimulatedCar car = new SimulatedCar(van, 1);
        ClosedLoop loop = new ClosedLoop(car, car, clock(new long[1]), EnumSet.noneOf(Interlock.class));
        assertThrows(IllegalStateException.class, () -> loop.inject(TickClock.LATE));
    }

    /** A clock that takes the real one's place: waiting moves it. */
    private static Clock clock(long[] nowNs) {
        return new Clock() {
            @Override
            public long nowNs() {
                return nowNs[0];
            }

            @Override
            public void waitUntil(long deadlineNs) {
                nowNs[0] = Math.max(nowNs[0], deadlineNs);
            }
        };
    }
}
