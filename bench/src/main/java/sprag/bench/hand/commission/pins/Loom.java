package sprag.bench.hand.commission.pins;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.review.pins.Wired;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.PinnedDevice;
import sprag.hal.Samples;
import sprag.hal.board.BoardMap;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * The simulated pins of a rehearsal: the simulated car without its pack, behind wires that may have faults. Time passes only
 * when somebody waits. The cut-off takes the supply from the coils by itself, as its wiring does.
 */
public final class Loom extends PinnedDevice implements Pins, Clock {
    /** These read zero while the pack is absent. */
    static final Set<Signal> DEAD_WITHOUT_PACK = EnumSet.of(
            Signal.PACK_VOLTAGE_V,
            Signal.BUS_VOLTAGE_V,
            Signal.PACK_CURRENT_A,
            Signal.CELL_MAX_V,
            Signal.CELL_MIN_V,
            Signal.CHARGER_1_VOLTAGE_V,
            Signal.CHARGER_2_VOLTAGE_V,
            Signal.CHARGER_3_VOLTAGE_V);

    /** The outputs that lose their supply when the cut-off opens. */
    static final Set<Output> COILS = EnumSet.of(
            Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY, Output.POSITIVE_CONTACTOR, Output.INVERTER_ENABLE);

    private static final long NS_PER_MS = 1_000_000;
    private static final double WATCHDOG_MS = 200;
    private static final long NOT_CUT = Long.MIN_VALUE;

    private final SimulatedCar car;
    private final BoardMap map;
    private final List<WireFault> faults;
    /** What each input reads and each coil is driven by, as the wires are. */
    private final Map<Signal, Signal> read;

    private final Map<Output, Output> driven;
    private final Samples far = new Samples();
    private final Map<Signal, Double> forced = new EnumMap<>(Signal.class);
    private final Map<Signal, Double> first = new EnumMap<>(Signal.class);
    private final Set<Output> moved = EnumSet.noneOf(Output.class);
    private final Commands asked = new Commands();
    private final Commands reached = new Commands();
    private long nowNs;
    private long cutAtNs = NOT_CUT;
    private boolean armed;
    private boolean unplugged;
    private boolean everDriven;

    public Loom(Vehicle vehicle, Wired wired, BoardMap map, List<WireFault> faults) {
        super("simulated loom", wired.signals(), wired.outputs());
        this.car = new SimulatedCar(withWatchdog(vehicle, wired), 1);
        this.map = map;
        this.faults = List.copyOf(faults);
        this.read = wires(Stream.of(Signal.values()).collect(Collectors.toMap(Signal::key, s -> s)), faults);
        this.driven = wires(Stream.of(Output.values()).collect(Collectors.toMap(Output::key, o -> o)), faults);
        car.sample(far, nowNs);
    }

    /** Where a heartbeat is wired there is a watchdog relay. */
    private static Vehicle withWatchdog(Vehicle vehicle, Wired wired) {
        boolean without = vehicle.get(CarParameter.BOX_WATCHDOG_MS) == 0;
        return without && wired.outputs().contains(Output.HEARTBEAT)
                ? vehicle.with(CarParameter.BOX_WATCHDOG_MS, WATCHDOG_MS)
                : vehicle;
    }

    // the simulated hands

    public void move(Lever lever, double to) {
        car.levers().set(lever, to);
        boolean open = car.levers().get(Lever.CUT_LOOP) == 0;
        cutAtNs = open ? cutAtNs == NOT_CUT ? nowNs : cutAtNs : NOT_CUT;
    }

    /** Puts a level on the far end of a wire; NaN takes it off again. */
    public void force(Signal signal, double value) {
        if (Double.isNaN(value)) {
            forced.remove(signal);
        } else {
            forced.put(signal, value);
        }
    }

    /** Every lever as at first, no forced wire, the cable in. */
    public void rest() {
        for (Lever lever : Lever.values()) {
            if (lever.way == Lever.Way.HELD) {
                move(lever, lever.initial);
            }
        }
        forced.clear();
        unplugged = false;
    }

    public void unplug(boolean out) {
        unplugged = out;
        if (out) {
            armed = false;
            release();
        }
    }

    // the simulated eyes

    /** What a meter shows at the far end of a wire. */
    public double farEnd(Signal signal) {
        if (forced.containsKey(signal)) {
            return forced.get(signal);
        }
        return DEAD_WITHOUT_PACK.contains(signal) ? 0 : far.get(signal);
    }

