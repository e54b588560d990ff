package sprag.bench.drawing.live;

import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Link;
import sprag.bench.drawing.live.element.Node;
import sprag.bench.drawing.live.element.Pole;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.supervisor.vocabulary.Output;

/** Makes the circuit of switches from a schedule: what each kind of part and each of its terminals means. */
public final class CircuitReader {
    /** What the two supplies count as: a 12 V battery while it is charged, and the peak of 230 V mains. */
    private static final double LOW_VOLTAGE_V = 14.4;

    private static final double PEAK = Math.sqrt(2);
    /** Parts are rated for the nominal 12 V, terminals for what stands on them. */
    private static final double LEAST_12V_RATING_V = 12;

    private static final Set<String> OUTPUTS = outputs();

    private final Schedule schedule;
    private final Set<Part> loopSwitches;
    private final SwitchCircuit circuit = new SwitchCircuit();
    private final Map<String, Map<String, Integer>> pins = new LinkedHashMap<>();
    private final Map<String, Integer> controlOf = new HashMap<>();

    private CircuitReader(Schedule schedule) {
        this.schedule = schedule;
        loopSwitches = new DrawnCircuit(schedule).loopSwitches();
    }

    /** Reads a schedule.
     *
     * @param schedule the schedule
     * @param packMaxV the greatest voltage of the pack (V)
     * @param mainsV the supply's voltage (V, effective)
     * @return the circuit
     */
    public static SwitchCircuit read(Schedule schedule, double packMaxV, double mainsV) {
        CircuitReader reader = new CircuitReader(schedule);
        reader.volts(packMaxV, mainsV * PEAK);
        reader.readWires();
        reader.pins.forEach((part, byPin) -> reader.readPart(schedule.parts().get(part), byPin));
        reader.readPacks();
        reader.readDrivers();
        return reader.circuit;
    }

    private static Set<String> outputs() {
        return Set.copyOf(Arrays.stream(Output.values())
                .filter(Output::isSwitch)
                .map(Output::key)
                .toList());
    }

    private void volts(double packMaxV, double mainsPeakV) {
        for (Potential potential : Potential.values()) {
            circuit.volts[potential.ordinal()] = potential.isTraction()
                    ? packMaxV
                    : potential.isMains()
                            ? mainsPeakV
                            : switch (potential) {
                                case LOW_VOLTAGE -> LOW_VOLTAGE_V;
                                case SENSOR -> 5;
                                default -> 0;
                            };
        }
    }

    private void readWires() {
        Map<String, Double> ratedV = new HashMap<>();
        Map<String, Boolean> traction = new HashMap<>();
        Map<String, String> nets = new LinkedHashMap<>();
        for (Wire wire : schedule.wires()) {
            note(wire, wire.from(), wire.fromPinV(), ratedV);
            note(wire, wire.to(), wire.toPinV(), ratedV);
            for (String end : List.of(wire.from(), wire.to())) {
                traction.merge(end, wire.voltageClass() == VoltageClass.TRACTION, Boolean::logicalOr);
                nets.putIfAbsent(end, wire.net());
            }
        }
        nets.remove("");
        nets.forEach((name, net) -> {
            double rated = Math.min(ratedV.getOrDefault(name, Double.POSITIVE_INFINITY), partRatingV(name));
            circuit.nodeOf.put(name, circuit.nodes.size());
            circuit.nodes.add(new Node(name, net, traction.get(name), rated));
            pins.computeIfAbsent(Wire.partOf(name), p -> new TreeMap<>())
                    .put(Wire.pinOf(name), circuit.nodeOf.get(name));
        });
        for (Wire wire : schedule.wires()) {
            if (wire.hasBothEnds()) {
                circuit.wires.add(new SwitchCircuit.Conductor(
                        wire, circuit.nodeOf.get(wire.from()), circuit.nodeOf.get(wire.to())));
            }
        }
    }

    private static void note(Wire wire, String end, double pinV, Map<String, Double> ratedV) {
        if (!end.isEmpty() && !Double.isNaN(pinV)) {
            ratedV.merge(end, pinV, Math::min);
        }
    }

    /** Only a part of the sensors' 5 V says by its rating that 12 V is too much for it. */
    private double partRatingV(String terminal) {
        Part part = schedule.parts().get(Wire.partOf(terminal));
        return part.ratedV() < LEAST_12V_RATING_V ? part.ratedV() : Double.POSITIVE_INFINITY;
    }

