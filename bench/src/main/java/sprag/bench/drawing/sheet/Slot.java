package sprag.bench.drawing.sheet;

import sprag.bench.review.wiring.schedule.Wire;

/**
 * A place on the border of a box where one end of one wire lands.
 *
 * @param terminal the whole name, {@code part.terminal}
 * @param west whether it is on the left side
 * @param row counted from the top, from 0
 */
record Slot(Wire wire, String terminal, boolean west, int row) {
    /** The name at the part, behind the dot. */
    String pin() {
        return Wire.pinOf(terminal);
    }
}
