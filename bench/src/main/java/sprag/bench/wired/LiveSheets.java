package sprag.bench.wired;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import sprag.bench.drawing.live.RunningCircuit;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.paper.SvgInk;
import sprag.bench.drawing.sheet.Marks;
import sprag.bench.drawing.sheet.Sheet;
import sprag.bench.drawing.sheet.SheetKind;
import sprag.bench.drawing.sheet.SheetPainter;
import sprag.bench.drawing.sheet.SheetPlan;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.schedule.Wire;

/** The sheets of a schedule, and what each net, contact and coil on them does in a running circuit. */
public final class LiveSheets {
    /** One sheet as SVG, for a page that has the rules of {@link SvgInk#style()}. */
    public record Drawn(String title, String svg) {}

    /**
     * What the circuit does now.
     *
     * @param nets what each net carries, by the number that its wires have on the sheets
     * @param contacts whether a contact, driver or fuse conducts, by a terminal of it
     * @param parts what a part does, by its name; empty when it does nothing
     */
    public record State(Map<Integer, String> nets, Map<String, Boolean> contacts, Map<String, String> parts) {}

    private final WiredPlan plan;
    private final DrawnCircuit drawn;
    /** A terminal of each net. */
    private final Map<Integer, Integer> terminalOf = new TreeMap<>();

    private final Map<String, Integer> contacts;
    private List<Drawn> sheets;

    /** The sheets of a plan; they are laid out when somebody asks for them. */
    public LiveSheets(WiredPlan plan) {
        this.plan = plan;
        drawn = new DrawnCircuit(plan.schedule());
        for (Wire wire : plan.schedule().wires()) {
            int terminal = plan.circuit.terminal(wire.from().isEmpty() ? wire.to() : wire.from());
            if (terminal >= 0) {
                terminalOf.putIfAbsent(drawn.netOf(wire), terminal);
            }
        }
        contacts = plan.circuit.contacts();
    }

    /** The sheets, without those of data: no current that this circuit knows of flows there. */
    public synchronized List<Drawn> sheets() {
        if (sheets == null) {
            sheets = SheetPlan.of(plan.schedule(), Marks.NONE).stream()
                    .filter(sheet -> sheet.kind() != SheetKind.DATA)
                    .map(this::draw)
                    .toList();
        }
        return sheets;
    }

    private Drawn draw(Sheet sheet) {
        SvgInk ink = new SvgInk(sheet.heading(), Sheet.WIDTH_MM, sheet.heightMm());
        SheetPainter.draw(sheet, Marks.NONE, drawn::netOf, "as the simulated circuit is now", ink);
        return new Drawn(sheet.heading(), ink.inPage());
    }

    /** What the nets are called, by number. */
    public Map<Integer, String> netNames() {
        Map<Integer, Set<String>> names = new TreeMap<>();
        plan.schedule()
                .wires()
                .forEach(wire -> names.computeIfAbsent(drawn.netOf(wire), net -> new LinkedHashSet<>())
                        .add(wire.net()));
        Map<Integer, String> joined = new TreeMap<>();
        names.forEach((net, all) -> joined.put(net, String.join(", ", all)));
        return joined;
    }

    /** What the circuit of a car does now. */
    public State of(WiredCar car) {
        RunningCircuit circuit = car.circuit();
        Map<Integer, String> nets = new LinkedHashMap<>();
        terminalOf.forEach((net, terminal) -> nets.put(net, circuit.carries(terminal)));
        Map<String, Boolean> conducting = new LinkedHashMap<>();
        contacts.forEach((terminal, way) -> conducting.put(terminal, circuit.conducts(way)));
        Map<String, List<String>> words = new LinkedHashMap<>();
        for (int c = 0; c < plan.circuit.consumers().size(); c++) {
            Consumer consumer = plan.circuit.consumers().get(c);
            List<String> does = words.computeIfAbsent(consumer.part(), part -> new ArrayList<>());
            if (circuit.works(c)) {
                does.add(words(consumer.kind()));
            }
        }
        Map<String, String> parts = new LinkedHashMap<>();
        words.forEach((part, does) -> parts.put(part, String.join(", ", new LinkedHashSet<>(does))));
        return new State(nets, conducting, parts);
    }

    private static String words(Consumer.Kind kind) {
        return switch (kind) {
            case COIL -> "pulled";
            case LAMP -> "lit";
            case SUPPLY -> "has 12 V";
            case TRACTION -> "pack voltage";
            case MAINS -> "mains";
        };
    }
}
