package sprag.bench.drawing.paper;

import java.util.List;

/** Something that can be drawn on. Lengths are in millimetres from the top left corner. */
public interface Ink {
    /** Where a word stands against its place. */
    enum Anchor {
        START,
        MIDDLE,
        END
    }

    /** A line through some points. */
    void line(Pen pen, List<Point> points);

    /** A closed shape through some points. */
    void shape(Pen pen, Fill fill, List<Point> points);

    /** A circle around a point. */
    void circle(Pen pen, Fill fill, Point centre, double radiusMm);

    /** Words; their base line begins, has its middle or ends at a point. */
    void text(Point at, double sizeMm, Anchor anchor, Fill colour, String words);

    /** Begins a group of things that belong together.
     *
     * @param kind such as {@code wire}
     * @param name what it is, for people
     * @param net the net it belongs to; -1 for none
     */
    void begin(String kind, String name, int net);

    /** Ends the group that was begun last. */
    void end();

    /** The same with thinner lines, for a drawing that is made smaller; an ink that cannot draws as before.
     *
     * @param share of the width that a pen has
     */
    default Ink thinner(double share) {
        return this;
    }

    /** A straight line. */
    default void line(Pen pen, double x1, double y1, double x2, double y2) {
        line(pen, List.of(new Point(x1, y1), new Point(x2, y2)));
    }

    /** A rectangle. */
    default void box(Pen pen, Fill fill, double x, double y, double widthMm, double heightMm) {
        shape(
                pen,
                fill,
                List.of(
                        new Point(x, y),
                        new Point(x + widthMm, y),
                        new Point(x + widthMm, y + heightMm),
                        new Point(x, y + heightMm)));
    }
}
