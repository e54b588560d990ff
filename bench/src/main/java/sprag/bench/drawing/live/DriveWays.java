package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.PartKind;

/** What the circuit must give an inverter so that it can turn the motor: both poles of the pack, and what wakes it. */
final class DriveWays {
    private final SwitchCircuit circuit;
    private final int[] inverters;
    private final int[] drawnSupplies;
    private final int[] supplies;
    private final Potential wakeBy;
    /** The outputs without which both poles must not arrive, and the one without which nothing may wake it. */
    private final int[] contactorOutputs;

    private final int wakeOutput;

    DriveWays(SwitchCircuit circuit) {
        this.circuit = circuit;
        inverters = circuit.consumers(Consumer.Kind.TRACTION, PartKind.INVERTER);
        contactorOutputs = IntStream.of(output("negative_contactor"), output("positive_contactor"))
                .filter(c -> c != Gate.NONE)
                .toArray();
        wakeOutput = output("inverter_enable");
        wakeBy = wakePotential();
        // Where neither a terminal nor a relay of its own wakes it, the data bus does, of which a circuit knows
        // nothing.
        boolean byRelay =
                circuit.isUnsupervised() || circuit.drivenBy.values().stream().anyMatch(output -> output == wakeOutput);
        drawnSupplies = circuit.consumers(Consumer.Kind.SUPPLY, PartKind.INVERTER);
        supplies = circuit.wakes.isEmpty() && byRelay ? drawnSupplies : new int[0];
    }

    private int output(String key) {
        return circuit.control(Control.Kind.OUTPUT, key);
    }

    /** An output grounds what it switches, unless the supervisor has a supply for its outputs. */
    private Potential wakePotential() {
        return circuit.isUnsupervised() || circuit.nodeOf.keySet().stream().anyMatch(t -> t.endsWith(".output_supply"))
                ? Potential.LOW_VOLTAGE
                : Potential.GROUND;
    }

    /** The controls that the promises about driving speak of. */
    IntStream premises() {
        IntStream asked = IntStream.concat(IntStream.of(contactorOutputs), IntStream.of(wakeOutput));
        boolean drawn = inverters.length + supplies.length + circuit.wakes.size() > 0;
        IntStream plugs = drawn ? IntStream.of(circuit.plugs()) : IntStream.empty();
        IntStream byHand = circuit.isUnsupervised()
                ? IntStream.concat(
                        IntStream.of(circuit.switches("start")), IntStream.of(circuit.controls(Control.Kind.KEY)))
                : IntStream.empty();
        return IntStream.concat(asked, IntStream.concat(plugs, byHand));
    }

    /** Where an inverter has both poles without a resistor between. */
    long joins(Flow flow) {
        long joined = 0;
        for (int number : inverters) {
            Consumer inverter = circuit.consumers.get(number);
            joined |= flow.hard(inverter.a(), Potential.PACK_PLUS) & flow.hard(inverter.b(), Potential.PACK_MINUS);
        }
        return joined & flow.chain();
    }

    boolean canWake() {
        return supplies.length > 0 || !circuit.wakes.isEmpty();
    }

    /** Where an inverter has what wakes it. */
    long awake(Flow flow) {
        long awake = 0;
        for (int supply : supplies) {
            awake |= flow.fed[supply];
        }
        for (int wake : circuit.wakes) {
            awake |= flow.hard(wake, wakeBy);
        }
        return awake;
    }

    /** Where an inverter has what wakes it, and its supply where one is drawn. */
    long woken(Flow flow) {
        long fed = drawnSupplies.length == 0 ? -1 : 0;
        for (int supply : drawnSupplies) {
            fed |= flow.fed[supply];
        }
        return awake(flow) & fed;
    }

    /** Where pack plus reaches an inverter, but only through a load. */
    long throughResistor(Flow flow) {
        long found = 0;
        for (int inverter : inverters) {
            int plus = circuit.consumers.get(inverter).a();
            found |= flow.soft(plus, Potential.PACK_PLUS) & ~flow.hard(plus, Potential.PACK_PLUS);
        }
        return found;
    }

    /** Where one of both is there although no output asks for it. */
    long unasked(Flow flow) {
        return joins(flow) & ~asked(flow, contactorOutputs) | awake(flow) & ~asked(flow, wakeOutput);
    }

    private static long asked(Flow flow, int... outputs) {
        long all = outputs.length == 0 ? 0 : -1;
        for (int output : outputs) {
            all &= output == Gate.NONE ? 0 : flow.controls()[output];
        }
        return all;
    }

    /** Says which inverter has what nobody asked for, and which way it comes. */
    String words(Flow flow, Tracer tracer, List<String> ways) {
        List<String> words = new ArrayList<>();
        if ((joins(flow) & ~asked(flow, contactorOutputs) & 1) != 0) {
            words.add(reached(flow, tracer, ways));
        }
        if ((awake(flow) & ~asked(flow, wakeOutput) & 1) != 0) {
            words.add(woken(flow, tracer, ways));
        }
        return String.join(", ", words);
    }

    /** Says that an inverter is awake, and which way what wakes it comes. */
    String woken(Flow flow, Tracer tracer, List<String> ways) {
        IntStream.of(supplies)
                .filter(c -> (flow.fed[c] & 1) != 0)
                .forEach(c -> ways.add(way(
                        tracer, Potential.LOW_VOLTAGE, circuit.consumers.get(c).a())));
        circuit.wakes.forEach(wake -> ways.add(way(tracer, wakeBy, wake)));
        return "the inverter is awake";
    }

    /** Says which inverter pack plus reaches, and which way. */
    String reached(Flow flow, Tracer tracer, List<String> ways) {
        boolean hard = (joins(flow) & 1) != 0;
        Arrays.stream(inverters)
                .map(c -> circuit.consumers.get(c).a())
                .forEach(plus -> ways.add(way(tracer, Potential.PACK_PLUS, plus)));
        ways.removeIf(String::isEmpty);
        return hard ? "the inverter has both poles of the pack" : "the inverter draws its current through the resistor";
    }

    private static String way(Tracer tracer, Potential potential, int node) {
        return String.join(" ", tracer.wayTo(potential, node));
    }
}
