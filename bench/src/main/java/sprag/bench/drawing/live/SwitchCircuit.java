package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Link;
import sprag.bench.drawing.live.element.Node;
import sprag.bench.drawing.live.element.Pole;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Wire;

/** The schedule as a circuit of switches. Wires join nodes; links lead through parts; poles are where sources are. */
public final class SwitchCircuit {
    /** A wire between two nodes. */
    record Conductor(Wire wire, int a, int b) {}

    final List<Node> nodes = new ArrayList<>();
    final Map<String, Integer> nodeOf = new HashMap<>();
    final List<Conductor> wires = new ArrayList<>();
    /** Nodes that a splice or the chassis joins. */
    final List<int[]> joints = new ArrayList<>();

    final List<Link> links = new ArrayList<>();
    final List<Consumer> consumers = new ArrayList<>();
    final List<Pole> poles = new ArrayList<>();
    final List<Control> controls = new ArrayList<>();
    /** The plus of every pack whose minus does not end the string: the chain holds when all are reached from the middle. */
    final List<Integer> chainEnds = new ArrayList<>();
    /** The voltage that each potential counts as (V). */
    final double[] volts = new double[Potential.COUNT];
    /** For each coil that an output drives: the consumer's number and the output's control. */
    final Map<Integer, Integer> drivenBy = new LinkedHashMap<>();
    /** Terminals that wake an inverter. */
    final List<Integer> wakes = new ArrayList<>();
    /** Whether a supervisor is drawn. */
    boolean supervised;
    /** Where the chassis is; {@link Gate#NONE} without one. */
    int chassis = Gate.NONE;

    /** The number of the first control of a kind and part; {@link Gate#NONE} without one. */
    int control(Control.Kind kind, String part) {
        return IntStream.range(0, controls.size())
                .filter(c ->
                        controls.get(c).kind() == kind && controls.get(c).part().equals(part))
                .findFirst()
                .orElse(Gate.NONE);
    }

    /** All controls of a kind. */
    int[] controls(Control.Kind kind) {
        return IntStream.range(0, controls.size())
                .filter(c -> controls.get(c).kind() == kind)
                .toArray();
    }

    /** The controls that say whether the time of a timer relay is over. */
    int[] timers() {
        return controls(Control.Kind.TIMER);
    }

    /**
     * The switches, timers and start positions of a key whose part has a word that begins with one of these; what is said of them
     * when they are set counts too.
     */
    int[] switches(String... beginnings) {
        return IntStream.range(0, controls.size())
                .filter(c -> controls.get(c).kind().isSwitched())
                .filter(c -> Arrays.stream(controls.get(c).setWords().split("[ _-]"))
                        .anyMatch(word -> Arrays.stream(beginnings).anyMatch(word::startsWith)))
                .toArray();
    }

    /** What shows that a plug is in: a switch at the inlet, or else mains that arrive there. */
    int[] plugs() {
        int[] switches = switches("plug");
        return switches.length > 0 ? switches : controls(Control.Kind.STATION);
    }

    /** Whether relays and switches decide by themselves. */
    boolean isUnsupervised() {
        return !supervised;
    }

    /** All consumers of a kind. */
    int[] consumers(Consumer.Kind kind) {
        return IntStream.range(0, consumers.size())
                .filter(c -> consumers.get(c).kind() == kind)
                .toArray();
    }

    /** All consumers of a kind that belong to a kind of part. */
    int[] consumers(Consumer.Kind kind, PartKind owner) {
        return IntStream.of(consumers(kind))
                .filter(c -> consumers.get(c).owner() == owner)
                .toArray();
    }

    /** The coils whose part has a contact in the traction circuit. */
    int[] tractionCoils() {
        return IntStream.range(0, consumers.size())
                .filter(c -> consumers.get(c).kind() == Consumer.Kind.COIL)
                .filter(c -> links.stream().anyMatch(l -> l.gate().consumer() == c && isTractionContact(l)))
                .toArray();
    }

    private boolean isTractionContact(Link link) {
        return link.sort() == Link.Sort.CONTACT
                && nodes.get(link.a()).traction()
                && nodes.get(link.b()).traction();
    }

    /** The cut-offs; those that carry traction current are service switches. */
    int[] cutOffs(boolean service) {
        return IntStream.of(controls(Control.Kind.CUT_OFF))
                .filter(c -> service == links.stream().anyMatch(l -> l.gate().control() == c && isTractionContact(l)))
                .toArray();
    }
}
