package sprag.bench.drawing.sheet;

import java.util.List;
import sprag.bench.review.wiring.schedule.Part;

/**
 * A part as it is drawn on one sheet, with the terminals that the sheet's wires use. Its outer size holds the words at its wires,
 * so that no line comes near them.
 *
 * @param key tells it from all other boxes of the sheet
 * @param heading the lines of words in its head
 * @param slots where wires land
 * @param elements contacts, coils and the like, one to a row at most
 * @param size what it takes (mm)
 */
record Box(String key, Part part, List<String> heading, List<Slot> slots, List<Element> elements, Size size) {
    /**
     * What is drawn between the left and the right side of a row.
     *
     * @param row the first row
     * @param lastRow the last row whose wires land at the same terminals
     * @param west name of the left terminal; empty when the sheet has none
     * @param east name of the right terminal
     * @param shared whether its left side is that of the first element: a second throw of the same contact
     */
    record Element(Symbol symbol, int row, int lastRow, String west, String east, boolean shared) {}

    /**
     * Lengths (mm).
     *
     * @param widthMm of the frame
     * @param heightMm of the frame
     * @param headMm height of the part of it that has the words
     * @param westMm room for the words at the wires on the left, outside of the frame
     * @param eastMm the same on the right
     */
    record Size(double widthMm, double heightMm, double headMm, double westMm, double eastMm) {
        double outerWidthMm() {
            return westMm + widthMm + eastMm;
        }
    }

    /**
     * Distance between two rows (mm): words above and below a line. Whole millimetres, as the heads of parts: the layout library rounds
     * the places of terminals, and a line between two that were rounded apart has a kink.
     */
    static final double ROW_MM = 8;

    /** Where the line of a row is, from the top of the frame (mm). */
    double rowY(int row) {
        return size.headMm() + ROW_MM * (row + 0.5);
    }
}