    /** Starts to note which outputs are on. */
    public void watch() {
        moved.clear();
    }

    /** The outputs that were on at their far ends since {@link #watch}. */
    public Set<Output> moved() {
        return EnumSet.copyOf(moved);
    }

    /** Whether a contactor is really closed, whatever its contact or its command says. */
    public boolean isClosed(Output contactor) {
        return car.truth(
                        switch (contactor) {
                            case NEGATIVE_CONTACTOR -> Quantity.NEGATIVE_CLOSED;
                            case PRECHARGE_RELAY -> Quantity.PRECHARGE_CLOSED;
                            case POSITIVE_CONTACTOR -> Quantity.POSITIVE_CLOSED;
                            default -> throw new IllegalArgumentException(contactor.key() + " is no contactor");
                        })
                != 0;
    }

    /** Whether anything was ever driven. */
    public boolean everDriven() {
        return everDriven;
    }

    // the wires

    private double nearEnd(Signal signal) {
        Signal from = read.get(signal);
        return from == null ? first.computeIfAbsent(signal, s -> s.isSwitch() ? 0 : farEnd(s)) : farEnd(from);
    }

    private double arriving(Output output) {
        Output from = driven.get(output);
        return from == null || COILS.contains(output) && isCut() ? 0 : asked.get(from);
    }

    /** What each wire leads to, for all wires of a kind by name; a dead wire leads to nothing and is not in it. */
    private static <W> Map<W, W> wires(Map<String, W> byKey, List<WireFault> faults) {
        Map<W, W> wires = new HashMap<>();
        byKey.forEach((key, wire) -> {
            String source = key;
            boolean dead = false;
            for (WireFault fault : faults) {
                dead |= fault.kind() == WireFault.Kind.DEAD && fault.where().equals(key);
                if (fault.kind() == WireFault.Kind.SWAPPED) {
                    source = fault.where().equals(key)
                            ? fault.other()
                            : fault.other().equals(key) ? fault.where() : source;
                }
            }
            if (!dead) {
                wires.put(wire, Objects.requireNonNull(byKey.get(source), source));
            }
        });
        return wires;
    }

    private boolean isCut() {
        if (cutAtNs == NOT_CUT) {
            return false;
        }
        for (WireFault fault : faults) {
            if (fault.kind() == WireFault.Kind.BYPASSED) {
                return false;
            }
            if (fault.kind() == WireFault.Kind.SLOW) {
                return nowNs - cutAtNs >= fault.ms() * NS_PER_MS;
            }
        }
        return true;
    }

    private void carry() {
        for (Output output : drives()) {
            double value = arriving(output);
            reached.set(output, value);
            if (value != 0) {
                moved.add(output);
                everDriven = true;
            }
        }
        car.command(reached, nowNs);
    }

    // Clock

    @Override
    public long nowNs() {
        return nowNs;
    }

    @Override
    public void waitUntil(long deadlineNs) {
        while (nowNs < deadlineNs) {
            carry();
            long ms = cutAtNs == NOT_CUT ? Math.max(1, (deadlineNs - nowNs) / NS_PER_MS) : 1;
            car.advance(ms / 1000.0);
            nowNs += ms * NS_PER_MS;
        }
    }

    // Pins

    @Override
    public Device device() {
        return this;
    }

    @Override
    public Clock clock() {
        return this;
    }

    @Override
    public String identity() {
        return "simulated loom of " + car.vehicle().name();
    }

    @Override
    public Health arm() {
        armed = !unplugged;
        return health();
    }

    @Override
    public void disarm() {
        armed = false;
        release();
    }

    @Override
    public boolean isConnected() {
        return !unplugged;
    }

    @Override
    public BoardMap map() {
        return map;
    }

    @Override
    public List<String> figures() {
        return List.of("a rehearsal has no board and no latency");
    }

    // Device

    @Override
    public void sample(Samples into, long atNs) {
        car.sample(far, nowNs);
        if (unplugged) {
            return;
        }
        for (Signal signal : samples()) {
            double shows = nearEnd(signal);
            if (!Double.isNaN(shows)) {
                into.put(signal, shows, nowNs);
            }
        }
    }

    @Override
    public void command(Commands commands, long atNs) {
        if (armed) {
            asked.copyFrom(commands);
        }
    }

    @Override
    public void release() {
        asked.release();
    }

    @Override
    public Health health() {
        return unplugged ? Health.lost("the cable of the simulated loom is out") : Health.OK;
    }

    @Override
    public void close() {
        disarm();
    }
}
