package sprag.bench.drawing.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.drawing.paper.SvgInk;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/** What stands in the frames, read from paper: ratings, other sheets, the symbol between two terminals, bars; and how lines look. */
class DrawnPartsTest {
    private static final double SAME_MM = 0.03;
    /** A symbol is at most that wide and that far above or below its line (mm). */
    private static final double WIDE_MM = 8.5;

    private static final double TALL_MM = 4;

    private Schedule schedule;
    private List<Sheet> sheets;
    private List<PaperReader> papers;

    private void draw(String vehicle) throws Exception {
        schedule = SheetPlanTest.schedule(vehicle);
        sheets = SheetPlan.of(schedule, Marks.NONE);
        papers = new ArrayList<>();
        for (Sheet sheet : sheets) {
            SvgInk ink = new SvgInk("a sheet", Sheet.WIDTH_MM, sheet.heightMm());
            SheetPainter.draw(sheet, Marks.NONE, new DrawnCircuit(schedule)::netOf, "strip", ink);
            papers.add(new PaperReader(ink.inPage()));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"yard-cart", "parcel-van"})
    void head_ofEachPart_hasItsRatings_andNamesItsOtherSheets(String vehicle) throws Exception {
        draw(vehicle);
        Map<String, Set<Integer>> on = new HashMap<>();
        for (int i = 0; i < papers.size(); i++) {
            for (PaperReader.Frame frame : papers.get(i).frames) {
                on.computeIfAbsent(frame.name(), n -> new TreeSet<>()).add(i + 1);
            }
        }
        for (int i = 0; i < papers.size(); i++) {
            for (PaperReader.Frame frame : papers.get(i).frames) {
                String head = papers.get(i).words.stream()
                        .filter(w -> frame.holds(w.x(), w.y()))
                        .map(PaperReader.Words::text)
                        .collect(Collectors.joining("\n"));
                Part part = schedule.parts().get(frame.name());
                assertEquals(part.ratedA(), figure(head, "A"), frame.name() + ": " + head);
                assertEquals(part.ratedV(), figure(head, "V"), frame.name() + ": " + head);
                Set<Integer> others = new TreeSet<>(on.get(frame.name()));
                others.remove(i + 1);
                Matcher also = Pattern.compile("(?m)^also (.*)$").matcher(head);
                String told = also.find() ? also.group(1) : "";
                assertEquals(
                        others.stream().map(String::valueOf).collect(Collectors.joining(", ")), told, frame.name());
            }
        }
    }

    private static double figure(String head, String unit) {
        Matcher figure =
                Pattern.compile("(?m)(?:^| )([\\d.]+) " + unit + "(?: |$)").matcher(head);
        return figure.find() ? Double.parseDouble(figure.group(1)) : Double.NaN;
    }

