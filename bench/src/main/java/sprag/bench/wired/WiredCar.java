package sprag.bench.wired;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.PartFault;
import sprag.bench.car.Quantity;
import sprag.bench.car.relay.RelayBox;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.drawing.live.CircuitPlan.Role;
import sprag.bench.drawing.live.Fault;
import sprag.bench.drawing.live.RunningCircuit;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/**
 * The drawn circuit between a supervisor and a simulated car. Outputs pull the coils that they are wired to, and signals arrive
 * by the wires that lead to the supervisor. Where a wire is sound, the car's own value passes untouched.
 */
public final class WiredCar implements Device {
    /** How long a part keeps the last word of a data bus that it no longer hears (ms); common practice. */
    private static final long LET_GO_MS = 500;
    /** How long the watchdog relay waits for a beat when the vehicle's file gives no time (ms); common practice. */
    private static final double BEAT_MS = 200;

    private static final Output[] OUTPUTS = Output.values();
    private static final long NS_PER_MS = 1_000_000;
    private static final Map<Role, PartFault> WELDED = Map.of(
            Role.NEGATIVE, PartFault.NEGATIVE_WELDED,
            Role.PRECHARGE, PartFault.PRECHARGE_WELDED,
            Role.POSITIVE, PartFault.POSITIVE_WELDED);
    private static final Map<Role, PartFault> STUCK_OPEN = Map.of(
            Role.NEGATIVE, PartFault.NEGATIVE_STUCK_OPEN,
            Role.PRECHARGE, PartFault.PRECHARGE_STUCK_OPEN,
            Role.POSITIVE, PartFault.POSITIVE_STUCK_OPEN);

    private final WiredPlan plan;
    private final SimulatedCar car;
    private final Device inner;
    private final RunningCircuit circuit;
    private final Samples fromCar = new Samples();
    private final Commands arriving = new Commands();
    private final SignalWires.Arrives[] signals = new SignalWires.Arrives[Signal.COUNT];
    private final OutputWires.Arrives[] outputs = new OutputWires.Arrives[Output.COUNT];
    private final long[] heardMs = new long[Output.COUNT];
    private final Signal[] sampled;
    private final double beatMs;
    private final Map<PartFault, Boolean> caused = new EnumMap<>(PartFault.class);
    private final List<String> said = new ArrayList<>();
    private long changes;
    private double lastBeat;
    private long beatAtMs;
    private int blown;

    /** Puts the circuit before a car.
     *
     * @param inner the car itself, or a data bus that stands before it
     */
    public WiredCar(WiredPlan plan, SimulatedCar car, Device inner) {
        this.plan = plan;
        this.car = car;
        this.inner = inner;
        Vehicle vehicle = car.vehicle();
        circuit = new RunningCircuit(plan.circuit);
        circuit.timers(plan.timerMs);
        sampled = inner.samples().toArray(Signal[]::new);
        double given = vehicle.get(CarParameter.BOX_WATCHDOG_MS);
        beatMs = given > 0 ? given : BEAT_MS;
        Arrays.fill(signals, SignalWires.Arrives.TRUTH);
        // The watchdog relay has not yet missed a beat.
        plan.driven.forEach(each -> circuit.set(each.control(), each.output() == Output.HEARTBEAT));
    }

    /** Lets something of the drawing break. */
    public void inject(Fault fault) {
        Optional<Role> role = plan.circuit.roleOf(fault);
        if (role.isPresent()) {
            boolean welds = fault.kind() == Fault.Kind.STUCK_CLOSED;
            car.faults().inject(FaultSpec.of((welds ? WELDED : STUCK_OPEN).get(role.get())));
        } else {
            circuit.inject(fault);
        }
    }

    /** How often the circuit may have changed so far. */
    public long changes() {
        return changes;
    }

    /** The circuit as it stands. */
    RunningCircuit circuit() {
        return circuit;
    }

    /** The plan that it was made from. */
    public WiredPlan plan() {
        return plan;
    }

    /** Whether the supervisor has its supply. Without it nothing is decided, and every output is off. */
    public boolean isAwake() {
        return plan.power.supervisor == PartPower.NONE || circuit.works(plan.power.supervisor);
    }

    /** What arrives at relays, lamps and controllers. Live. */
    public Commands arriving() {
        return arriving;
    }

    /** Moves the contacts of a car without a supervisor: the circuit does. */
    public void moveRelays(RelayBox box, Readings in, Commands out) {
        double tickMs = car.vehicle().get(Parameter.LOOP_TICK_MS);
        boolean run = circuit.has(Role.NEGATIVE) && circuit.pulls(Role.NEGATIVE);
        boolean main = run && plan.outputs.isInverterFed(circuit);
        box.follow(in, out, tickMs, run, main, plan.outputs.isChargerJoined(circuit));
    }

    /** What the circuit did by itself, a sentence each, in the order in which it happened. */
    public List<String> said() {
        return said;
    }

