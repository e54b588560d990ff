package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import sprag.bench.drawing.live.element.Potential;

/** What each net carries in each situation. */
public final class LiveTable {
    /**
     * What one net carries in one situation.
     *
     * @param joined what it is joined to without a load between
     * @param reached what reaches it only through a load
     * @param shorted whether two of these meet without a load between
     */
    public record Cell(Set<Potential> joined, Set<Potential> reached, boolean shorted) {
        /** Whether a pole of the pack or mains reaches it, on whatever way. */
        public boolean isDangerous() {
            return isJoinedToDanger() || reached.stream().anyMatch(Potential::isDangerous);
        }

        /** Whether it is joined to a pole of the pack or to mains. */
        public boolean isJoinedToDanger() {
            return joined.stream().anyMatch(Potential::isDangerous);
        }

        /** Whether nothing reaches it. */
        public boolean isDead() {
            return joined.isEmpty() && reached.isEmpty();
        }

        /** Signs, in brackets what reaches it only through a load, a dash for nothing. */
        public String text() {
            String text = signs(joined, "+") + (reached.isEmpty() ? "" : "(" + signs(reached, "/") + ")");
            return shorted ? text + "!" : text.isEmpty() ? "-" : text;
        }

        private static String signs(Set<Potential> potentials, String between) {
            return potentials.stream().map(potential -> potential.sign).collect(Collectors.joining(between));
        }
    }

    /**
     * One net.
     *
     * @param net its name in the schedule; two nets of one name are told apart by a number
     * @param terminal one terminal of it, {@code part.terminal}
     * @param cells what it carries, in the order of the situations
     */
    public record Row(String net, String terminal, List<Cell> cells) {}

    /**
     * The table.
     *
     * @param situations the headings
     * @param rows the nets, in the order of the schedule
     */
    public record Table(List<Situation> situations, List<Row> rows) {
        /** The headings as words. */
        public List<String> titles() {
            return situations.stream().map(Situation::title).toList();
        }

        /** The place of the first situation of a sort; -1 without one. */
        public int first(Situation.Sort sort) {
            return situations.stream().map(Situation::sort).toList().indexOf(sort);
        }
    }

    private LiveTable() {}

    static Table of(SwitchCircuit circuit) {
        BitSet free = new BitSet();
        free.set(0, circuit.controls.size());
        List<Situation> situations = Situation.of(circuit);
        // Nets are what wires join, so that each side of a contact and of a fuse has its own row.
        Netlist netlist = new Netlist(circuit, Fault.NOTHING, new Netlist.Setup(free, new BitSet(), new BitSet()));
        Map<Integer, String> names = names(circuit, netlist);
        Map<Integer, List<Cell>> cells = new TreeMap<>();
        names.keySet().forEach(net -> cells.put(net, new ArrayList<>()));
        Flow flow = new Flow(netlist);
        for (int first = 0; first < situations.size(); first += Long.SIZE) {
            List<Situation> some = situations.subList(first, Math.min(situations.size(), first + Long.SIZE));
            for (int c = 0; c < circuit.controls.size(); c++) {
                long mask = 0;
                for (int s = 0; s < some.size(); s++) {
                    mask |= some.get(s).set().get(c) ? 1L << s : 0;
                }
                flow.controls()[c] = mask;
            }
            flow.solve(false);
            for (int s = 0; s < some.size(); s++) {
                long lane = 1L << s;
                cells.forEach((net, row) -> row.add(cell(flow, net, lane)));
            }
        }
        return new Table(
                situations,
                names.keySet().stream()
                        .map(net -> new Row(names.get(net), terminal(circuit, netlist, net), cells.get(net)))
                        .toList());
    }

    private static String terminal(SwitchCircuit circuit, Netlist netlist, int net) {
        int node = 0;
        while (netlist.net[node] != net) {
            node++;
        }
        return circuit.nodes.get(node).name();
    }

    /** What a net carries. */
    static Cell cell(Flow flow, int net, long lane) {
        Set<Potential> hard = EnumSet.noneOf(Potential.class);
        Set<Potential> soft = EnumSet.noneOf(Potential.class);
        for (Potential potential : Potential.values()) {
            int at = net * Potential.COUNT + potential.ordinal();
            if ((flow.hard[at] & lane) != 0) {
                hard.add(potential);
            } else if ((flow.soft[at] & lane) != 0) {
                soft.add(potential);
            }
        }
        return new Cell(hard, soft, (flow.shortedAt(net) & lane) != 0);
    }

    /** Nets by number, in the order of the schedule; single unused ends and inputs have their row too. */
    private static Map<Integer, String> names(SwitchCircuit circuit, Netlist netlist) {
        Map<Integer, String> names = new TreeMap<>();
        for (int n = 0; n < circuit.nodes.size(); n++) {
            if (!circuit.nodes.get(n).net().isEmpty()) {
                names.putIfAbsent(netlist.net[n], circuit.nodes.get(n).net());
            }
        }
        Map<String, Long> often = names.values().stream().collect(Collectors.groupingBy(n -> n, Collectors.counting()));
        Map<String, Integer> seen = new TreeMap<>();
        names.replaceAll((net, name) -> often.get(name) == 1 ? name : name + " #" + seen.merge(name, 1, Integer::sum));
        return names;
    }
}
