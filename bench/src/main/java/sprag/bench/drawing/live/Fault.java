package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Link;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * One thing that is broken.
 *
 * @param kind what happened
 * @param where the wire, the part or the terminals, for people
 * @param index the wire or link; meaningless for a bridge
 * @param a one end of a bridge
 * @param b the other end
 */
public record Fault(Kind kind, String where, int index, int a, int b) {
    /** What can break. One row each. */
    public enum Kind {
        /** Nothing. */
        NOTHING("nothing is broken"),
        /** A wire. */
        BROKEN("broken"),
        /** A wire, through to the chassis. */
        CHAFED("chafed through to the chassis"),
        /** Two terminals of one part. */
        BRIDGED("bridged"),
        /** A contact or a driver. */
        STUCK_CLOSED("stuck closed"),
        /** A contact, a driver or a fuse. */
        STUCK_OPEN("stuck open");

        final String words;

        Kind(String words) {
            this.words = words;
        }
    }

    /** No fault. */
    public static final Fault NOTHING = new Fault(Kind.NOTHING, "", Gate.NONE, Gate.NONE, Gate.NONE);

    /** For people. */
    public String words() {
        return where + " " + kind.words;
    }

    /** For files and the command line: no blanks, no commas, such as {@code L013.broken}. */
    public String key() {
        return where.replace(" and ", "~").replace(' ', '.') + "." + kind.name().toLowerCase(Locale.ROOT);
    }

    /** Every single fault of a circuit. */
    public static List<Fault> all(SwitchCircuit circuit, Schedule schedule) {
        List<Fault> faults = new ArrayList<>();
        for (int w = 0; w < circuit.wires.size(); w++) {
            SwitchCircuit.Conductor each = circuit.wires.get(w);
            faults.add(new Fault(Kind.BROKEN, each.wire().id(), w, Gate.NONE, Gate.NONE));
            if (circuit.chassis != Gate.NONE && each.wire().voltageClass() != VoltageClass.EARTH) {
                faults.add(new Fault(Kind.CHAFED, each.wire().id(), w, each.a(), circuit.chassis));
            }
        }
        for (int l = 0; l < circuit.links.size(); l++) {
            Link link = circuit.links.get(l);
            String where = link.part() + " " + pin(circuit, link.a()) + "-" + pin(circuit, link.b());
            switch (link.sort()) {
                case CONTACT -> {
                    faults.add(new Fault(Kind.STUCK_CLOSED, where, l, Gate.NONE, Gate.NONE));
                    faults.add(new Fault(Kind.STUCK_OPEN, where, l, Gate.NONE, Gate.NONE));
                }
                case FUSE -> faults.add(new Fault(Kind.STUCK_OPEN, link.part(), l, Gate.NONE, Gate.NONE));
                default -> {}
            }
        }
        addBridges(circuit, schedule, faults);
        return faults;
    }

    /** Neighbours are terminals of one part that stand beside each other in the schedule; traction terminals stand apart. */
    private static void addBridges(SwitchCircuit circuit, Schedule schedule, List<Fault> faults) {
        Map<String, Integer> last = new TreeMap<>();
        for (int n = 0; n < circuit.nodes.size(); n++) {
            String name = Wire.partOf(circuit.nodes.get(n).name());
            Part part = schedule.parts().get(name);
            boolean apart = circuit.nodes.get(n).traction() || part.kind() == PartKind.SPLICE;
            Integer before = apart || part.kind() == PartKind.CHASSIS ? null : last.put(name, n);
            if (before != null) {
                String where = circuit.nodes.get(before).name() + " and " + pin(circuit, n);
                faults.add(new Fault(Kind.BRIDGED, where, Gate.NONE, before, n));
            }
        }
    }

    private static String pin(SwitchCircuit circuit, int node) {
        return Wire.pinOf(circuit.nodes.get(node).name());
    }
}
