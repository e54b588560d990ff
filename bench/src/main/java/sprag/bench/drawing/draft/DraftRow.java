package sprag.bench.drawing.draft;

import sprag.bench.review.wiring.schedule.VoltageClass;

/**
 * A wire of a draft, before it has a number.
 *
 * @param from terminal at one end
 * @param to terminal at the other end
 * @param net name of the net
 * @param voltageClass what it belongs to
 * @param cells what else the schedule says of it
 */
record DraftRow(String from, String to, String net, VoltageClass voltageClass, Cells cells) {
    /**
     * The cells of a row that sizes and ratings come from; text, because empty is a value.
     *
     * @param sizeMm2 conductor size
     * @param colour colour of the covering
     * @param lengthM length one way
     * @param fuseA the fuse that guards it
     * @param pinV rating of both terminals
     * @param currentA greatest lasting current
     * @param twistedWith the other end of the pair's partner: its from and to
     * @param carries signals that the terminal does not name
     * @param remark the calculation behind the size
     */
    record Cells(
            String sizeMm2,
            String colour,
            String lengthM,
            String fuseA,
            String pinV,
            String currentA,
            String twistedWith,
            String carries,
            String remark) {}

    /** What makes it the same wire in the next draft. */
    String ends() {
        return from + " to " + to;
    }
}