    private int control(Control.Kind kind, String part, String setWords) {
        return controlOf.computeIfAbsent(kind + setWords, k -> {
            circuit.controls.add(new Control(kind, part, setWords));
            return circuit.controls.size() - 1;
        });
    }

    private void readPart(Part part, Map<String, Integer> byPin) {
        String name = part.name();
        switch (part.kind()) {
            case SPLICE, CHASSIS -> {
                circuit.joints.add(
                        byPin.values().stream().mapToInt(Integer::intValue).toArray());
                if (part.kind() == PartKind.CHASSIS) {
                    circuit.chassis = byPin.values().iterator().next();
                }
            }
            case FUSE -> pairs(part, byPin, Gate.openedBy(control(Control.Kind.FUSE, name, name + " out")));
            case RESISTOR -> load(name, byPin, "in", "out");
            case SUPPRESSOR -> load(name, byPin, "a", "b");
            case SHUNT, CURRENT_SENSOR -> {
                link(Link.Sort.FIXED, name, byPin.get("pack"), byPin.get("load"), Gate.ALWAYS);
                link(Link.Sort.FIXED, name, byPin.get("pack"), byPin.get("sense_plus"), Gate.ALWAYS);
                link(Link.Sort.FIXED, name, byPin.get("load"), byPin.get("sense_minus"), Gate.ALWAYS);
                consumer(Consumer.Kind.SUPPLY, name, byPin.get("supply"), byPin.get("ground"));
            }
            case CONTACTOR, RELAY, TIMER -> readRelay(part, byPin);
            case CUT_OFF, SWITCH -> readSwitch(part, byPin);
            case KEY -> readKey(name, byPin);
            case SUPERVISOR -> readSupervisor(name, byPin);
            case LV_BATTERY -> {
                pole(
                        Potential.LOW_VOLTAGE,
                        byPin.get("plus"),
                        Gate.openedBy(control(Control.Kind.BATTERY, name, name + " off")));
                pole(Potential.GROUND, byPin.get("minus"), Gate.ALWAYS);
            }
            case INLET -> {
                Gate plugged = Gate.closedBy(control(Control.Kind.STATION, name, "station feeds " + name));
                pole(Potential.LINE, byPin.get("line"), plugged);
                pole(Potential.NEUTRAL, byPin.get("neutral"), plugged);
            }
            default -> readLoad(part, byPin);
        }
    }

    private void readLoad(Part part, Map<String, Integer> byPin) {
        String name = part.name();
        int awake = consumer(Consumer.Kind.SUPPLY, name, byPin.get("supply"), byPin.get("ground"));
        if (awake != Gate.NONE) {
            sensorSupply(name, byPin, awake);
        }
        switch (part.kind()) {
            case LAMP -> consumer(Consumer.Kind.LAMP, name, byPin.get("plus"), byPin.get("minus"));
            case LOAD -> consumer(Consumer.Kind.SUPPLY, name, byPin.get("plus"), byPin.get("minus"));
            case HEATER, INVERTER -> {
                consumer(Consumer.Kind.TRACTION, name, byPin.get("plus"), byPin.get("minus"));
                if (part.kind() == PartKind.INVERTER && byPin.containsKey("enable")) {
                    circuit.wakes.add(byPin.get("enable"));
                }
                for (String phase : List.of("u", "v", "w")) {
                    load(name, byPin, "plus", phase);
                }
            }
            case DCDC -> {
                int taker = consumer(Consumer.Kind.TRACTION, name, byPin.get("plus"), byPin.get("minus"));
                Gate works = new Gate(converterControl(), false, taker, false);
                // Its output touches nothing else: with one end alone it gives nothing.
                if (byPin.containsKey("out_plus") && byPin.containsKey("out_minus")) {
                    pole(Potential.LOW_VOLTAGE, byPin.get("out_plus"), works);
                    pole(Potential.GROUND, byPin.get("out_minus"), works);
                }
            }
            case CHARGER -> {
                consumer(Consumer.Kind.TRACTION, name, byPin.get("plus"), byPin.get("minus"));
                consumer(Consumer.Kind.MAINS, name, byPin.get("line"), byPin.get("neutral"));
            }
            case PEDAL, SENSOR -> {
                load(name, byPin, "a", "b");
                byPin.keySet().stream().filter(pin -> pin.startsWith("wiper")).forEach(wiper -> {
                    load(name, byPin, "supply", wiper);
                    load(name, byPin, wiper, "ground");
                });
            }
            case MONITOR, ISOLATION_MONITOR -> load(name, byPin, "plus", "minus");
            default -> {}
        }
    }