    @Override
    public void sample(Samples into, long nowNs) {
        inner.sample(fromCar, nowNs);
        for (WiredPlan.Moved each : plan.moved) {
            circuit.set(each.control(), car.shows(each.signal()) > 0 != each.opens());
        }
        settle(nowNs);
        if (!isAwake()) {
            return;
        }
        boolean linked = inner.health().isWell();
        for (Signal signal : sampled) {
            SignalWires.Arrives arrives = linked ? signals[signal.ordinal()] : SignalWires.Arrives.TRUTH;
            long ageNs = fromCar.ageNs(signal, nowNs);
            if (arrives == SignalWires.Arrives.TRUTH && ageNs != Long.MAX_VALUE) {
                into.put(signal, fromCar.get(signal), nowNs - ageNs);
            } else if (arrives != SignalWires.Arrives.TRUTH && arrives != SignalWires.Arrives.NOTHING) {
                put(into, signal, arrives, nowNs);
            }
        }
    }

    private void put(Samples into, Signal signal, SignalWires.Arrives arrives, long nowNs) {
        double shows = switch (arrives) {
            case OPEN -> car.wire(signal).openShows();
            case LOW -> car.wire(signal).lowShows();
            case HIGH -> car.wire(signal).highShows();
            default -> plan.signals.mean(circuit, car, signal);
        };
        if (!Double.isNaN(shows)) {
            into.put(signal, shows, nowNs);
        }
    }

    /** Works the circuit out again where something has moved, and tells the car where its wires lead. */
    private void settle(long nowNs) {
        boolean closed = car.truth(Quantity.STATION_CLOSED) > 0;
        plan.stations.forEach(station -> circuit.set(station, closed));
        circuit.contacts(
                car.truth(Quantity.NEGATIVE_CLOSED) > 0,
                car.truth(Quantity.PRECHARGE_CLOSED) > 0,
                car.truth(Quantity.POSITIVE_CLOSED) > 0);
        if (circuit.settle(nowNs / NS_PER_MS)) {
            changes++;
            plan.signals.look(circuit, car, signals);
            plan.outputs.look(circuit, outputs);
            plan.outputs.wire(circuit, car, closed);
            plan.packWay.look(circuit, car.wiring().ways);
            cause(PartFault.ISOLATION_LOW, circuit.leaks());
            cause(PartFault.INVERTER_TRIPPED, plan.packWay.lacksPhase(circuit));
            tell(nowNs);
        }
    }

    /** What the circuit does to a part of the car, as a fault of that part while it lasts. */
    private void cause(PartFault part, boolean present) {
        if (caused.getOrDefault(part, false) != present) {
            caused.put(part, present);
            if (present) {
                car.faults().inject(FaultSpec.of(part));
            } else {
                car.faults().clear(FaultSpec.of(part));
            }
        }
    }

    private void tell(long nowNs) {
        List<String> all = circuit.blown();
        for (; blown < all.size(); blown++) {
            said.add(String.format(Locale.ROOT, "%.2f s: %s blows", nowNs / (1000.0 * NS_PER_MS), all.get(blown)));
        }
        String chatter = String.join(", ", circuit.restless());
        if (!chatter.isEmpty() && said.stream().noneMatch(s -> s.contains(chatter))) {
            said.add(chatter + " pulls and releases without end");
        }
    }

    @Override
    public void command(Commands asked, long nowNs) {
        long nowMs = nowNs / NS_PER_MS;
        if (asked.get(Output.HEARTBEAT) != lastBeat) {
            lastBeat = asked.get(Output.HEARTBEAT);
            beatAtMs = nowMs;
        }
        for (WiredPlan.Driven each : plan.driven) {
            boolean on = each.output() == Output.HEARTBEAT ? nowMs - beatAtMs <= beatMs : asked.isOn(each.output());
            circuit.set(each.control(), on);
        }
        settle(nowNs);
        boolean awake = isAwake();
        for (int i = 0; i < OUTPUTS.length; i++) {
            arrive(OUTPUTS[i], asked, awake, nowMs);
        }
        inner.command(arriving, nowNs);
    }

    private void arrive(Output output, Commands asked, boolean awake, long nowMs) {
        int i = output.ordinal();
        switch (outputs[i]) {
            case ON -> arriving.set(output, 1);
            case OFF -> arriving.set(output, 0);
            case ASKED -> {
                arriving.set(output, awake ? asked.get(output) : 0);
                heardMs[i] = nowMs;
            }
            case SILENCE -> {
                if (nowMs - heardMs[i] > LET_GO_MS) {
                    arriving.set(output, 0);
                }
            }
        }
    }

    @Override
    public String name() {
        return inner.name() + ", wired as drawn";
    }

    @Override
    public Set<Signal> samples() {
        return inner.samples();
    }

    @Override
    public Set<Output> drives() {
        return inner.drives();
    }

    @Override
    public void release() {
        inner.release();
    }

    @Override
    public Health health() {
        return inner.health();
    }

    @Override
    public void close() {
        inner.close();
    }
}