    @ParameterizedTest
    @ValueSource(strings = {"yard-cart", "parcel-van"})
    void line_ofEachWire_looksLikeItsClass(String vehicle) throws Exception {
        draw(vehicle);
        Map<String, Wire> wires = new HashMap<>();
        schedule.wires().forEach(w -> wires.put(w.id(), w));
        for (int i = 0; i < papers.size(); i++) {
            boolean data = sheets.get(i).kind() == SheetKind.DATA;
            for (PaperReader.Drawn drawn : papers.get(i).wires()) {
                VoltageClass voltage = wires.get(drawn.from().wire()).voltageClass();
                String pen = switch (voltage) {
                    case TRACTION -> "traction";
                    case MAINS -> "mains";
                    case LOW_VOLTAGE -> "supply";
                    case EARTH -> "earth";
                    case SIGNAL -> data ? "data" : "signal";
                };
                assertEquals(pen, drawn.line().pen(), drawn.from().wire());
                long cores = papers.get(i).lines.stream()
                        .filter(l -> l.pen().equals(pen + "-core")
                                && Arrays.equals(l.xs(), drawn.line().xs())
                                && Arrays.equals(l.ys(), drawn.line().ys()))
                        .count();
                boolean isDouble = voltage == VoltageClass.TRACTION || voltage == VoltageClass.MAINS;
                assertEquals(isDouble ? 1 : 0, cores, drawn.from().wire() + " is a double line");
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"yard-cart", "parcel-van", "relay-van"})
    void symbol_betweenTwoTerminals_isThatOfThePart(String vehicle) throws Exception {
        draw(vehicle);
        Map<String, Integer> seen = new HashMap<>();
        for (PaperReader paper : papers) {
            Map<PaperReader.Frame, Map<Double, String[]>> rows = rows(paper);
            rows.forEach((frame, byRow) -> byRow.forEach((y, pins) -> {
                Part part = schedule.parts().get(frame.name());
                if (part.kind() == PartKind.SPLICE) {
                    return;
                }
                String drawn = symbolAt(paper, frame, y, pins);
                String wanted = wanted(part, pins);
                assertEquals(wanted, drawn, frame.name() + " " + pins[0] + " " + pins[1]);
                seen.merge(drawn, 1, Integer::sum);
            }));
        }
        Set<String> least = vehicle.equals("relay-van")
                ? Set.of("make", "break", "cut-off", "coil", "fuse", "lamp")
                : Set.of("make", "cut-off", "coil", "fuse", "resistor", "lamp");
        assertTrue(seen.keySet().containsAll(least), seen.toString());
    }

    /** The rows of each frame: what the terminals are called on the left and on the right, null where there is none. */
    private static Map<PaperReader.Frame, Map<Double, String[]>> rows(PaperReader paper) {
        Map<PaperReader.Frame, Map<Double, String[]>> rows = new HashMap<>();
        for (PaperReader.Drawn wire : paper.wires()) {
            for (boolean first : new boolean[] {true, false}) {
                PaperReader.End end = first ? wire.from() : wire.to();
                int corner = first ? 0 : wire.line().last();
                double x = wire.line().xs()[corner];
                double y = wire.line().ys()[corner];
                for (PaperReader.Frame frame : paper.frames) {
                    boolean west = Math.abs(x - frame.left()) < SAME_MM;
                    boolean isThere = frame.name().equals(end.part()) && frame.holds(x, y);
                    boolean named = paper.words.stream()
                            .anyMatch(w -> Math.abs(w.y() - y) < 2
                                    && frame.holds(w.x(), w.y())
                                    && w.text().startsWith(end.pin()));
                    if (isThere && named) {
                        rows.computeIfAbsent(frame, f -> new HashMap<>())
                                        .computeIfAbsent(y, r -> new String[2])[west ? 0 : 1] =
                                end.pin();
                    }
                }
            }
        }
        return rows;
    }

    /** What an electrician would call the thing that is drawn at a row; nothing, when no line leads into the frame. */
    private static String symbolAt(PaperReader paper, PaperReader.Frame frame, double y, String... pins) {
        List<PaperReader.Line> in = paper.lines.stream()
                .filter(l -> l.pen().startsWith("symbol") || l.pen().equals("hair"))
                .filter(l -> frame.holds(l.xs()[0], l.ys()[0]) && l.most(l.xs()) - l.least(l.xs()) <= WIDE_MM)
                .filter(l -> l.least(l.ys()) > y - TALL_MM && l.most(l.ys()) < y + TALL_MM)
                .toList();
        Predicate<PaperReader.Line> box =
                l -> l.closed() && l.last() == 3 && l.pen().equals("symbol f-paper");
        Predicate<PaperReader.Line> upright = l -> l.last() == 1 && l.xs()[0] == l.xs()[1];
        Predicate<PaperReader.Line> slanted = l -> l.last() == 1 && l.xs()[0] != l.xs()[1] && l.ys()[0] != l.ys()[1];
        long boxes = in.stream().filter(box).count();
        if (boxes > 0) {
            PaperReader.Line body = in.stream().filter(box).findFirst().orElseThrow();
            double left = body.least(body.xs());
            double right = body.most(body.xs());
            boolean through = in.stream()
                    .anyMatch(l -> l.last() == 1
                            && !l.closed()
                            && l.ys()[0] == y
                            && l.ys()[1] == y
                            && l.least(l.xs()) == left
                            && l.most(l.xs()) == right);
            long bars = in.stream()
                    .filter(upright.and(l -> l.least(l.ys()) < y && l.most(l.ys()) > y))
                    .count();
            long taps =
                    in.stream().filter(upright.and(l -> l.least(l.ys()) > y)).count();
            boolean tall = body.most(body.ys()) - body.least(body.ys()) > right - left;
            return tall ? "coil" : through ? "fuse" : bars == 3 ? "heater" : taps == 2 ? "shunt" : "resistor";
        }
        boolean round = paper.circles.stream()
                .anyMatch(c -> c.style().equals("symbol f-paper")
                        && frame.holds(c.x(), c.y())
                        && Math.abs(c.y() - y) < SAME_MM);
        if (round) {
            return in.stream().filter(slanted).count() == 2 ? "lamp" : "turns";
        }
        if (in.stream().anyMatch(l -> l.closed() && l.last() == 2 && l.pen().equals("symbol f-paper"))) {
            return "suppressor";
        }
        if (in.stream().noneMatch(slanted.and(l -> Math.abs(l.ys()[0] - y) < SAME_MM))) {
            return "nothing";
        }
        boolean stop = in.stream().anyMatch(upright.and(l -> l.pen().equals("symbol") && l.most(l.ys()) == y));
        boolean head = in.stream().anyMatch(l -> l.pen().equals("symbol f-ink"));
        return head ? "cut-off" : stop ? "break" : "make";
    }

    /** What docs/draw.md says a part looks like; terminals that do not belong together have nothing between them. */
    private String wanted(Part part, String... pins) {
        String west = pins[0] == null ? "" : pins[0];
        String east = pins[1] == null ? "" : pins[1];
        boolean coil = west.startsWith("coil") || east.startsWith("coil");
        boolean contact = (west.isEmpty() || west.matches("(in|aux_a)(_\\d+)?"))
                && (east.isEmpty() || east.matches("(out|aux_b|rest|drive|start|accessory)(_\\d+)?"));
        assertTrue(partners(west, east), part.name() + ": " + west + " and " + east + " face each other");
        return switch (part.kind()) {
            case CONTACTOR, RELAY, TIMER ->
                coil ? "coil" : east.equals("rest") ? "break" : contact ? "make" : "nothing";
            case SWITCH -> !contact ? "nothing" : closedAtRest(part) ^ east.equals("rest") ? "break" : "make";
            case KEY -> contact ? "make" : "nothing";
            case CUT_OFF -> "cut-off";
            case FUSE -> "fuse";
            case RESISTOR -> "resistor";
            case SHUNT, CURRENT_SENSOR -> west.equals("pack") || east.equals("load") ? "shunt" : "nothing";
            case SUPPRESSOR -> "suppressor";
            case LAMP -> west.equals("plus") || east.equals("minus") ? "lamp" : "nothing";
            case LOAD -> west.equals("plus") || east.equals("minus") ? "turns" : "nothing";
            case HEATER -> west.equals("plus") || east.equals("minus") ? "heater" : "nothing";
            default -> "nothing";
        };
    }

    /** Whether a contact, a coil or a load may lie between two terminals of one part. */
    private static boolean partners(String west, String east) {
        Matcher in = Pattern.compile("in(_\\d+)?").matcher(west);
        Matcher out = Pattern.compile("out(_\\d+)?").matcher(east);
        if (in.matches() && out.matches()) {
            return Objects.equals(in.group(1), out.group(1));
        }
        return !west.startsWith("coil") || east.isEmpty() || east.startsWith("coil");
    }

    /** Whether a switch leads to an input that is told of a loop, by wires alone. */
    private boolean closedAtRest(Part part) {
        Set<String> reached = new TreeSet<>(Set.of(part.name() + ".out"));
        boolean more = true;
        while (more) {
            more = false;
            for (Wire wire : schedule.wires()) {
                if (reached.contains(wire.from()) || reached.contains(wire.to())) {
                    more |= reached.add(wire.from()) | reached.add(wire.to());
                }
            }
        }
        return reached.stream().anyMatch(t -> t.endsWith("_loop_closed"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"yard-cart", "parcel-van"})
    void bar_ofASplice_isJoinedToEachOfItsWires_withADot(String vehicle) throws Exception {
        draw(vehicle);
        int joints = 0;
        for (PaperReader paper : papers) {
            for (PaperReader.Drawn wire : paper.wires()) {
                for (boolean first : new boolean[] {true, false}) {
                    PaperReader.End end = first ? wire.from() : wire.to();
                    Part part = schedule.parts().get(end.part());
                    if (part == null || part.kind() != PartKind.SPLICE) {
                        continue;
                    }
                    int corner = first ? 0 : wire.line().last();
                    double x = wire.line().xs()[corner];
                    double y = wire.line().ys()[corner];
                    boolean joined = paper.lines.stream()
                            .filter(l -> l.pen().equals("symbol") && l.last() == 1)
                            .filter(l -> Math.abs(l.xs()[0] - x) < SAME_MM && l.ys()[0] == y && l.ys()[1] == y)
                            .anyMatch(l -> paper.circles.stream()
                                            .anyMatch(c -> c.style().equals("thin f-ink")
                                                    && Math.abs(c.x() - l.xs()[1]) < SAME_MM
                                                    && Math.abs(c.y() - y) < SAME_MM)
                                    && onBar(paper, l.xs()[1], y));
                    assertTrue(joined, end.wire() + " ends at the frame of " + end.part() + " and not on its bar");
                    joints++;
                }
            }
        }
        assertTrue(joints > 10, joints + " joints");
    }

    private static boolean onBar(PaperReader paper, double x, double y) {
        return paper.lines.stream()
                .anyMatch(l -> l.pen().equals("supply")
                        && l.last() == 1
                        && Math.abs(l.xs()[0] - x) < SAME_MM
                        && Math.abs(l.xs()[1] - x) < SAME_MM
                        && l.least(l.ys()) <= y
                        && l.most(l.ys()) >= y);
    }

    @ParameterizedTest
    @ValueSource(strings = {"yard-cart", "parcel-van"})
    void secondThrow_withoutAFeedOfItsOwn_hangsOnTheFirst(String vehicle) throws Exception {
        draw(vehicle);
        Set<String> terminals = schedule.wires().stream()
                .flatMap(w -> Stream.of(w.from(), w.to()))
                .collect(Collectors.toSet());
        int throwsSeen = 0;
        for (PaperReader paper : papers) {
            for (Map.Entry<PaperReader.Frame, Map<Double, String[]>> entry :
                    rows(paper).entrySet()) {
                Part part = schedule.parts().get(entry.getKey().name());
                for (Map.Entry<Double, String[]> row : entry.getValue().entrySet()) {
                    String east = row.getValue()[1] == null ? "" : row.getValue()[1];
                    boolean second = part.kind() == PartKind.KEY && east.equals("start")
                            || part.kind() == PartKind.SWITCH
                                    && east.matches("out_\\d+")
                                    && !terminals.contains(part.name() + "." + east.replace("out", "in"));
                    boolean feedHere = terminals.contains(part.name() + ".in")
                            && entry.getValue().values().stream().anyMatch(p -> "in".equals(p[0]));
                    if (second && feedHere) {
                        assertTrue(hangs(paper, entry.getKey(), row.getKey()), part.name() + "." + east);
                        throwsSeen++;
                    }
                }
            }
        }
        assertTrue(throwsSeen > 0, "there are such switches");
    }

    private static boolean hangs(PaperReader paper, PaperReader.Frame frame, double y) {
        return paper.lines.stream()
                .filter(l -> l.pen().equals("symbol") && !l.closed() && l.last() == 2)
                .filter(l -> frame.holds(l.xs()[0], l.ys()[0]) && Math.abs(l.ys()[0] - y) < SAME_MM)
                .anyMatch(l -> paper.circles.stream()
                        .anyMatch(c -> c.style().equals("thin f-ink")
                                && Math.abs(c.x() - l.xs()[2]) < SAME_MM
                                && Math.abs(c.y() - l.ys()[2]) < SAME_MM
                                && c.y() < y));
    }
}
