package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * The power side at a glance, from what the schedule draws: one line for all conductors between two parts, and no line for the
 * return of a load. What the two poles have on their own, such as a contactor in each, is still shown.
 */
public final class OneLine {
    private static final String TITLE = "One-line diagram";

    private final Schedule schedule;
    private final DrawnCircuit circuit;
    private final Sides sides;

    private OneLine(Schedule schedule) {
        this.schedule = schedule;
        circuit = new DrawnCircuit(schedule);
        sides = new Sides(circuit);
    }

    /** Draws the power side, on one sheet when it fits; a schedule without one gives a sheet without a line. */
    public static List<Sheet> of(Schedule schedule) {
        List<Wire> wires = new OneLine(schedule).wires();
        BoxBuilder words = new BoxBuilder(schedule, Set.of(), Marks.NONE, new References(List.of(wires)), 1);
        Placed placed = SheetPlan.best(words.of(wires), wires);
        Sheet whole = new Sheet(0, TITLE, SheetKind.TRACTION, wires, new Sheet.Drawn(placed, words));
        if (whole.scale() == 1) {
            return List.of(whole);
        }
        List<Sheet> parts = SheetPlan.of(new Schedule(wires, schedule.parts()), Marks.NONE);
        return parts.stream()
                .map(s -> new Sheet(
                        0, TITLE + " (" + s.number() + " of " + parts.size() + ")", s.kind(), s.wires(), s.drawn()))
                .toList();
    }

    private List<Wire> wires() {
        Map<TreeSet<String>, List<Wire>> between = new LinkedHashMap<>();
        for (Wire wire : schedule.wires()) {
            boolean power = wire.voltageClass() == VoltageClass.TRACTION || wire.voltageClass() == VoltageClass.MAINS;
            if (power && wire.hasBothEnds() && !isReturn(wire)) {
                TreeSet<String> ends = new TreeSet<>(List.of(Wire.partOf(wire.from()), Wire.partOf(wire.to())));
                between.computeIfAbsent(ends, e -> new ArrayList<>()).add(wire);
            }
        }
        return between.values().stream().map(OneLine::one).toList();
    }

    /** Whether a load but the inverter gives its current back there: the way to it is drawn already. */
    private boolean isReturn(Wire wire) {
        int net = circuit.netOf(wire);
        boolean minus = sides.minusSide.get(net) && !sides.plusSide.get(net);
        return minus && (isLoad(wire.from()) || isLoad(wire.to()));
    }

    private boolean isLoad(String terminal) {
        Part part = schedule.parts().get(Wire.partOf(terminal));
        return part.kind().isLoad() && part.kind() != PartKind.INVERTER;
    }

    private static Wire one(List<Wire> wires) {
        Wire first = wires.get(0);
        String id = wires.size() == 1 ? first.id() : first.id() + " and " + (wires.size() - 1);
        return new Wire(
                first.line(),
                id,
                first.from(),
                first.to(),
                first.net(),
                first.voltageClass(),
                first.sizeMm2(),
                first.colour(),
                first.lengthM(),
                first.fuseA(),
                first.fromPinV(),
                first.toPinV(),
                first.currentA(),
                "",
                List.of());
    }
}
