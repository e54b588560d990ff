package sprag.bench.panel;

import java.util.List;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.TickClock;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Loop;
import sprag.hal.MixedDevice;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * One car with its supervisor, from its first tick on. Only the bench's thread may touch it.
 *
 * <p>Without a board the loop's time is the car's own and stands still within a tick, so that a busy computer is no fault of
 * the car. With a board it is the real time.
 */
final class Plant {
    private static final long NS_PER_MS = 1_000_000;
    private static final Interlock[] INTERLOCKS = Interlock.values();

    /** What the driver's hands and feet hold, and what goes back when they let go. */
    static final List<Lever> HANDS = List.of(Lever.PEDAL, Lever.START, Lever.SERVICE_RESET);

    final Vehicle vehicle;
    final SimulatedCar car;
    final Supervisor supervisor;
    final ForcedDevice device;
    final Loop loop;
    final Latches latches = new Latches();
    final long tickMs;
    private final MixedDevice mixed;
    private final TickClock ticks = new TickClock();

    /** A car at rest and a supervisor that has just woken up.
     *
     * @param vehicle what both are told
     * @param seed where the car's noise starts
     * @param board whose pins come before the car's, null for none
     * @param wall the real time, for a board
     */
    Plant(Vehicle vehicle, long seed, Device board, Clock wall) {
        this.vehicle = vehicle;
        car = new SimulatedCar(vehicle, seed);
        supervisor = new Supervisor(vehicle.settings());
        tickMs = Math.round(vehicle.get(Parameter.LOOP_TICK_MS));
        mixed = board == null ? null : new MixedDevice(board, car);
        device = new ForcedDevice(mixed == null ? car : mixed);
        loop = new Loop(supervisor, vehicle.settings(), device, board == null ? ticks : wall);
    }

    /** Runs one tick of the loop at the car's time. */
    void decide() {
        ticks.begin(timeMs() * NS_PER_MS);
        loop.tick();
    }

    /** Lets the car live through the tick that was just decided. */
    void live() {
        car.advance(tickMs / 1000.0);
    }

    /** The time of the next tick. */
    long timeMs() {
        return loop.ticks() * tickMs;
    }

    /** Where a signal comes from. */
    Source sourceOf(Signal signal) {
        if (device.isForced(signal)) {
            return Source.FORCED;
        }
        if (signal == Signal.LOOP_OVERRUN || signal == Signal.LINK_LOST) {
            return Source.LOOP;
        }
        if (!device.samples().contains(signal)) {
            return Source.NOT_FITTED;
        }
        return mixed != null && !mixed.sourceOf(signal).equals(car.name()) ? Source.BOARD : Source.SIMULATED;
    }

    /** Lets the driver's hands and feet off: pedal, start and reset button.
     *
     * @return the levers that were not at rest
     */
    List<Lever> letGo() {
        List<Lever> held = HANDS.stream()
                .filter(lever -> car.levers().get(lever) != lever.initial)
                .toList();
        held.forEach(lever -> car.levers().set(lever, lever.initial));
        return held;
    }

    /** Breaks something by its written name; a scenario may also make the loop late. */
    void inject(String fault) {
        if (fault.equals(ClosedLoop.LATE)) {
            ticks.late(2 * tickMs * NS_PER_MS);
        } else {
            car.faults().inject(FaultSpec.parse(fault, vehicle));
        }
    }

    /** Mends something by its written name. */
    void mend(String fault) {
        if (fault.equals(ClosedLoop.LATE)) {
            ticks.late(0);
        } else {
            car.faults().clear(FaultSpec.parse(fault, vehicle));
        }
    }

    /** Writes what the last tick has seen and asked, and what was true then. */
    void record(Frame into, String why) {
        FrameColumns.fill(into, loop, car);
        Diagnostics seen = supervisor.diagnostics();
        long tick = loop.ticks() - 1;
        for (int i = 0; i < INTERLOCKS.length; i++) {
            into.acting[i] = seen.lastActedTick(INTERLOCKS[i]) == tick;
        }
        into.timeMs = tick * tickMs;
        into.state = supervisor.state().state().ordinal();
        into.why = why;
    }
}
