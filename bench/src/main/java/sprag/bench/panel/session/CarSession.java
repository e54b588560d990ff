package sprag.bench.panel.session;

import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.TickClock;
import sprag.bench.loop.bus.SimulatedBus;
import sprag.bench.wired.WiredCar;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.MixedDevice;
import sprag.supervisor.vocabulary.Signal;

/**
 * One car with its supervisor, from its first tick on. Only the bench's thread may touch it.
 *
 * <p>Without a board its clock moves with the ticks, so that a busy computer is no fault of the car. With a board the time is
 * real.
 */
public final class CarSession {
    /** Where the noise of every car here starts, so that a saved scenario plays the same. */
    public static final long SEED = 1;

    /** What the driver holds with hands and feet. */
    private static final List<Lever> HELD_BY_DRIVER = List.of(Lever.PEDAL, Lever.START, Lever.SERVICE_RESET);

    public final ClosedLoop loop;
    public final ForcedDevice device;
    /** The drawn circuit between car and supervisor, null for none. */
    public final WiredCar wires;

    public final Latches latches = new Latches();
    private final BoardLink board;

    /** A car at rest and a supervisor that has just woken up.
     *
     * @param wall the real time, for a board
     */
    public CarSession(Subject subject, Clock wall) {
        SimulatedCar car = new SimulatedCar(subject.vehicle(), SEED);
        SimulatedBus bus = subject.bus() == null ? null : new SimulatedBus(car, subject.bus());
        board = subject.board();
        Device direct = bus == null ? car : bus;
        wires = subject.wires() == null ? null : new WiredCar(subject.wires(), car, direct);
        Device simulated = wires == null ? direct : wires;
        Device pins = board == null ? simulated : new MixedDevice(board.device(), simulated);
        device = new ForcedDevice(pins);
        loop = new ClosedLoop(car, bus, device, board == null ? new TickClock() : wall, subject.without());
    }

    /** Where a signal comes from. */
    public Source sourceOf(Signal signal) {
        if (device.isForced(signal)) {
            return Source.FORCED;
        }
        if (signal == Signal.LOOP_OVERRUN || signal == Signal.LINK_LOST) {
            return Source.LOOP;
        }
        if (!device.samples().contains(signal)) {
            return Source.NOT_FITTED;
        }
        boolean onBoard = board != null && board.device().samples().contains(signal);
        return onBoard ? Source.BOARD : Source.SIMULATED;
    }

    public double lever(Lever lever) {
        return loop.car().levers().get(lever);
    }

    public void move(Lever lever, double to) {
        loop.car().levers().set(lever, to);
    }

    /**
     * Takes the driver's hands and feet off: pedal, start and reset button. Returns the levers that were not at rest.
     */
    public List<Lever> letGo() {
        List<Lever> held = HELD_BY_DRIVER.stream()
                .filter(lever -> lever(lever) != lever.initial)
                .toList();
        held.forEach(lever -> move(lever, lever.initial));
        return held;
    }
}
