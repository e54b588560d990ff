package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Link;
import sprag.bench.drawing.live.element.Node;
import sprag.bench.drawing.live.element.Pole;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * A schedule made ready to be run beside a simulated car. Contacts that take their time do not follow their coils here: the car, or
 * a timer, says where they are.
 */
public final class CircuitPlan {
    /** What the three contacts between pack and bus are for. In the order of the bits of a position. */
    public enum Role {
        /** In the line from pack minus. */
        NEGATIVE,
        /** In series with the resistor. */
        PRECHARGE,
        /** In the line from pack plus. */
        POSITIVE
    }

    /** A timer relay: its coil, and the control that says whether its time has run. */
    record Timer(int coil, int position) {}

    final Schedule schedule;
    final SwitchCircuit circuit;
    /** The coils of each role; a role that is not drawn is missing. */
    final Map<Role, List<Integer>> coils = new EnumMap<>(Role.class);
    /** The control that says where the contacts of a role are. */
    final Map<Role, Integer> positions = new EnumMap<>(Role.class);

    final List<Timer> timers = new ArrayList<>();
    /** The control that stops each DC-DC converter, and the one that pulls the sensors' supply down. */
    final int converterDead;

    final int sensorDown;
    private final List<Fault> faults;

    /** Makes a schedule ready.
     *
     * @param packMaxV the greatest voltage of the pack (V)
     * @param mainsV the supply's voltage (V, effective)
     */
    public CircuitPlan(Schedule schedule, double packMaxV, double mainsV) {
        this.schedule = schedule;
        circuit = CircuitReader.read(schedule, packMaxV, mainsV);
        findMains();
        findPrecharge();
        for (int coil : circuit.consumers(Consumer.Kind.COIL)) {
            if (kind(circuit.consumers.get(coil).part()) == PartKind.TIMER) {
                timers.add(new Timer(coil, added(circuit.consumers.get(coil).part())));
            }
        }
        coils.keySet().forEach(role -> positions.put(role, added(role.name())));
        converterDead = added("converter");
        sensorDown = added("sensor supply");
        Map<Integer, Integer> positionOf = new HashMap<>();
        coils.forEach((role, list) -> list.forEach(coil -> positionOf.put(coil, positions.get(role))));
        timers.forEach(timer -> positionOf.put(timer.coil, timer.position));
        regate(positionOf);
        circuit.poles.replaceAll(this::gated);
        faults = Fault.all(circuit, schedule);
    }

    private PartKind kind(String part) {
        Part known = schedule.parts().get(part);
        return known == null ? PartKind.OTHER : known.kind();
    }

    private int added(String part) {
        circuit.controls.add(new Control(Control.Kind.POSITION, part, part));
        return circuit.controls.size() - 1;
    }

    private void regate(Map<Integer, Integer> positionOf) {
        circuit.links.replaceAll(link -> {
            Integer position = positionOf.get(link.gate().consumer());
            return position == null
                    ? link
                    : new Link(
                            link.sort(),
                            link.part(),
                            link.a(),
                            link.b(),
                            new Gate(position, link.gate().releases(), Gate.NONE, false),
                            link.ratingA());
        });
    }

    /** A converter's poles and the sensors' supply can be made to give nothing. */
    private Pole gated(Pole pole) {
        Gate gate = pole.gate();
        boolean converter = gate.consumer() != Gate.NONE
                && circuit.consumers.get(gate.consumer()).kind() == Consumer.Kind.TRACTION;
        if (pole.potential() == Potential.SENSOR) {
            return new Pole(pole.potential(), pole.node(), new Gate(sensorDown, true, gate.consumer(), false));
        }
        return converter && gate.control() == Gate.NONE
                ? new Pole(pole.potential(), pole.node(), new Gate(converterDead, true, gate.consumer(), false))
                : pole;
    }

    /** A contact is in the line from pack plus when the inverter loses pack plus without it, though all others are closed. */
    private void findMains() {
        int[] traction = circuit.tractionCoils();
        Map<Integer, Integer> laneOf = new HashMap<>();
        SwitchCircuit trial = new SwitchCircuit();
        trial.nodes.addAll(circuit.nodes);
        trial.wires.addAll(circuit.wires);
        trial.joints.addAll(circuit.joints);
        trial.poles.addAll(circuit.poles);
        trial.consumers.addAll(circuit.consumers);
        trial.chainEnds.addAll(circuit.chainEnds);
        int count = Math.min(traction.length, Long.SIZE - 1);
        for (int i = 0; i < count; i++) {
            laneOf.put(traction[i], i);
        }
        int fixed = count;
        for (Link link : circuit.links) {
            Integer lane = laneOf.get(link.gate().consumer());
            Gate own = lane != null && link.sort() == Link.Sort.CONTACT ? Gate.closedBy(lane) : null;
            Gate rest = link.gate().opens() && link.gate().consumer() == Gate.NONE || link.gate() == Gate.ALWAYS
                    ? Gate.ALWAYS
                    : Gate.closedBy(fixed);
            trial.links.add(new Link(link.sort(), link.part(), link.a(), link.b(), own == null ? rest : own, 0));
        }
        for (int i = 0; i <= fixed; i++) {
            trial.controls.add(new Control(Control.Kind.POSITION, "", ""));
        }
        circuit.poles.forEach(p -> {
            if (!p.potential().isTraction()) {
                trial.poles.remove(p);
            }
        });
        BitSet free = new BitSet();
        free.set(0, fixed + 1);
        Flow flow = new Flow(new Netlist(trial, Fault.NOTHING, new Netlist.Setup(free, new BitSet(), new BitSet())));
        for (int i = 0; i < count; i++) {
            flow.controls()[i] = ~(1L << i);
        }
        flow.solve(false);
        takeMains(flow, traction, count);
    }

