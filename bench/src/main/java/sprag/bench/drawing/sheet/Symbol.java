package sprag.bench.drawing.sheet;

import java.util.List;
import sprag.bench.drawing.paper.Fill;
import sprag.bench.drawing.paper.Ink;
import sprag.bench.drawing.paper.Pen;
import sprag.bench.drawing.paper.Point;

/** Symbols between two terminals, in the manner of IEC 60617. Each is drawn around a place, five millimetres to each side. */
enum Symbol {
    /** A rectangle with the line going through. */
    FUSE,
    /** A rectangle. */
    RESISTOR,
    /** A rectangle, empty so that nobody takes it for a fuse, with a tap at each end. */
    SHUNT,
    /** A contact that is open at rest. */
    MAKE,
    /** A contact that is closed at rest. */
    BREAK,
    /** A contact worked by hand that opens: with a head to press. */
    CUT_OFF,
    /** The coil of a relay. */
    COIL,
    /** A circle with a cross. */
    LAMP,
    /** Conducts one way, or limits a voltage. */
    SUPPRESSOR,
    /** A circle with M. */
    TURNS,
    /** A rectangle with bars. */
    HEATER,
    /** A rectangle with a slanted line: its resistance follows something. */
    SENSOR,
    /** Nothing is drawn between. */
    NONE;

    /** Half of its width (mm). */
    static final double HALF_MM = 5;

    private static final double TALL_MM = 1.5;

    /** Draws it and the lines to both sides.
     *
     * @param left where the line comes from the left; NaN when the sheet has nothing there
     * @param right where it goes on the right
     */
    void draw(Ink ink, double left, Point at, double right) {
        if (this == NONE) {
            return;
        }
        double gap = half();
        if (!Double.isNaN(left)) {
            ink.line(Pen.SYMBOL, left, at.y(), at.x() - gap, at.y());
        }
        if (!Double.isNaN(right)) {
            ink.line(Pen.SYMBOL, at.x() + gap, at.y(), right, at.y());
        }
        body(ink, at);
    }

    /** Whether a part of it moves, or melts, so that it is not always as it is drawn. */
    boolean moves() {
        return this == MAKE || this == BREAK || this == CUT_OFF || this == FUSE;
    }

    private double half() {
        return switch (this) {
            case LAMP, TURNS -> 2.6;
            case COIL -> 2;
            case SUPPRESSOR -> 1.6;
            default -> 4;
        };
    }

    private void body(Ink ink, Point at) {
        double x = at.x();
        double y = at.y();
        switch (this) {
            case SHUNT -> {
                ink.box(Pen.SYMBOL, Fill.PAPER, x - 4, y - TALL_MM, 8, 2 * TALL_MM);
                ink.line(Pen.SYMBOL, x - 3, y + TALL_MM, x - 3, y + 2 * TALL_MM);
                ink.line(Pen.SYMBOL, x + 3, y + TALL_MM, x + 3, y + 2 * TALL_MM);
            }
            case FUSE -> {
                ink.box(Pen.SYMBOL, Fill.PAPER, x - 4, y - TALL_MM, 8, 2 * TALL_MM);
                ink.line(Pen.SYMBOL, x - 4, y, x + 4, y);
            }
            case RESISTOR -> ink.box(Pen.SYMBOL, Fill.PAPER, x - 4, y - TALL_MM, 8, 2 * TALL_MM);
            case HEATER -> {
                ink.box(Pen.SYMBOL, Fill.PAPER, x - 4, y - TALL_MM, 8, 2 * TALL_MM);
                for (int bar = -2; bar <= 2; bar += 2) {
                    ink.line(Pen.SYMBOL, x + bar, y - TALL_MM, x + bar, y + TALL_MM);
                }
            }
            case SENSOR -> {
                ink.box(Pen.SYMBOL, Fill.PAPER, x - 4, y - TALL_MM, 8, 2 * TALL_MM);
                ink.line(Pen.SYMBOL, List.of(at.plus(-5, 2.6), at.plus(-3, 2.6), at.plus(3, -2.6)));
            }
            case COIL -> ink.box(Pen.SYMBOL, Fill.PAPER, x - 2, y - 2.6, 4, 5.2);
            case LAMP -> {
                ink.circle(Pen.SYMBOL, Fill.PAPER, at, 2.6);
                ink.line(Pen.SYMBOL, x - 1.84, y - 1.84, x + 1.84, y + 1.84);
                ink.line(Pen.SYMBOL, x - 1.84, y + 1.84, x + 1.84, y - 1.84);
            }
            case TURNS -> {
                ink.circle(Pen.SYMBOL, Fill.PAPER, at, 2.6);
                ink.text(at.plus(0, 1.1), 3.1, Ink.Anchor.MIDDLE, Fill.INK, "M");
            }
            case SUPPRESSOR -> {
                ink.shape(Pen.SYMBOL, Fill.PAPER, List.of(at.plus(-1.6, -1.6), at.plus(-1.6, 1.6), at.plus(1.6, 0)));
                ink.line(Pen.SYMBOL, x + 1.6, y - 1.6, x + 1.6, y + 1.6);
            }
            default -> contact(ink, at);
        }
    }

    private void contact(Ink ink, Point at) {
        double tip = this == MAKE ? -2.4 : -1.6;
        double reach = this == MAKE ? 3.2 : 4.4;
        ink.line(Pen.SYMBOL, List.of(at.plus(-4, 0), at.plus(reach, tip)));
        if (this != MAKE) {
            ink.line(Pen.SYMBOL, List.of(at.plus(4, 0), at.plus(4, -2.4)));
        }
        if (this == CUT_OFF) {
            ink.line(Pen.HAIR, List.of(at.plus(0, -0.9), at.plus(0, -3)));
            ink.shape(Pen.SYMBOL, Fill.INK, List.of(at.plus(-1.6, -3), at.plus(0, -3.8), at.plus(1.6, -3)));
        }
    }
}
