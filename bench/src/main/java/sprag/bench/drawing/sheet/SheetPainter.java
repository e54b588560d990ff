package sprag.bench.drawing.sheet;

import java.util.List;
import java.util.Map;
import java.util.function.ToIntFunction;
import sprag.bench.drawing.paper.Fill;
import sprag.bench.drawing.paper.Ink;
import sprag.bench.drawing.paper.Pen;
import sprag.bench.drawing.paper.Point;
import sprag.bench.drawing.paper.ScaledInk;
import sprag.bench.drawing.paper.SheetFont;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Wire;

/** Draws a sheet. */
public final class SheetPainter {
    private static final double TEXT_MM = BoxBuilder.TEXT_MM;
    private static final double ABOVE_MM = 1.1;
    private static final double BELOW_MM = 3.3;
    private static final double GAP_MM = 1.2;
    private static final double GROUND_MM = 3;
    private static final double JOINT_MM = 0.6;
    private static final String CAUTION =
            "Lethal d.c.: isolate, lock, wait, prove dead with a rated meter. Never alone. ";
    private static final String ONE_WIRE = "A line is one wire; lines that cross are not joined.";
    private static final String MANY_WIRES =
            "A line stands for all conductors between two parts; the return of a load is not drawn.";

    private final Sheet sheet;
    private final Marks marks;
    private final ToIntFunction<Wire> netOf;
    private final Placed placed;
    private final BoxBuilder words;
    private final Ink ink;

    private SheetPainter(Sheet sheet, Marks marks, ToIntFunction<Wire> netOf, Ink ink) {
        this.sheet = sheet;
        this.marks = marks;
        this.netOf = netOf;
        this.placed = sheet.drawn().placed();
        this.words = sheet.drawn().words();
        this.ink = new ScaledInk(ink, sheet.scale(), Sheet.EDGE_MM, Sheet.EDGE_MM);
    }

    /** Draws a sheet.
     *
     * @param netOf the net of a wire, for the groups of what is drawn
     * @param strip words at the foot: the vehicle and what the sheet was made from
     */
    public static void draw(Sheet sheet, Marks marks, ToIntFunction<Wire> netOf, String strip, Ink ink) {
        SheetPainter painter = new SheetPainter(sheet, marks, netOf, ink);
        painter.placed.routes().forEach(painter::wire);
        painter.placed.boxes().forEach(painter::box);
        foot(sheet, strip, ink);
    }

    private static void foot(Sheet sheet, String strip, Ink ink) {
        double top = sheet.heightMm() - Sheet.STRIP_MM;
        ink.box(Pen.THIN, Fill.NONE, 0.5, 0.5, Sheet.WIDTH_MM - 1, sheet.heightMm() - 1);
        ink.line(Pen.THIN, 0.5, top, Sheet.WIDTH_MM - 0.5, top);
        ink.text(new Point(4, top + 5.5), 4.2, Ink.Anchor.START, Fill.INK, sheet.heading());
        ink.text(new Point(Sheet.WIDTH_MM - 4, top + 5.2), TEXT_MM, Ink.Anchor.END, Fill.INK, strip);
        String words = CAUTION + (sheet.isOverview() ? MANY_WIRES : ONE_WIRE);
        ink.text(new Point(4, top + 10.4), TEXT_MM, Ink.Anchor.START, Fill.INK, words);
    }

    private void wire(Wire wire, List<Point> route) {
        ink.begin(
                "wire",
                wire.id() + ", net " + wire.net() + ": " + wire.from() + " to " + wire.to(),
                sheet.isOverview() ? -1 : netOf.applyAsInt(wire));
        boolean removed = marks.changes().get(wire.id()) == Marks.Change.REMOVED;
        ink.line(removed ? Pen.GONE : sheet.kind().pen(wire.voltageClass()), route);
        ink.end();
    }

