package sprag.bench.loop.relay;

import java.util.Arrays;
import sprag.bench.car.relay.RelayBox;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.CarRig;
import sprag.bench.loop.TickClock;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Device;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** A simulated car that relays switch. No interlock ever acts in it, and there is no loop that could be late. */
public final class RelayLoop implements CarRig {
    private static final long NS_PER_MS = 1_000_000;

    /** Whoever moves the contacts in one tick. */
    @FunctionalInterface
    public interface Mover {
        /** Moves them.
         *
         * @param box what inverter and chargers make of it
         * @param in what was read
         * @param out what is driven then
         */
        void move(RelayBox box, Readings in, Commands out);
    }

    private final SimulatedCar car;
    private final Device device;
    private final Mover mover;
    private final RelayBox box;
    private final Samples samples = new Samples();
    private final Readings readings = new Readings();
    private final Commands commands = new Commands();
    private final Commands driven;
    private final long tickMs;
    private final long staleNs;
    private State state = State.OFF;
    private String why = "";
    private long timeMs;

    /** A car at rest.
     *
     * @param seed where its noise starts
     */
    public RelayLoop(Vehicle vehicle, long seed) {
        this(new SimulatedCar(vehicle, seed), null, null, null);
    }

    /** A car at rest, with something before it.
     *
     * @param before what stands before the car, null for nothing
     * @param arriving what truly arrives at relays and controllers, null for what is asked
     * @param mover who moves the contacts, null for relays as they are usually wired
     */
    public RelayLoop(SimulatedCar car, Device before, Commands arriving, Mover mover) {
        Vehicle vehicle = car.vehicle();
        this.car = car;
        device = before == null ? car : before;
        driven = arriving == null ? commands : arriving;
        box = new RelayBox(vehicle, car.faults());
        tickMs = Math.round(vehicle.get(Parameter.LOOP_TICK_MS));
        double stepMs = tickMs;
        this.mover = mover == null ? (relays, in, out) -> relays.step(in, out, stepMs) : mover;
        staleNs = Math.round(vehicle.get(Parameter.LOOP_STALE_MS)) * NS_PER_MS;
    }

    @Override
    public long tickMs() {
        return tickMs;
    }

    @Override
    public void inject(String what) {
        if (canHave(what)) {
            car.faults().inject(partFault(what));
        }
    }

    @Override
    public void clear(String what) {
        if (canHave(what)) {
            car.faults().clear(partFault(what));
        }
    }

    /** A late loop or a broken data bus harms no relay: there is neither. */
    private static boolean canHave(String what) {
        return !what.equals(TickClock.LATE) && !BusFaults.isOne(what);
    }

    /** The first half of a tick: the contacts move. {@link #live} must follow. */
    @Override
    public void decide() {
        long nowNs = timeMs * NS_PER_MS;
        device.sample(samples, nowNs);
        samples.read(readings, nowNs, staleNs);
        mover.move(box, readings, commands);
        device.command(commands, nowNs);
        State now = box.state(readings);
        why = now == state ? why : "the relays say so; no supervisor decides";
        state = now;
    }

    /** Writes what the last tick has seen and done; to be called before {@link #live}. */
    @Override
    public void show(Frame into) {
        readings.copyTo(into.value, 0);
        driven.copyTo(into.value, Signal.COUNT);
        car.truths(into.value, Signal.COUNT + Output.COUNT);
        Arrays.fill(into.acting, false);
        into.timeMs = timeMs;
        into.state = state.ordinal();
        into.why = why;
    }

    /** Lets the car live through the tick. */
    @Override
    public void live() {
        car.advance(tickMs / 1000.0);
        timeMs += tickMs;
    }

    /** The simulated car. Always the same. */
    @Override
    public SimulatedCar car() {
        return car;
    }

    /** What was read in the last tick. */
    @Override
    public Readings readings() {
        return readings;
    }

    /** The state of a supervised car that does the same. */
    @Override
    public State state() {
        return state;
    }
}