    /** The converter gives 12 V only when it is told to, by wire or by the data bus. */
    private int converterControl() {
        String output = Output.DCDC_ENABLE.key();
        boolean told = schedule.wires().stream()
                .anyMatch(w -> w.carries().contains(output)
                        || Wire.pinOf(w.from()).equals(output)
                        || Wire.pinOf(w.to()).equals(output));
        return told ? control(Control.Kind.OUTPUT, output, output + " on") : Gate.NONE;
    }

    private void readRelay(Part part, Map<String, Integer> byPin) {
        String name = part.name();
        int coil = consumer(Consumer.Kind.COIL, name, byPin.get("coil_plus"), byPin.get("coil_minus"));
        // Nobody knows what a contact does whose coil is not drawn: both positions are tried.
        Gate gate = coil == Gate.NONE
                ? Gate.closedBy(control(Control.Kind.SWITCH, name, name + " closed"))
                : part.kind() == PartKind.TIMER
                        ? Gate.both(control(Control.Kind.TIMER, name, name + " has run"), coil)
                        : Gate.pulledBy(coil);
        pairs(part, byPin, gate);
        link(Link.Sort.CONTACT, name, byPin.get("in"), byPin.get("rest"), gate.inverse());
        link(Link.Sort.AUXILIARY, name, byPin.get("aux_a"), byPin.get("aux_b"), gate);
    }

    private void readSwitch(Part part, Map<String, Integer> byPin) {
        String name = part.name();
        boolean cutOff = part.kind() == PartKind.CUT_OFF;
        boolean loop = loopSwitches.contains(part);
        Control.Kind kind = cutOff ? Control.Kind.CUT_OFF : Control.Kind.SWITCH;
        String set = cutOff ? " pressed or out" : loop ? " open" : " closed";
        int main = control(kind, name, name + set);
        Gate gate = cutOff || loop ? Gate.openedBy(main) : Gate.closedBy(main);
        for (String pin : byPin.keySet()) {
            if (!pin.matches("out(_\\d+)?")) {
                continue;
            }
            String ending = pin.substring("out".length());
            Integer own = byPin.get("in" + ending);
            boolean secondThrow = !ending.isEmpty() && own == null && byPin.containsKey("out");
            Gate throwGate =
                    secondThrow ? Gate.closedBy(control(Control.Kind.SWITCH, name, name + " to " + pin)) : gate;
            link(Link.Sort.CONTACT, name, own == null ? byPin.get("in") : own, byPin.get(pin), throwGate);
        }
        link(Link.Sort.CONTACT, name, byPin.get("in"), byPin.get("rest"), gate.inverse());
        link(Link.Sort.AUXILIARY, name, byPin.get("aux_a"), byPin.get("aux_b"), gate);
    }

    private void readKey(String name, Map<String, Integer> byPin) {
        for (String position : List.of("drive", "out", "accessory", "start")) {
            if (byPin.containsKey(position)) {
                Control.Kind kind = position.equals("start") ? Control.Kind.KEY_START : Control.Kind.KEY;
                int control = control(kind, name, name + " to " + position);
                link(
                        Link.Sort.CONTACT,
                        name,
                        byPin.get("in"),
                        byPin.get(position),
                        new Gate(control, false, Gate.NONE, false));
            }
        }
    }

    /** An output joins its terminal to ground, or to plus when the supervisor has a supply for its outputs. */
    private void readSupervisor(String name, Map<String, Integer> byPin) {
        circuit.supervised = true;
        int awake = consumer(Consumer.Kind.SUPPLY, name, byPin.get("supply"), byPin.get("ground"));
        Integer rail = byPin.containsKey("output_supply") ? byPin.get("output_supply") : byPin.get("ground");
        for (Map.Entry<String, Integer> entry : byPin.entrySet()) {
            if (OUTPUTS.contains(entry.getKey())) {
                int output = control(Control.Kind.OUTPUT, entry.getKey(), entry.getKey() + " on");
                link(Link.Sort.CONTACT, name, entry.getValue(), rail, Gate.both(output, awake));
            }
        }
        sensorSupply(name, byPin, awake);
    }

