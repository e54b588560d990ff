package sprag.bench.drawing.live.element;

/**
 * A terminal that wires end on.
 *
 * @param name as in the schedule, {@code part.terminal}
 * @param net the name of the net that the schedule gives
 * @param traction whether a wire of the traction side ends here
 * @param ratedV the least voltage that a wire's end or the part is rated for (V); infinite when nothing is said
 */
public record Node(String name, String net, boolean traction, double ratedV) {}
