package sprag.bench.drawing.paper;

/** A place on a sheet (mm), from its top left corner. */
public record Point(double x, double y) {
    /** The same place, moved. */
    public Point plus(double dx, double dy) {
        return new Point(x + dx, y + dy);
    }
}
