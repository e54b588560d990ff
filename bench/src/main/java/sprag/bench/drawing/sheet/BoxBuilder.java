package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.Wrap;
import sprag.bench.drawing.paper.SheetFont;
import sprag.bench.drawing.sheet.Box.Element;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/** Makes the boxes of one sheet from its wires. */
final class BoxBuilder {
    /** Size of all words but names (mm): at least 2 mm when a sheet made for A3 is printed on A4 or letter. */
    static final double TEXT_MM = 3.1;
    /** Height of a line of words (mm). */
    static final double LINE_MM = 3.9;
    /** Room for the letter of the class (mm). */
    static final double LETTER_MM = 4.6;

    /** The name of the part that stands where a wire ends in the air. */
    private static final String OPEN_END = "open end";

    private static final double PAD_MM = 1.2;
    /** Room for the bar of a splice between the words of both sides (mm). */
    private static final double BAR_MM = 4;

    private static final double HEADING_MM = 30;
    private static final int LONGEST_WORD = 32;
    private static final double LABEL_MM = 10;
    private static final double LABEL_STEP_MM = 2;

    private final Schedule schedule;
    private final Marks marks;
    private final References references;
    private final int sheet;
    private final Set<Part> loopSwitches;
    private final Map<String, List<Slot>> ends = new LinkedHashMap<>();
    private final Map<String, Part> parts = new LinkedHashMap<>();

    BoxBuilder(Schedule schedule, Set<Part> loopSwitches, Marks marks, References references, int sheet) {
        this.schedule = schedule;
        this.marks = marks;
        this.references = references;
        this.sheet = sheet;
        this.loopSwitches = loopSwitches;
    }

    /** The boxes in the order in which the wires name them. */
    List<Box> of(Collection<Wire> wires) {
        for (Wire wire : wires) {
            boolean forward = Flow.forward(wire, part(wire.from()), part(wire.to()));
            end(wire, wire.from(), !forward);
            end(wire, wire.to(), forward);
        }
        return ends.keySet().stream().map(this::box).toList();
    }

    private Part part(String terminal) {
        return terminal.isEmpty() ? Part.guessed(OPEN_END) : schedule.parts().get(Wire.partOf(terminal));
    }

    private void end(Wire wire, String terminal, boolean west) {
        Part part = part(terminal);
        String key = part.name();
        if (terminal.isEmpty()) {
            key = OPEN_END + " of " + wire.id();
        } else if (Flow.standsAlone(part.kind())) {
            key = terminal;
        } else if (part.kind() == PartKind.SUPERVISOR) {
            key = part.name() + (west ? " reads" : " gives");
        }
        parts.putIfAbsent(key, part);
        ends.computeIfAbsent(key, k -> new ArrayList<>())
                .add(new Slot(wire, terminal.isEmpty() ? "open.end" : terminal, west, 0));
    }

    private Box box(String key) {
        Part part = parts.get(key);
        List<Slot> left = new ArrayList<>(ends.get(key));
        List<Slot> slots = new ArrayList<>();
        List<Element> elements = new ArrayList<>();
        int row = 0;
        for (Pairs.Pair pair : Pairs.of(part, left, loopSwitches.contains(part))) {
            List<Slot> west = take(left, pair.west(), true);
            List<Slot> east = take(left, pair.east(), false);
            int rows = Math.max(west.size(), east.size());
            if (rows > 0) {
                place(slots, west, row);
                place(slots, east, row);
                String from = west.isEmpty() ? "" : pair.west();
                String to = east.isEmpty() ? "" : pair.east();
                boolean shared =
                        !elements.isEmpty() && from.isEmpty() && !references.isThere(part.name() + "." + pair.west());
                elements.add(new Element(pair.symbol(), row, row + rows - 1, from, to, shared));
                row += rows;
            }
        }
        List<Slot> west = left.stream().filter(Slot::west).toList();
        List<Slot> east = left.stream().filter(s -> !s.west()).toList();
        place(slots, grouped(west), row);
        place(slots, grouped(east), row);
        int rows = row + Math.max(west.size(), east.size());
        List<String> heading = heading(key, part);
        return new Box(key, part, heading, slots, elements, size(part, heading, slots, elements, rows));
    }

    /** Wires of one terminal stand together. */
    private static List<Slot> grouped(List<Slot> slots) {
        Map<String, List<Slot>> byTerminal = new LinkedHashMap<>();
        slots.forEach(s ->
                byTerminal.computeIfAbsent(s.terminal(), t -> new ArrayList<>()).add(s));
        return byTerminal.values().stream().flatMap(List::stream).toList();
    }

    private static List<Slot> take(List<Slot> from, String pin, boolean west) {
        List<Slot> taken = from.stream()
                .filter(s -> s.west() == west && s.pin().equals(pin))
                .toList();
        from.removeAll(taken);
        return taken;
    }

