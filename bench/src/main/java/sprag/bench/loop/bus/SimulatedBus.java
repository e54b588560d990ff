package sprag.bench.loop.bus;

import java.util.ArrayDeque;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Queue;
import java.util.Set;
import sprag.bench.bus.BusFile;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.Samples;
import sprag.hal.board.InputPin;
import sprag.hal.board.PinSink;
import sprag.hal.bus.BusDecoder;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.FrameListener;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * A simulated car of which a part is wired by a data bus: some signals arrive as frames at their periods, some outputs leave as frames.
 * What the supervisor gets has passed the same decoder as the frames of a real bus.
 */
public final class SimulatedBus implements Device, PinSink {
    private record Late(long atNs, CanFrame frame) {}

    private static final double NS_PER_MS = 1e6;

    private final SimulatedCar car;
    private final BusMap map;
    private final BusFaults faults;
    private final BusDecoder decoder;
    private final BusNodes nodes;
    private final BusReceivers receivers;
    private final Set<Signal> carried;
    private final Samples fromCar = new Samples();
    private final Commands toCar = new Commands();
    private final CanFrame frame = new CanFrame();
    private final CanFrame other = new CanFrame();
    private final Queue<Late> late = new ArrayDeque<>();
    private final long[] dueNs;
    private FrameListener listener;
    private Samples into;
    private boolean begun;
    private String lost = "";

    /** Puts a bus before some signals and outputs of a car.
     *
     * @param car the car
     * @param bus which messages
     */
    public SimulatedBus(SimulatedCar car, BusFile bus) {
        this.car = car;
        this.map = bus.map();
        this.faults = new BusFaults(map);
        this.decoder = new BusDecoder(map);
        this.nodes = new BusNodes(map, car.samples());
        this.receivers = new BusReceivers(map, faults);
        car.tellChargers(receivers.orders);
        this.dueNs = new long[map.messages().size()];
        EnumSet<Signal> found = EnumSet.noneOf(Signal.class);
        found.addAll(map.pins().signals());
        found.retainAll(car.samples());
        this.carried = Collections.unmodifiableSet(found);
    }

    /** Tells somebody of every frame from now on: those that the supervisor hears, and those that it sends.
     *
     * @param who beside whoever is told already
     */
    public void listen(FrameListener who) {
        listener = listener == null ? who : listener.and(who);
        receivers.listen(listener);
    }

    /** Lets a fault come.
     *
     * @param what see {@link BusFaults}
     */
    public void inject(String what) {
        faults.inject(what);
    }

    /** Repairs a fault.
     *
     * @param what see {@link BusFaults}
     */
    public void clear(String what) {
        faults.clear(what);
    }

    /** The faults that are present, as {@link #clear} takes them. */
    public List<String> present() {
        return faults.present();
    }

    @Override
    public String name() {
        return car.name() + " on a data bus";
    }

    @Override
    public Set<Signal> samples() {
        return car.samples();
    }

    @Override
    public Set<Output> drives() {
        return car.drives();
    }

    @Override
    public void sample(Samples samples, long nowNs) {
        into = samples;
        if (!begun) {
            begun = true;
            decoder.startAnew(nowNs);
        }
        car.sample(fromCar, nowNs);
        for (Signal signal : car.samples()) {
            long ageNs = fromCar.ageNs(signal, nowNs);
            if (!carried.contains(signal) && ageNs != Long.MAX_VALUE) {
                samples.put(signal, fromCar.get(signal), nowNs - ageNs);
            }
        }
        for (int m = 0; m < dueNs.length; m++) {
            BusMessage message = map.messages().get(m);
            if (!message.isSent() && nowNs >= dueNs[m]) {
                dueNs[m] = Math.max(dueNs[m], nowNs - periodNs(message)) + periodNs(message);
                speak(m, message, nowNs);
            }
        }
        while (!late.isEmpty() && late.peek().atNs <= nowNs) {
            deliver(late.remove().frame, nowNs);
        }
        decoder.checkAges(nowNs, this);
        watch(nowNs);
    }

    private static long periodNs(BusMessage message) {
        return Math.round(message.periodMs() * NS_PER_MS);
    }

    /** One period of a message of another node, with all that can go wrong with it. */
    private void speak(int m, BusMessage message, long nowNs) {
        boolean stuck = faults.has(m, FrameFault.STUCK_COUNTER);
        if (!nodes.compose(m, stuck, fromCar, nowNs, frame) || !reachesAll() || faults.has(m, FrameFault.LOST)) {
            return;
        }
        if (faults.has(m, FrameFault.WRONG_SUM)) {
            frame.data()[message.sumByte()] ^= 1;
        }
        if (faults.has(m, FrameFault.WRONG_LENGTH)) {
            other.copyFrom(frame);
            frame.begin(message.id(), message.extended(), message.length() - 1);
            System.arraycopy(other.data(), 0, frame.data(), 0, message.length() - 1);
        }
        if (faults.has(m, FrameFault.LATE)) {
            CanFrame kept = new CanFrame();
            kept.copyFrom(frame);
            late.add(new Late(nowNs + Math.round(faults.lateMs(m) * NS_PER_MS), kept));
            return;
        }
        deliver(frame, nowNs);
        if (faults.has(m, FrameFault.DOUBLED)) {
            deliver(frame, nowNs);
        }
        for (int n = 1; n < 10 && faults.has(m, FrameFault.TOO_OFTEN); n++) {
            nodes.compose(m, false, fromCar, nowNs, frame);
            deliver(frame, nowNs);
        }
        if (faults.has(m, FrameFault.TWO_SENDERS)) {
            nodes.composeOther(m, other);
            deliver(other, nowNs);
        }
    }

    private boolean reachesAll() {
        return !faults.has(BusFaults.CUT) && !faults.has(BusFaults.OFF) && !faults.has(BusFaults.FLOODED);
    }

    private void deliver(CanFrame which, long nowNs) {
        if (listener != null) {
            listener.frame(which, false, nowNs);
        }
        decoder.accept(which, nowNs, this);
    }

    @Override
    public void put(int input, long raw, long arrivedNs) {
        InputPin pin = map.pins().inputs().get(input);
        if (carried.contains(pin.signal())) {
            into.put(pin.signal(), pin.value(raw), arrivedNs);
        }
    }

    @Override
    public void putUnknown(int input, long nowNs) {
        Signal signal = map.pins().inputs().get(input).signal();
        if (carried.contains(signal)) {
            into.put(signal, Double.NaN, nowNs);
        }
    }

    /** A lost link stays lost for what is driven, as on a real bus that nobody has armed again. */
    private void watch(long nowNs) {
        if (faults.has(BusFaults.OFF)) {
            lost = "the adapter has left the bus (bus off)";
        } else if (decoder.isSilent(nowNs)) {
            lost = "no expected message has come within its time-out";
        } else {
            for (int m = 0; m < dueNs.length && lost.isEmpty(); m++) {
                if (map.messages().get(m).isSent() && faults.has(m, FrameFault.TWO_SENDERS)) {
                    lost = "another node sends an identifier of the supervisor";
                }
            }
        }
    }

    @Override
    public void command(Commands commands, long nowNs) {
        if (lost.isEmpty() && reachesAll()) {
            receivers.send(commands, nowNs);
        }
        toCar.copyFrom(commands);
        receivers.obey(toCar, nowNs);
        car.command(toCar, nowNs);
    }

    @Override
    public void release() {
        receivers.release();
        car.release();
    }

    @Override
    public Health health() {
        return lost.isEmpty() ? car.health() : Health.lost(lost);
    }

    @Override
    public void close() {
        car.close();
    }
}
