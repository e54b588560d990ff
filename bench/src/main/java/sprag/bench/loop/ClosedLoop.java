package sprag.bench.loop;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Iterator;
import java.util.Set;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.SimulatedCar;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Loop;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Transition;

/** The supervisor and the simulated car in lockstep: the loop of the real thing on a clock that only ticks move. */
public final class ClosedLoop implements Rig {
    /** A fault of the loop itself rather than of the car: every tick takes too long. */
    public static final String LATE = "loop.late";

    private static final long NS_PER_MS = 1_000_000;

    private final Vehicle vehicle;
    private final SimulatedCar car;
    private final Supervisor supervisor;
    private final Loop loop;
    private final long tickMs;
    private final TickClock clock = new TickClock();
    private final Set<Interlock> acting = EnumSet.noneOf(Interlock.class);
    private long eventsTold;
    /** Why the state is what it is: the last transition's reason, and the interlock that asked for it. */
    private String why = "";

    /** A car at rest with a supervisor that has just woken up.
     *
     * @param vehicle what both are told
     * @param seed where the car's noise starts
     */
    public ClosedLoop(Vehicle vehicle, long seed) {
        this.vehicle = vehicle;
        this.car = new SimulatedCar(vehicle, seed);
        this.supervisor = new Supervisor(vehicle.settings());
        this.tickMs = Math.round(vehicle.get(Parameter.LOOP_TICK_MS));
        this.loop = new Loop(supervisor, vehicle.settings(), car, clock);
    }

    /** Records every tick from now on.
     *
     * @param file where to
     * @param title what is run, for people
     * @return the recording, to be closed after the last tick
     * @throws IOException when the file cannot be made
     */
    public Recorder record(Path file, String title) throws IOException {
        Recorder recorder =
                new Recorder(file, vehicle.name(), title, vehicle.settings(), supervisor, Recorder.Pace.SIMULATED);
        loop.listen(recorder);
        return recorder;
    }

    @Override
    public Channels channels() {
        return FrameColumns.CHANNELS;
    }

    @Override
    public long tickMs() {
        return tickMs;
    }

    @Override
    public void move(String lever, double to) {
        car.levers().set(lever(lever), to);
    }

    @Override
    public double position(String lever) {
        return car.levers().get(lever(lever));
    }

    private static Lever lever(String name) {
        return Lever.of(name).orElseThrow(() -> new IllegalArgumentException("no lever is called " + name));
    }

    @Override
    public void inject(String what) {
        if (what.equals(LATE)) {
            clock.late(2 * tickMs * NS_PER_MS);
        } else {
            car.faults().inject(FaultSpec.parse(what, vehicle));
        }
    }

    @Override
    public void clear(String what) {
        if (what.equals(LATE)) {
            clock.late(0);
        } else {
            car.faults().clear(FaultSpec.parse(what, vehicle));
        }
    }

    @Override
    public void tick(Frame into) {
        into.timeMs = loop.ticks() * tickMs;
        clock.begin(into.timeMs * NS_PER_MS);
        loop.tick();
        record(into);
        car.advance(tickMs / 1000.0);
    }

    private void record(Frame into) {
        FrameColumns.fill(into, loop, car);
        takeEvents(supervisor.diagnostics());
        Arrays.fill(into.acting, false);
        for (Interlock row : acting) {
            into.acting[row.ordinal()] = true;
        }
        into.state = supervisor.state().state().ordinal();
        into.why = why;
    }

    /** Drops the interlocks that have stopped acting and takes in those that have begun and why the state has changed. */
    private void takeEvents(Diagnostics seen) {
        long tick = loop.ticks() - 1;
        for (Iterator<Interlock> each = acting.iterator(); each.hasNext(); ) {
            if (seen.lastActedTick(each.next()) != tick) {
                each.remove();
            }
        }
        String interlock = "";
        for (; eventsTold < seen.eventCount(); eventsTold++) {
            Object event = seen.event(eventsTold);
            if (event instanceof Interlock row) {
                acting.add(row);
                interlock = row.response.compareTo(Response.STOP_THEN_OPEN) <= 0 ? " (" + row.cause + ")" : interlock;
            } else if (event instanceof Transition via) {
                why = via.reason + (via.reason.contains("interlock") || via.reason.contains("cause") ? interlock : "");
            }
        }
    }
}
