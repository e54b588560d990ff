package sprag.bench.drawing.sheet;

import java.util.List;
import sprag.bench.review.wiring.schedule.Wire;

/** One sheet.
 *
 * @param number counted from 1; 0 for an overview beside the sheets
 * @param title the subject, with a number when it takes several sheets
 */
public record Sheet(int number, String title, SheetKind kind, List<Wire> wires, Drawn drawn) {
    /** What only this package knows of it. */
    record Drawn(Placed placed, BoxBuilder words) {}

    /** Width of what is printed (mm): A3 with margins. */
    public static final double WIDTH_MM = 400;
    /** The greatest height of what is printed (mm). A sheet of A4 or letter paper has room for the same shape. */
    static final double HEIGHT_MM = 270;

    static final double EDGE_MM = 3;
    static final double STRIP_MM = 13;

    static double roomWidthMm() {
        return WIDTH_MM - 2 * EDGE_MM;
    }

    static double roomHeightMm() {
        return HEIGHT_MM - STRIP_MM - 2 * EDGE_MM;
    }

    /** How much smaller it has to be drawn to get on its paper; 1 for most. */
    double scale() {
        Placed placed = drawn.placed();
        double fit = Math.min(roomWidthMm() / placed.widthMm(), roomHeightMm() / placed.heightMm());
        return Math.min(1, fit);
    }

    /** Height of what is printed (mm): the drawing with its foot, so that little is not lost on much paper. */
    public double heightMm() {
        double drawingMm = drawn.placed().heightMm() * scale();
        return Math.min(HEIGHT_MM, Math.ceil(drawingMm + 2 * EDGE_MM + STRIP_MM));
    }

    /** Whether it shows the power side at a glance, wires left out. */
    boolean isOverview() {
        return number == 0;
    }

    /** Its number and title. */
    public String heading() {
        return isOverview() ? title : "Sheet " + number + ": " + title;
    }

    /** The name of its file, without the ending. */
    public String fileName() {
        return "sheet-" + number;
    }
}