    private void takeMains(Flow flow, int[] traction, int count) {
        long whole = 1L << (Long.SIZE - 1);
        for (int c : circuit.consumers(Consumer.Kind.TRACTION)) {
            Consumer inverter = circuit.consumers.get(c);
            long plus = flow.hard(inverter.a(), Potential.PACK_PLUS);
            long minus = flow.hard(inverter.b(), Potential.PACK_MINUS);
            for (int i = 0; i < count && kind(inverter.part()) == PartKind.INVERTER; i++) {
                if ((plus & whole) != 0 && (plus >>> i & 1) == 0) {
                    take(Role.POSITIVE, traction[i]);
                }
                if ((minus & whole) != 0 && (minus >>> i & 1) == 0) {
                    take(Role.NEGATIVE, traction[i]);
                }
            }
        }
    }

    private void take(Role role, int coil) {
        coils.computeIfAbsent(role, r -> new ArrayList<>()).add(coil);
    }

    /** The precharge relay's contact ends on the resistor. */
    private void findPrecharge() {
        Netlist wires =
                new Netlist(circuit, Fault.NOTHING, new Netlist.Setup(everyControl(), new BitSet(), new BitSet()));
        Set<Integer> resistors = new HashSet<>();
        circuit.links.stream()
                .filter(l -> kind(l.part()) == PartKind.RESISTOR)
                .forEach(l -> resistors.addAll(List.of(wires.net[l.a()], wires.net[l.b()])));
        Arrays.stream(circuit.tractionCoils())
                .filter(coil -> coils.values().stream().noneMatch(list -> list.contains(coil)))
                .filter(coil -> circuit.links.stream()
                        .anyMatch(l -> l.gate().consumer() == coil
                                && l.sort() == Link.Sort.CONTACT
                                && (resistors.contains(wires.net[l.a()]) || resistors.contains(wires.net[l.b()]))))
                .forEach(coil -> take(Role.PRECHARGE, coil));
    }

    BitSet everyControl() {
        BitSet all = new BitSet();
        all.set(0, circuit.controls.size());
        return all;
    }

    /** Everything that can break, one at a time. */
    public List<Fault> faults() {
        return faults;
    }

    /** Everything with two positions, by number. */
    public List<Control> controls() {
        return circuit.controls;
    }

    /** Everything that works while its ends differ, by number. */
    public List<Consumer> consumers() {
        return circuit.consumers;
    }

    /** The number of a terminal, {@code part.terminal}; -1 when no wire ends there. */
    public int terminal(String name) {
        return circuit.nodeOf.getOrDefault(name, Gate.NONE);
    }

    /** The names of all terminals, by number. */
    public List<String> terminals() {
        return circuit.nodes.stream().map(Node::name).toList();
    }

    /** The contacts, drivers and fuses by a terminal that no other of them has, {@code part.terminal}, with the number of their way. */
    public Map<String, Integer> contacts() {
        Map<String, Integer> contacts = new LinkedHashMap<>();
        Set<String> shared = new HashSet<>();
        for (int l = 0; l < circuit.links.size(); l++) {
            Link link = circuit.links.get(l);
            if (link.sort() != Link.Sort.LOAD && link.sort() != Link.Sort.FIXED) {
                for (int end : List.of(link.a(), link.b())) {
                    String terminal = circuit.nodes.get(end).name();
                    if (contacts.put(terminal, l) != null) {
                        shared.add(terminal);
                    }
                }
            }
        }
        contacts.keySet().removeAll(shared);
        return contacts;
    }

    /** The schedule that it was made from. */
    public Schedule schedule() {
        return schedule;
    }

    /** The part whose contact or fuse a fault is in. */
    public String partOf(Fault fault) {
        return circuit.links.get(fault.index()).part();
    }

    /** The role of the part whose traction contact a fault sticks; empty when it is another fault. */
    public Optional<Role> roleOf(Fault fault) {
        boolean sticks = fault.kind() == Fault.Kind.STUCK_CLOSED || fault.kind() == Fault.Kind.STUCK_OPEN;
        return sticks
                ? positions.entrySet().stream()
                        .filter(e -> circuit.links.get(fault.index()).gate().control() == e.getValue())
                        .map(Map.Entry::getKey)
                        .findFirst()
                : Optional.empty();
    }

    /** The inputs of the supervisor, or of an inverter without one, that wires join to a way that a control opens or closes. */
    public List<String> inputsBehind(int control) {
        Netlist wires =
                new Netlist(circuit, Fault.NOTHING, new Netlist.Setup(everyControl(), new BitSet(), new BitSet()));
        Set<Integer> ends = new HashSet<>();
        circuit.links.stream()
                .filter(l -> l.gate().control() == control)
                .forEach(l -> ends.addAll(List.of(wires.net[l.a()], wires.net[l.b()])));
        return circuit.nodes.stream()
                .filter(n -> kind(Wire.partOf(n.name())) == PartKind.SUPERVISOR
                        || kind(Wire.partOf(n.name())) == PartKind.INVERTER)
                .filter(n -> ends.contains(wires.net[circuit.nodeOf.get(n.name())]))
                .map(n -> Wire.pinOf(n.name()))
                .toList();
    }

    /** Whether a control is a cut-off that carries traction current. */
    public boolean isServiceSwitch(int control) {
        return IntStream.of(circuit.cutOffs(true)).anyMatch(c -> c == control);
    }

    /** Whether a control opens its ways when it is set; the way to a rest terminal does the contrary. */
    public boolean opens(int control) {
        return circuit.links.stream()
                .filter(l -> !circuit.nodes.get(l.b()).name().endsWith(".rest"))
                .anyMatch(l -> l.gate().control() == control && l.gate().opens());
    }
}
