package sprag.bench.wired;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import sprag.bench.drawing.live.CircuitPlan;
import sprag.bench.drawing.live.Fault;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** A vehicle's schedule, read once, for any number of cars that are run with it. */
public final class WiredPlan {
    /** Wires that are followed; more than any car has. */
    static final int MOST_WIRES = 10_000;

    /** A control that follows an output. */
    record Driven(int control, Output output) {}

    /** A control that follows what is truly so of a signal. */
    record Moved(int control, Signal signal, boolean opens) {}

    final CircuitPlan circuit;
    final PartPower power;
    final BusLines bus;
    final SignalWires signals;
    final OutputWires outputs;
    final PackWay packWay;
    final List<Driven> driven = new ArrayList<>();
    final List<Moved> moved = new ArrayList<>();
    final List<Integer> stations = new ArrayList<>();
    final double timerMs;
    private final Map<String, Fault> byKey = new HashMap<>();

    WiredPlan(Schedule schedule, Vehicle vehicle) {
        circuit = new CircuitPlan(schedule, vehicle.get(Parameter.PACK_MAX_V), vehicle.get(Parameter.INLET_SUPPLY_V));
        power = new PartPower(circuit);
        bus = new BusLines(circuit);
        signals = new SignalWires(circuit, power, bus);
        outputs = new OutputWires(circuit, power, bus);
        packWay = new PackWay(circuit, power);
        timerMs = vehicle.get(CarParameter.RELAYS_TIMER_MS);
        faults().forEach(fault -> byKey.putIfAbsent(fault.key(), fault));
        boolean hasCutOff = IntStream.range(0, circuit.controls().size())
                .anyMatch(c -> circuit.controls().get(c).kind() == Control.Kind.CUT_OFF && !circuit.isServiceSwitch(c));
        for (int c = 0; c < circuit.controls().size(); c++) {
            assign(c, circuit.controls().get(c), hasCutOff);
        }
    }

    /** Reads the schedule in a vehicle's folder.
     *
     * @throws BadInput when there is none, or with everything that is wrong with it
     */
    public static WiredPlan of(Vehicle vehicle) throws BadInput {
        Schedule schedule = ScheduleFiles.require(vehicle.folder());
        if (schedule.wires().size() > MOST_WIRES) {
            Problems problems = new Problems();
            problems.add(
                    vehicle.folder().resolve(Schedule.WIRES_FILE),
                    "has " + schedule.wires().size() + " wires; with --wired at most " + MOST_WIRES + " are followed",
                    "Leave out what does not belong to the drive.");
            throw new BadInput(problems.list());
        }
        boolean drawn = schedule.parts().values().stream().anyMatch(p -> p.kind() == PartKind.SUPERVISOR);
        if (!drawn && !CarParameter.hasRelays(vehicle)) {
            Problems problems = new Problems();
            problems.add(
                    vehicle.folder().resolve(Schedule.WIRES_FILE),
                    "draws no supervisor, so that nothing could pull a coil",
                    "Draw the supervisor with its outputs and signals, or leave --wired out.");
            throw new BadInput(problems.list());
        }
        return new WiredPlan(schedule, vehicle);
    }

    private void assign(int number, Control control, boolean hasCutOff) {
        switch (control.kind()) {
            case OUTPUT ->
                Optional.of(control.part()).ifPresent(key -> {
                    for (Output output : Output.values()) {
                        if (output.key().equals(key)) {
                            driven.add(new Driven(number, output));
                        }
                    }
                });
            case CUT_OFF -> {
                if (!hasCutOff || !circuit.isServiceSwitch(number)) {
                    moved.add(new Moved(number, Signal.CUT_LOOP_CLOSED, true));
                }
            }
            case KEY, KEY_START, TIMER, SWITCH ->
                SwitchRole.of(circuit, number)
                        .ifPresent(signal -> moved.add(new Moved(number, signal, circuit.opens(number))));
            case STATION -> stations.add(number);
            default -> {}
        }
    }

    /** The schedule that it was read from. */
    public Schedule schedule() {
        return circuit.schedule();
    }

    /** The part whose contact or fuse a fault is in. */
    public String partOf(Fault fault) {
        return circuit.partOf(fault);
    }

    /** Everything in the drawing that can break, one at a time. */
    public List<Fault> faults() {
        return circuit.faults();
    }

    /** The fault of a key, such as {@code L013.broken}. */
    public Optional<Fault> fault(String key) {
        return Optional.ofNullable(byKey.get(key));
    }
}