    private static void place(List<Slot> to, List<Slot> some, int firstRow) {
        for (int i = 0; i < some.size(); i++) {
            Slot slot = some.get(i);
            to.add(new Slot(slot.wire(), slot.terminal(), slot.west(), firstRow + i));
        }
    }

    private List<String> heading(String key, Part part) {
        List<String> lines = new ArrayList<>();
        if (Flow.standsAlone(part.kind()) && key.contains(".")) {
            lines.add(Wrap.brief(key, 2 * LONGEST_WORD));
            return lines;
        }
        lines.addAll(name(part.name()));
        String rating = rating(part);
        if (!rating.isEmpty()) {
            lines.add(rating);
        }
        String others = references.others(part.name(), sheet);
        if (!others.isEmpty()) {
            lines.add("also " + others);
        }
        return lines;
    }

    /** A long name goes on in a second line after an underscore. */
    private static List<String> name(String name) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : name.split("(?<=_)")) {
            boolean tooLong = SheetFont.widthMm(line + word, TEXT_MM) > HEADING_MM - LETTER_MM;
            if (tooLong && line.length() > 0) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(Wrap.brief(word, LONGEST_WORD));
        }
        lines.add(line.toString());
        return lines;
    }

    private static String rating(Part part) {
        List<String> figures = new ArrayList<>();
        if (!Double.isNaN(part.ratedA())) {
            figures.add(Numbers.text(part.ratedA(), "A"));
        }
        if (!Double.isNaN(part.ratedV())) {
            figures.add(Numbers.text(part.ratedV(), "V"));
        }
        return String.join(" ", figures);
    }

    private Box.Size size(Part part, List<String> heading, List<Slot> slots, List<Element> elements, int rows) {
        if (Flow.standsAlone(part.kind())) {
            double widthMm = SheetFont.widthMm(heading.get(0), TEXT_MM) + 2 * LETTER_MM;
            return new Box.Size(Math.ceil(widthMm), rows * Box.ROW_MM, 0, labelMm(slots, true), labelMm(slots, false));
        }
        double westPins = widest(slots, true);
        double eastPins = widest(slots, false);
        double plain = part.kind() == PartKind.SPLICE ? BAR_MM : 2 * PAD_MM;
        double symbol = elements.isEmpty() ? plain : 2 * Symbol.HALF_MM + PAD_MM;
        double inside = westPins + eastPins + symbol + 2 * PAD_MM;
        double marksMm = marksMm(marks.of(part.name()));
        double head = heading.stream()
                        .mapToDouble(line -> SheetFont.widthMm(line, TEXT_MM))
                        .max()
                        .orElse(0)
                + LETTER_MM
                + marksMm
                + 2 * PAD_MM;
        double headMm = Math.ceil(heading.size() * LINE_MM + PAD_MM);
        return new Box.Size(
                Math.ceil(Math.max(inside, head)),
                headMm + rows * Box.ROW_MM,
                headMm,
                labelMm(slots, true),
                labelMm(slots, false));
    }

    private double widest(List<Slot> slots, boolean west) {
        return slots.stream()
                .filter(s -> s.west() == west)
                .mapToDouble(s -> SheetFont.widthMm(pinWords(s), TEXT_MM))
                .max()
                .orElse(0);
    }

    private double labelMm(List<Slot> slots, boolean west) {
        double widest = slots.stream()
                .filter(s -> s.west() == west)
                .mapToDouble(s -> Math.max(
                        SheetFont.widthMm(number(s.wire()), TEXT_MM) + marksMm(marks.at(s)),
                        SheetFont.widthMm(sizeAndColour(s.wire()), TEXT_MM)))
                .max()
                .orElse(-1);
        return widest < 0 ? 0 : Math.max(LABEL_MM, Math.ceil((widest + 2 * PAD_MM) / LABEL_STEP_MM) * LABEL_STEP_MM);
    }

    /** The marks that are drawn beside one another; what is more stands in the list. */
    static List<Marks.Mark> shown(List<Marks.Mark> some) {
        return some.subList(0, Math.min(3, some.size()));
    }

    /** How wide the marks are that are drawn beside one another. */
    static double marksMm(List<Marks.Mark> some) {
        return shown(some).stream().mapToDouble(Marks.Mark::widthMm).sum();
    }

    /** The name of a terminal and the sheets on which more of its wires are. */
    String pinWords(Slot slot) {
        String others = references.others(slot.terminal(), sheet);
        return Wrap.brief(slot.pin(), LONGEST_WORD) + (others.isEmpty() ? "" : " →" + others);
    }

    /** The number of a wire, with the sign of what became of it. */
    String number(Wire wire) {
        return marks.sign(wire.id()) + Wrap.brief(wire.id(), LONGEST_WORD);
    }

    /** Size and colour of a wire. */
    static String sizeAndColour(Wire wire) {
        String size = Double.isNaN(wire.sizeMm2()) ? "?" : Numbers.text(wire.sizeMm2());
        return size + " " + Wrap.brief(ColourCode.of(wire.colour()), LONGEST_WORD);
    }
}
