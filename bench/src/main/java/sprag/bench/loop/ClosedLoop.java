package sprag.bench.loop;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import sprag.bench.bus.BusFile;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.loop.bus.SimulatedBus;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Loop;
import sprag.hal.bus.FrameListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.State;

/**
 * A supervisor and a simulated car, one tick after the other. Real pins may stand before some of the car's signals, and the time
 * may be that of the ticks or that of the wall. One thread may use it.
 */
public final class ClosedLoop implements CarRig {
    private static final long NS_PER_MS = 1_000_000;

    private final SimulatedCar car;
    private final SimulatedBus bus;
    private final TickClock ticks;
    private final Supervisor supervisor;
    private final Loop loop;
    private final EventReader events;
    private final long tickMs;

    /** A car at rest and a supervisor that has just woken up, on a clock that only the ticks move.
     *
     * @param seed where the car's noise starts
     */
    public ClosedLoop(Vehicle vehicle, long seed) {
        this(new SimulatedCar(vehicle, seed));
    }

    /**
     * The same without some interlocks, to show what each is needed for.
     */
    public ClosedLoop(Vehicle vehicle, long seed, Set<Interlock> without) {
        this(new SimulatedCar(vehicle, seed), without);
    }

    private ClosedLoop(SimulatedCar car, Set<Interlock> without) {
        this(car, car, new TickClock(), without);
    }

    /** The same with a car that is made already. */
    public ClosedLoop(SimulatedCar car) {
        this(car, EnumSet.noneOf(Interlock.class));
    }

    /** The same with a data bus between a part of the car and the supervisor.
     *
     * @param bus which messages, null for none
     */
    public static ClosedLoop on(Vehicle vehicle, BusFile bus, long seed) {
        return on(vehicle, bus, seed, EnumSet.noneOf(Interlock.class));
    }

    /** The same without some interlocks. */
    public static ClosedLoop on(Vehicle vehicle, BusFile bus, long seed, Set<Interlock> without) {
        SimulatedCar car = new SimulatedCar(vehicle, seed);
        Device device = bus == null ? car : new SimulatedBus(car, bus);
        return new ClosedLoop(car, device, new TickClock(), without);
    }

    /** A supervisor that has just woken up, with all that can be chosen.
     *
     * @param device what the supervisor samples and drives: the car, or something that stands before it and hands commands on
     * @param clock a {@link TickClock} of its own, or real time; with real time {@link #run} keeps the pace, or the caller does
     * @param without the interlocks that are taken out, to show what each is needed for
     */
    public ClosedLoop(SimulatedCar car, Device device, Clock clock, Set<Interlock> without) {
        this(car, device instanceof SimulatedBus between ? between : null, device, clock, without);
    }

    /** The same where something else stands before the data bus.
     *
     * @param bus which takes the faults of a bus, null for none
     */
    public ClosedLoop(SimulatedCar car, SimulatedBus bus, Device device, Clock clock, Set<Interlock> without) {
        this.car = car;
        this.bus = bus;
        Vehicle vehicle = car.vehicle();
        ticks = clock instanceof TickClock own ? own : null;
        supervisor = new Supervisor(vehicle.settings(), without);
        loop = new Loop(supervisor, vehicle.settings(), device, clock);
        events = new EventReader(supervisor.diagnostics());
        tickMs = Math.round(vehicle.get(Parameter.LOOP_TICK_MS));
    }

    /** Records every tick from now on.
     *
     * @param title what is run, for people
     * @return the recording, to be closed after the last tick
     * @throws IOException when the file cannot be made
     */
    public Recorder record(Path file, String title) throws IOException {
        Vehicle vehicle = car.vehicle();
        Recorder recorder =
                new Recorder(file, vehicle.name(), title, vehicle.settings(), supervisor, Recorder.Pace.SIMULATED);
        loop.listen(recorder);
        listenToBus(recorder.startingAt(loop.clock().nowNs()));
        return recorder;
    }

    /** Tells somebody of every frame on the data bus. Returns false when this car has none. */
    public boolean listenToBus(FrameListener who) {
        if (bus != null) {
            bus.listen(who);
        }
        return bus != null;
    }

