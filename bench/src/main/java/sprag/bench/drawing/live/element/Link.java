package sprag.bench.drawing.live.element;

/**
 * A way through a part.
 *
 * @param sort what it is
 * @param part the part
 * @param a node at one end
 * @param b node at the other end
 * @param gate when it conducts
 * @param ratingA what a fuse is rated for (A); NaN for everything else
 */
public record Link(Sort sort, String part, int a, int b, Gate gate, double ratingA) {
    /** What a way through a part is. */
    public enum Sort {
        /** A contact or a driver: full current while closed. */
        CONTACT,
        /** An auxiliary contact that only reports. */
        AUXILIARY,
        /** Full current until it melts. */
        FUSE,
        /** Full current always. */
        FIXED,
        /** Current, but less of it: a resistor, a coil, a lamp, any load. */
        LOAD
    }
}
