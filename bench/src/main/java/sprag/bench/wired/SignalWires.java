package sprag.bench.wired;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.drawing.live.CircuitPlan;
import sprag.bench.drawing.live.RunningCircuit;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.supervisor.vocabulary.Signal;

/** What the wires make of each signal on its way to the supervisor. */
final class SignalWires {
    /** What arrives. */
    enum Arrives {
        /** What the sensor says. */
        TRUTH,
        /** What an open wire shows. */
        OPEN,
        /** What a wire shorted to ground shows. */
        LOW,
        /** What a wire shorted to its supply shows. */
        HIGH,
        /** The mean of what two joined sensors say. */
        MEAN,
        /** Nothing at all. */
        NOTHING
    }

    private enum Way {
        CONTACT,
        WIPER,
        DIVIDER,
        LINE,
        SUPPLY,
        BUS
    }

    /** One signal: the supervisor's terminal, the sensor's terminal, and the part that speaks. */
    private record Shown(Signal signal, Way way, int terminal, int source, String part) {}

    private final CircuitPlan plan;
    private final PartPower power;
    private final BusLines bus;
    private final RunningCircuit drawn;
    private final List<Shown> shown = new ArrayList<>();

    SignalWires(CircuitPlan plan, PartPower power, BusLines bus) {
        this.plan = plan;
        this.power = power;
        this.bus = bus;
        drawn = new RunningCircuit(plan);
        for (Signal signal : Signal.values()) {
            find(signal).ifPresent(shown::add);
        }
    }

    private Optional<Shown> find(Signal signal) {
        Optional<String> talker = bus.partOf(signal.key());
        if (talker.isPresent()) {
            return Optional.of(new Shown(signal, Way.BUS, -1, -1, talker.get()));
        }
        return plan.schedule().wires().stream()
                .filter(Wire::hasBothEnds)
                .flatMap(w -> Stream.of(w.from(), w.to())
                        .filter(end -> reads(kind(end)))
                        .filter(end -> Wire.pinOf(end).equals(signal.key())
                                || w.carries().contains(signal.key())))
                .findFirst()
                .map(end -> shown(signal, end));
    }

    /** Without a supervisor the inverter reads pedal and lever, and the chargers the pilot, by themselves. */
    private boolean reads(PartKind kind) {
        return kind == PartKind.SUPERVISOR
                || power.isWithoutSupervisor && (kind == PartKind.INVERTER || kind == PartKind.CHARGER);
    }

    private PartKind kind(String terminal) {
        return plan.schedule().parts().get(Wire.partOf(terminal)).kind();
    }

    /** The sensor is what the wires lead to in the drawing, joints left out; a contact counts before all others. */
    private Shown shown(Signal signal, String here) {
        int terminal = plan.terminal(here);
        List<String> others = plan.terminals().stream()
                .filter(name -> drawn.joins(plan.terminal(name), terminal))
                .filter(name -> !reads(kind(name)) && kind(name) != PartKind.CHASSIS)
                .filter(name -> !kind(name).isJoint())
                .toList();
        String there = others.stream()
                .filter(name -> kind(name).isSwitching())
                .findFirst()
                .or(() -> others.stream().findFirst())
                .orElse(here);
        return new Shown(signal, way(here, there), terminal, plan.terminal(there), Wire.partOf(there));
    }

    private Way way(String here, String there) {
        String pin = Wire.pinOf(there);
        boolean sensor = kind(there) == PartKind.SENSOR || kind(there) == PartKind.PEDAL;
        if (Wire.pinOf(here).endsWith("supply")) {
            return Way.SUPPLY;
        }
        if (kind(there).isSwitching()) {
            return Way.CONTACT;
        }
        return sensor && pin.startsWith("wiper") ? Way.WIPER : sensor && pin.equals("a") ? Way.DIVIDER : Way.LINE;
    }

    /** Says what arrives of each signal; the others are left alone.
     *
     * @param into by signal
     */
    void look(RunningCircuit circuit, SimulatedCar car, Arrives[] into) {
        for (Shown each : shown) {
            into[each.signal.ordinal()] = arrives(circuit, car, each);
        }
    }

    private Arrives arrives(RunningCircuit circuit, SimulatedCar car, Shown each) {
        return switch (each.way) {
            case BUS ->
                bus.isHeard(circuit, each.part) && power.isFed(circuit, each.part) ? Arrives.TRUTH : Arrives.NOTHING;
            case CONTACT -> {
                boolean on = circuit.hard(each.terminal, Potential.LOW_VOLTAGE);
                yield on == car.shows(each.signal) > 0 ? Arrives.TRUTH : on ? Arrives.HIGH : Arrives.LOW;
            }
            case SUPPLY -> supply(circuit, each);
            case WIPER, DIVIDER, LINE -> line(circuit, each);
        };
    }

    private static Arrives supply(RunningCircuit circuit, Shown each) {
        boolean ground = circuit.hard(each.terminal, Potential.GROUND);
        boolean low = circuit.hard(each.terminal, Potential.LOW_VOLTAGE);
        boolean fed = low || circuit.hard(each.terminal, Potential.SENSOR);
        boolean ofSensors = each.signal == Signal.PEDAL_SUPPLY_V;
        return ground || !fed ? Arrives.LOW : ofSensors && low ? Arrives.HIGH : Arrives.TRUTH;
    }

    private Arrives line(RunningCircuit circuit, Shown each) {
        if (circuit.hard(each.terminal, Potential.GROUND)) {
            return Arrives.LOW;
        }
        if (circuit.isHeld(each.terminal)) {
            return Arrives.HIGH;
        }
        if (!circuit.joins(each.terminal, each.source) || !power.isFed(circuit, each.part)) {
            return Arrives.OPEN;
        }
        boolean ground = circuit.soft(each.terminal, Potential.GROUND);
        boolean supply =
                circuit.soft(each.terminal, Potential.SENSOR) || circuit.soft(each.terminal, Potential.LOW_VOLTAGE);
        if (each.way == Way.WIPER && !(ground && supply)) {
            return ground ? Arrives.LOW : supply ? Arrives.HIGH : Arrives.OPEN;
        }
        if (each.way == Way.DIVIDER && !ground) {
            return Arrives.OPEN;
        }
        return twin(circuit, each) == null ? Arrives.TRUTH : Arrives.MEAN;
    }

    /** Another sensor whose line is joined to this one; null when there is none. */
    private Shown twin(RunningCircuit circuit, Shown each) {
        for (Shown other : shown) {
            boolean sensor = other.way == Way.WIPER || other.way == Way.DIVIDER || other.way == Way.LINE;
            if (sensor && other.terminal != each.terminal && circuit.joins(other.terminal, each.terminal)) {
                return other;
            }
        }
        return null;
    }

    /** What joined sensors show: their mean. */
    double mean(RunningCircuit circuit, SimulatedCar car, Signal signal) {
        for (Shown each : shown) {
            Shown other = each.signal == signal ? twin(circuit, each) : null;
            if (other != null) {
                return (car.shows(signal) + car.shows(other.signal)) / 2;
            }
        }
        return car.shows(signal);
    }
}
