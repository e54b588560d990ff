package sprag.bench.panel;

import java.util.EnumSet;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.car.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.TickClock;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Loop;
import sprag.hal.MixedDevice;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;

/**
 * One car with its supervisor, from its first tick on. Only the bench's thread may touch it.
 *
 * <p>Without a board the loop's time is the car's own and stands still within a tick, so that a busy computer is no fault of
 * the car. With a board it is the real time.
 */
final class Plant {
    /** What the driver's hands and feet hold, and what goes back when they let go. */
    static final List<Lever> HANDS = List.of(Lever.PEDAL, Lever.START, Lever.SERVICE_RESET);

    final Vehicle vehicle;
    final SimulatedCar car;
    final Supervisor supervisor;
    final ForcedDevice device;
    final ClosedLoop closed;
    final Loop loop;
    final Latches latches = new Latches();
    final long tickMs;
    private final MixedDevice mixed;

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
        mixed = board == null ? null : new MixedDevice(board, car);
        device = new ForcedDevice(mixed == null ? car : mixed);
        Clock clock = board == null ? new TickClock() : wall;
        closed = new ClosedLoop(car, device, clock, EnumSet.noneOf(Interlock.class));
        supervisor = closed.supervisor();
        loop = closed.loop();
        tickMs = closed.tickMs();
    }

    /** The time of the next tick. */
    long timeMs() {
        return closed.timeMs();
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
}