    private void sensorSupply(String name, Map<String, Integer> byPin, int awake) {
        link(Link.Sort.FIXED, name, byPin.get("sensor_ground"), byPin.get("ground"), Gate.ALWAYS);
        pole(Potential.SENSOR, byPin.get("sensor_supply"), Gate.pulledBy(awake));
    }

    private void readPacks() {
        DrawnCircuit drawn = new DrawnCircuit(schedule);
        Sides sides = new Sides(drawn);
        for (Part part : schedule.parts().values()) {
            Map<String, Integer> byPin = pins.getOrDefault(part.name(), Map.of());
            if (part.kind() != PartKind.PACK) {
                continue;
            }
            Integer plus = byPin.get("plus");
            Integer minus = byPin.get("minus");
            boolean plusInside = plus != null && sides.middle.get(drawn.netOf(part.name() + ".plus"));
            boolean minusInside = minus != null && sides.middle.get(drawn.netOf(part.name() + ".minus"));
            pole(minusInside ? Potential.PACK_MIDDLE : Potential.PACK_MINUS, minus, Gate.ALWAYS);
            if (plusInside) {
                circuit.chainEnds.add(plus);
            } else {
                pole(Potential.PACK_PLUS, plus, Gate.ALWAYS);
            }
        }
    }

    /** Finds the output that drives each coil: the one whose terminal a wire joins to the coil. */
    private void readDrivers() {
        Netlist sound =
                new Netlist(circuit, Fault.NOTHING, new Netlist.Setup(new BitSet(), new BitSet(), new BitSet()));
        for (int c = 0; c < circuit.consumers.size(); c++) {
            Consumer coil = circuit.consumers.get(c);
            if (coil.kind() != Consumer.Kind.COIL) {
                continue;
            }
            for (Link link : circuit.links) {
                boolean output = link.gate().control() != Gate.NONE
                        && circuit.controls.get(link.gate().control()).kind() == Control.Kind.OUTPUT;
                if (output && (sound.joins(link.a(), coil.a()) || sound.joins(link.a(), coil.b()))) {
                    circuit.drivenBy.put(c, link.gate().control());
                }
            }
        }
    }

    private void pairs(Part part, Map<String, Integer> byPin, Gate gate) {
        Link.Sort sort = part.kind() == PartKind.FUSE ? Link.Sort.FUSE : Link.Sort.CONTACT;
        for (Map.Entry<String, Integer> entry : byPin.entrySet()) {
            if (entry.getKey().matches("out(_\\d+)?")) {
                Integer own = byPin.get("in" + entry.getKey().substring("out".length()));
                Integer in = own == null ? byPin.get("in") : own;
                if (in != null) {
                    circuit.links.add(new Link(sort, part.name(), in, entry.getValue(), gate, part.ratedA()));
                }
            }
        }
    }

    private void link(Link.Sort sort, String part, Integer a, Integer b, Gate gate) {
        if (a != null && b != null) {
            circuit.links.add(new Link(sort, part, a, b, gate, Double.NaN));
        }
    }

    private void load(String part, Map<String, Integer> byPin, String a, String b) {
        link(Link.Sort.LOAD, part, byPin.get(a), byPin.get(b), Gate.ALWAYS);
    }

    /** A consumer is a load as well. */
    private int consumer(Consumer.Kind kind, String part, Integer a, Integer b) {
        boolean half = a == null ^ b == null;
        boolean counts = kind == Consumer.Kind.COIL || kind == Consumer.Kind.LAMP;
        if (a == null && b == null || half && !counts) {
            return Gate.NONE;
        }
        if (!half) {
            link(Link.Sort.LOAD, part, a, b, Gate.ALWAYS);
        }
        PartKind owner = schedule.parts().get(part).kind();
        circuit.consumers.add(
                new Consumer(kind, owner, part, a == null ? openEnd(part) : a, b == null ? openEnd(part) : b));
        return circuit.consumers.size() - 1;
    }

    /** The terminal of a coil or a lamp that no wire leads to: what it belongs to is there and never works. It has no net. */
    private int openEnd(String part) {
        circuit.nodes.add(new Node(part + ".open", "", false, Double.POSITIVE_INFINITY));
        return circuit.nodes.size() - 1;
    }

    private void pole(Potential potential, Integer node, Gate gate) {
        if (node != null) {
            circuit.poles.add(new Pole(potential, node, gate));
        }
    }
}
