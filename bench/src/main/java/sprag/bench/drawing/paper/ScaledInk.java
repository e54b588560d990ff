package sprag.bench.drawing.paper;

import java.util.List;

/**
 * Draws the same smaller and moved.
 *
 * @param scale how much smaller; widths of lines stay
 * @param xMm how far to the right
 * @param yMm how far down
 */
public record ScaledInk(Ink ink, double scale, double xMm, double yMm) implements Ink {
    private Point moved(Point point) {
        return new Point(point.x() * scale + xMm, point.y() * scale + yMm);
    }

    private List<Point> moved(List<Point> points) {
        return points.stream().map(this::moved).toList();
    }

    @Override
    public void line(Pen pen, List<Point> points) {
        ink.line(pen, moved(points));
    }

    @Override
    public void shape(Pen pen, Fill fill, List<Point> points) {
        ink.shape(pen, fill, moved(points));
    }

    @Override
    public void circle(Pen pen, Fill fill, Point centre, double radiusMm) {
        ink.circle(pen, fill, moved(centre), radiusMm * scale);
    }

    @Override
    public void text(Point at, double sizeMm, Anchor anchor, Fill colour, String words) {
        ink.text(moved(at), sizeMm * scale, anchor, colour, words);
    }

    @Override
    public void begin(String kind, String name, int net) {
        ink.begin(kind, name, net);
    }

    @Override
    public void end() {
        ink.end();
    }
}
