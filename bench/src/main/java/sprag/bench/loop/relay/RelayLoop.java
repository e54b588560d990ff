package sprag.bench.loop.relay;

import java.util.Arrays;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.relay.RelayBox;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.Rig;
import sprag.bench.loop.TickClock;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** A simulated car that relays switch. No interlock ever acts in it, and there is no loop that could be late. */
public final class RelayLoop implements Rig {
    private static final long NS_PER_MS = 1_000_000;

    private final SimulatedCar car;
    private final RelayBox box;
    private final Samples samples = new Samples();
    private final Readings readings = new Readings();
    private final Commands commands = new Commands();
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
        car = new SimulatedCar(vehicle, seed);
        box = new RelayBox(vehicle, car.faults());
        tickMs = Math.round(vehicle.get(Parameter.LOOP_TICK_MS));
        staleNs = Math.round(vehicle.get(Parameter.LOOP_STALE_MS)) * NS_PER_MS;
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
        car.levers().set(Lever.of(lever).orElseThrow(), to);
    }

    @Override
    public double position(String lever) {
        return car.levers().get(Lever.of(lever).orElseThrow());
    }

    @Override
    public void inject(String what) {
        if (canHave(what)) {
            car.faults().inject(FaultSpec.parse(what, car.vehicle()));
        }
    }

    @Override
    public void clear(String what) {
        if (canHave(what)) {
            car.faults().clear(FaultSpec.parse(what, car.vehicle()));
        }
    }

    /** A late loop or a broken data bus harms no relay: there is neither. */
    private static boolean canHave(String what) {
        return !what.equals(TickClock.LATE) && !BusFaults.isOne(what);
    }

    @Override
    public void tick(Frame into) {
        long nowNs = timeMs * NS_PER_MS;
        car.sample(samples, nowNs);
        samples.read(readings, nowNs, staleNs);
        box.step(readings, commands, tickMs);
        car.command(commands, nowNs);
        State now = box.state(readings);
        why = now == state ? why : "the relays say so; no supervisor decides";
        state = now;
        readings.copyTo(into.value, 0);
        commands.copyTo(into.value, Signal.COUNT);
        car.truths(into.value, Signal.COUNT + Output.COUNT);
        Arrays.fill(into.acting, false);
        into.timeMs = timeMs;
        into.state = state.ordinal();
        into.why = why;
        car.advance(tickMs / 1000.0);
        timeMs += tickMs;
    }
}
