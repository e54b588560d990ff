package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/** Divides a schedule into sheets that hold what is on them at a size one can read. */
public final class SheetPlan {
    /** Wires that are tried on one sheet at all. */
    private static final int MOST_WIRES = 48;
    /** A part with that many wires joins others without belonging to them. */
    private static final int HUB_WIRES = 5;

    private final Schedule schedule;
    private final Set<Part> loopSwitches;
    private final Marks marks;
    private final Map<String, Integer> counts;
    private final List<Map.Entry<SheetKind, List<Wire>>> planned = new ArrayList<>();

    private SheetPlan(Schedule schedule, Set<Part> loopSwitches, Marks marks) {
        this.schedule = schedule;
        this.loopSwitches = loopSwitches;
        this.marks = marks;
        this.counts = References.counts(schedule.wires());
    }

    /** The sheets of a schedule, numbered. */
    public static List<Sheet> of(Schedule schedule, Marks marks) {
        DrawnCircuit circuit = new DrawnCircuit(schedule);
        SheetPlan plan = new SheetPlan(schedule, circuit.loopSwitches(), marks);
        new WireSorter(schedule, circuit).sorted().forEach(plan::plan);
        return plan.numbered();
    }

    private void plan(SheetKind kind, List<Wire> wires) {
        if (wires.size() == 1 || wires.size() <= MOST_WIRES && fits(wires)) {
            planned.add(Map.entry(kind, wires));
            return;
        }
        List<Wire> first = firstPart(wires);
        Set<Wire> taken = Collections.newSetFromMap(new IdentityHashMap<>());
        taken.addAll(first);
        List<Wire> rest = wires.stream().filter(w -> !taken.contains(w)).toList();
        plan(kind, first);
        plan(kind, rest);
    }

    private boolean fits(List<Wire> wires) {
        BoxBuilder words = new BoxBuilder(schedule, loopSwitches, marks, References.guess(wires, counts), 0);
        Placed placed = best(words.of(wires), wires);
        return placed.widthMm() <= Sheet.roomWidthMm() && placed.heightMm() <= Sheet.roomHeightMm();
    }

    /** The first way that fits, else the smallest. */
    static Placed best(List<Box> boxes, List<Wire> wires) {
        Placed best = null;
        for (Layout.Way way : Layout.Way.values()) {
            Placed placed = Layout.of(boxes, wires, way);
            best = best == null || excess(placed) < excess(best) ? placed : best;
            if (excess(best) <= 1) {
                break;
            }
        }
        return best;
    }

    private static double excess(Placed placed) {
        return Math.max(placed.widthMm() / Sheet.roomWidthMm(), placed.heightMm() / Sheet.roomHeightMm());
    }

    /** About half of the wires: groups that hang together when the parts that join everything are left out. */
    private List<Wire> firstPart(List<Wire> wires) {
        List<List<Wire>> groups = groups(wires);
        List<Wire> first = new ArrayList<>();
        for (List<Wire> group : groups) {
            if (!first.isEmpty() && first.size() + group.size() > wires.size() * 2 / 3) {
                break;
            }
            first.addAll(group);
        }
        if (first.size() == wires.size()) {
            first = wires.subList(0, wires.size() / 2);
        }
        return new ArrayList<>(first);
    }

    private List<List<Wire>> groups(List<Wire> wires) {
        Map<String, Integer> often = new HashMap<>();
        wires.forEach(w -> {
            often.merge(Wire.partOf(w.from()), 1, Integer::sum);
            often.merge(Wire.partOf(w.to()), 1, Integer::sum);
        });
        Map<String, String> leader = new HashMap<>();
        Map<String, List<Wire>> groups = new LinkedHashMap<>();
        for (Wire wire : wires) {
            boolean fromHub = isHub(wire.from(), often);
            boolean toHub = isHub(wire.to(), often);
            if (!fromHub && !toHub) {
                leader.put(root(leader, Wire.partOf(wire.from())), root(leader, Wire.partOf(wire.to())));
            }
        }
        for (Wire wire : wires) {
            String end = isHub(wire.from(), often) ? wire.to() : wire.from();
            groups.computeIfAbsent(root(leader, Wire.partOf(end)), r -> new ArrayList<>())
                    .add(wire);
        }
        return new ArrayList<>(groups.values());
    }

    private boolean isHub(String terminal, Map<String, Integer> often) {
        Part part = terminal.isEmpty() ? null : schedule.parts().get(Wire.partOf(terminal));
        return part == null
                || part.kind() == PartKind.CHASSIS
                || part.kind() == PartKind.SUPERVISOR
                || part.kind() == PartKind.SPLICE && often.get(part.name()) >= HUB_WIRES;
    }

    private static String root(Map<String, String> leader, String part) {
        String at = part;
        while (leader.containsKey(at) && !leader.get(at).equals(at)) {
            at = leader.get(at);
        }
        return at;
    }

    private List<Sheet> numbered() {
        References references =
                new References(planned.stream().map(Map.Entry::getValue).toList());
        Map<SheetKind, Integer> count = new HashMap<>();
        planned.forEach(p -> count.merge(p.getKey(), 1, Integer::sum));
        Map<SheetKind, Integer> seen = new HashMap<>();
        List<Sheet> sheets = new ArrayList<>();
        for (Map.Entry<SheetKind, List<Wire>> plan : planned) {
            SheetKind kind = plan.getKey();
            int number = sheets.size() + 1;
            int part = seen.merge(kind, 1, Integer::sum);
            String title = kind.title + (count.get(kind) > 1 ? " (" + part + " of " + count.get(kind) + ")" : "");
            BoxBuilder words = new BoxBuilder(schedule, loopSwitches, marks, references, number);
            Placed placed = best(words.of(plan.getValue()), plan.getValue());
            sheets.add(new Sheet(number, title, kind, plan.getValue(), new Sheet.Drawn(placed, words)));
        }
        return sheets;
    }
}