    private void box(Box box, Point corner) {
        ink.begin("part", box.part().name(), -1);
        boolean ground = Flow.standsAlone(box.part().kind());
        boolean joint = box.part().kind() == PartKind.SPLICE;
        if (!ground) {
            ink.box(
                    Pen.SYMBOL,
                    Fill.PALE,
                    corner.x(),
                    corner.y(),
                    box.size().widthMm(),
                    box.size().heightMm());
        }
        head(box, corner);
        if (ground) {
            ground(box);
        } else if (joint) {
            bar(box, corner);
        }
        box.elements().forEach(element -> element(box, corner, element));
        for (Slot slot : box.slots()) {
            slot(box, slot, placed.ends().get(slot));
        }
        ink.end();
    }

    private void head(Box box, Point corner) {
        if (Flow.standsAlone(box.part().kind())) {
            Slot slot = box.slots().get(0);
            Ink.Anchor anchor = slot.west() ? Ink.Anchor.START : Ink.Anchor.END;
            double away = slot.west() ? GROUND_MM + 3.2 : -GROUND_MM - 3.2;
            String name = box.heading().get(0);
            ink.text(placed.ends().get(slot).plus(away, 1.1), TEXT_MM, anchor, Fill.INK, name);
            return;
        }
        String letter = LetterClass.of(box.part().kind());
        ink.text(corner.plus(GAP_MM, BoxBuilder.LINE_MM), TEXT_MM, Ink.Anchor.START, Fill.NOTE, letter);
        double y = corner.y() + BoxBuilder.LINE_MM;
        for (String line : box.heading()) {
            ink.text(
                    new Point(corner.x() + BoxBuilder.LETTER_MM + GAP_MM, y),
                    TEXT_MM,
                    Ink.Anchor.START,
                    Fill.INK,
                    line);
            y += BoxBuilder.LINE_MM;
        }
        List<Marks.Mark> here = marks.of(box.part().name());
        double x = corner.x() + box.size().widthMm() - BoxBuilder.marksMm(here);
        marks(here, new Point(x, corner.y() + BoxBuilder.LINE_MM));
    }

    /** A bar that joins all that lands on it, between the words of both sides. */
    private void bar(Box box, Point corner) {
        double free = box.size().widthMm() - pinsWidth(box, true) - pinsWidth(box, false);
        double middle = corner.x() + pinsWidth(box, true) + free / 2;
        double top = corner.y() + box.rowY(0);
        double bottom = corner.y() + box.size().heightMm() - Box.ROW_MM / 2;
        ink.line(Pen.SUPPLY, middle, top - 1, middle, bottom + 1);
        for (Slot slot : box.slots()) {
            Point end = placed.ends().get(slot);
            ink.line(Pen.SYMBOL, end.x(), end.y(), middle, end.y());
            ink.circle(Pen.THIN, Fill.INK, new Point(middle, end.y()), JOINT_MM);
        }
    }

    /** Three bars under a line, the name behind them. */
    private void ground(Box box) {
        for (Slot slot : box.slots()) {
            Point end = placed.ends().get(slot);
            double x = end.x() + (slot.west() ? GROUND_MM : -GROUND_MM);
            ink.line(Pen.SYMBOL, List.of(end, new Point(x, end.y()), new Point(x, end.y() + 1.2)));
            for (int bar = 0; bar < 3; bar++) {
                double half = 2.4 - 0.8 * bar;
                double y = end.y() + 1.2 + 0.8 * bar;
                ink.line(Pen.SYMBOL, x - half, y, x + half, y);
            }
        }
    }

    private void element(Box box, Point corner, Box.Element element) {
        double y = corner.y() + box.rowY(element.row());
        double left = corner.x();
        double right = corner.x() + box.size().widthMm();
        double room = box.size().widthMm() - Symbol.HALF_MM * 2;
        double westWords = pinsWidth(box, true);
        double eastWords = pinsWidth(box, false);
        double middle = left + westWords + (room - westWords - eastWords) / 2 + Symbol.HALF_MM;
        double from = element.west().isEmpty() ? Double.NaN : left;
        double to = element.east().isEmpty() ? Double.NaN : right;
        boolean moves = element.symbol().moves();
        if (moves) {
            String part = box.part().name() + ".";
            ink.begin("contact", part + element.west() + " " + part + element.east(), -1);
        }
        element.symbol().draw(ink, from, new Point(middle, y), to);
        if (moves) {
            ink.end();
        }
        if (element.shared()) {
            double common = middle - Symbol.HALF_MM;
            double first = corner.y() + box.rowY(box.elements().get(0).row());
            ink.line(Pen.SYMBOL, List.of(new Point(middle - 4, y), new Point(common, y), new Point(common, first)));
            ink.circle(Pen.THIN, Fill.INK, new Point(common, first), JOINT_MM);
        }
        for (Slot slot : box.slots()) {
            if (slot.row() > element.row() && slot.row() <= element.lastRow()) {
                Point end = placed.ends().get(slot);
                double in = slot.west() ? end.x() + GAP_MM : end.x() - GAP_MM;
                ink.line(Pen.SYMBOL, List.of(end, new Point(in, end.y()), new Point(in, y)));
            }
        }
    }