    /** Lets the supervisor sample, decide and command once. {@link #live} must follow before the next tick. */
    @Override
    public void decide() {
        if (ticks != null) {
            ticks.begin(timeMs() * NS_PER_MS);
        }
        loop.tick();
        events.read(loop.ticks() - 1);
    }

    /** Lets the car live through the tick that was decided. */
    @Override
    public void live() {
        car.advance(tickMs / 1000.0);
    }

    /** Runs one tick: the supervisor decides, then the car lives through it. */
    public void tick() {
        decide();
        live();
    }

    /** Runs ticks at the pace of the real clock until told to stop, then releases every output of the device.
     *
     * @param goOn asked before each tick
     * @param decided called between the decision and the car's life in each tick
     */
    public void run(BooleanSupplier goOn, Runnable decided) {
        long[] lived = {loop.ticks()};
        loop.run(() -> {
            if (loop.ticks() > lived[0]) {
                lived[0] = loop.ticks();
                events.read(lived[0] - 1);
                decided.run();
                live();
            }
            return goOn.getAsBoolean();
        });
    }

    /** Writes what the last tick has seen, asked and done, and what was true in it; to be called before {@link #live}.
     */
    @Override
    public void show(Frame into) {
        FrameColumns.fill(into, loop, supervisor(), car);
        Arrays.fill(into.acting, false);
        for (Interlock row : events.acting()) {
            into.acting[row.ordinal()] = true;
        }
        into.timeMs = (loop.ticks() - 1) * tickMs;
        into.state = state().ordinal();
        into.why = events.why();
    }

    /** The interlocks that acted in the last tick. */
    public Set<Interlock> acting() {
        return events.acting();
    }

    /** What was new in the last tick, in the order in which it happened. Live, empty at most ticks. */
    public List<Event> news() {
        return events.news();
    }

    /** Why the state is what it is. Returns one clause, empty in the state of the beginning. */
    public String why() {
        return events.why();
    }

    /** The state after the last tick. */
    @Override
    public State state() {
        return supervisor.state().state();
    }

    /** The time of the next tick, counted from the first. */
    public long timeMs() {
        return loop.ticks() * tickMs;
    }

    /** What the supervisor saw in the last tick. */
    @Override
    public Readings readings() {
        return loop.readings();
    }

    /** What the supervisor asked for in the last tick. */
    public Commands commands() {
        return loop.commands();
    }

    /** The simulated car. Always the same. */
    @Override
    public SimulatedCar car() {
        return car;
    }

    /** The supervisor. Always the same. */
    public Supervisor supervisor() {
        return supervisor;
    }

    /** The loop of the real thing, for its listeners and its meters. Ticks are run here, not there. Always the same. */
    public Loop loop() {
        return loop;
    }

    @Override
    public long tickMs() {
        return tickMs;
    }

    @Override
    public void inject(String what) {
        if (what.equals(TickClock.LATE)) {
            late(2 * tickMs);
        } else if (BusFaults.isOne(what)) {
            bus(what).inject(what);
        } else {
            car.faults().inject(partFault(what));
        }
    }

    @Override
    public void clear(String what) {
        if (what.equals(TickClock.LATE)) {
            late(0);
        } else if (BusFaults.isOne(what)) {
            bus(what).clear(what);
        } else {
            car.faults().clear(partFault(what));
        }
    }

    /** Every fault that is present, as {@link #clear} takes it. Live only until the next fault comes or goes. */
    public List<String> present() {
        List<String> all = new ArrayList<>(
                car.faults().present().stream().map(Object::toString).toList());
        if (bus != null) {
            all.addAll(bus.present());
        }
        return all;
    }

    private SimulatedBus bus(String what) {
        if (bus == null) {
            throw new IllegalArgumentException("\"" + what + "\" needs a data bus, and this car has none");
        }
        return bus;
    }

    private void late(long byMs) {
        if (ticks == null) {
            throw new IllegalStateException(TickClock.LATE + " cannot be simulated on the real clock");
        }
        ticks.late(byMs * NS_PER_MS);
    }
}