    /** One width for all elements, so that they stand below one another. */
    private double pinsWidth(Box box, boolean west) {
        return box.slots().stream()
                .filter(s -> s.west() == west)
                .mapToDouble(s -> SheetFont.widthMm(words.pinWords(s), TEXT_MM))
                .max()
                .orElse(0);
    }

    private void slot(Box box, Slot slot, Point end) {
        boolean ground = Flow.standsAlone(box.part().kind());
        double side = slot.west() ? -1 : 1;
        Ink.Anchor outward = slot.west() ? Ink.Anchor.END : Ink.Anchor.START;
        Ink.Anchor inward = slot.west() ? Ink.Anchor.START : Ink.Anchor.END;
        boolean joined = false;
        for (Box.Element element : box.elements()) {
            joined |= slot.row() > element.row() && slot.row() <= element.lastRow();
        }
        if (!ground && !joined) {
            ink.text(end.plus(-side * GAP_MM, -ABOVE_MM), TEXT_MM, inward, Fill.INK, words.pinWords(slot));
        }
        ink.text(end.plus(side * GAP_MM, -ABOVE_MM), TEXT_MM, outward, Fill.INK, words.number(slot.wire()));
        ink.text(end.plus(side * GAP_MM, BELOW_MM), TEXT_MM, outward, Fill.INK, BoxBuilder.sizeAndColour(slot.wire()));
        List<Marks.Mark> here = marks.at(slot);
        double past = SheetFont.widthMm(words.number(slot.wire()), TEXT_MM) + 2 * GAP_MM;
        double width = BoxBuilder.marksMm(here);
        marks(here, end.plus(slot.west() ? -past - width : past, -ABOVE_MM));
        ink.circle(Pen.THIN, Fill.PAPER, end, 0.5);
    }

    /** Numbers of findings: an eight-sided sign for a stop, a triangle for a caution, a circle for a note; each as wide as its number asks. */
    private void marks(List<Marks.Mark> some, Point baseLine) {
        double x = baseLine.x();
        for (Marks.Mark mark : BoxBuilder.shown(some)) {
            double width = mark.widthMm();
            Point centre = new Point(x + width / 2, baseLine.y() - 1.1);
            double half = width / 2 - 0.1;
            switch (mark.weight()) {
                case STOP -> {
                    double flat = half - 1.4;
                    ink.shape(
                            Pen.HAIR,
                            Fill.BAD,
                            List.of(
                                    centre.plus(-half, -1),
                                    centre.plus(-flat, -2.4),
                                    centre.plus(flat, -2.4),
                                    centre.plus(half, -1),
                                    centre.plus(half, 1),
                                    centre.plus(flat, 2.4),
                                    centre.plus(-flat, 2.4),
                                    centre.plus(-half, 1)));
                }
                case CAUTION ->
                    ink.shape(
                            Pen.HAIR,
                            Fill.ODD,
                            List.of(centre.plus(-half, 1.7), centre.plus(half, 1.7), centre.plus(0, -3)));
                default -> ink.circle(Pen.HAIR, Fill.NOTE, centre, half - 0.4);
            }
            ink.text(centre.plus(0, mark.baseMm()), TEXT_MM, Ink.Anchor.MIDDLE, Fill.PAPER, mark.words());
            x += width;
        }
    }

    /** The number of a wire and its place, for tests. */
    static Map<Wire, List<Point>> routes(Sheet sheet) {
        return sheet.drawn().placed().routes();
    }
}
