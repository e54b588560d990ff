package sprag.bench.page;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntToDoubleFunction;

/**
 * The path of a line, with no more points than can be seen. For each pixel of time it keeps the lowest and the highest value, so
 * that no peak is lost however long the run is.
 */
final class PixelPath {
    private final TimeAxis axis;
    private final DoubleUnaryOperator y;
    private final List<double[]> points = new ArrayList<>();
    private long column = Long.MIN_VALUE;
    /** The lowest and the highest place of the column: on a screen the lowest has the greatest y. */
    private double lowX;

    private double lowY;
    private double highX;
    private double highY;
    private double lastY = Double.NaN;

    PixelPath(TimeAxis axis, DoubleUnaryOperator y) {
        this.axis = axis;
        this.y = y;
    }

    /** Adds all values within the axis. At the ends of the axis a value between two known ones is worked out. */
    void addAll(Times times, IntToDoubleFunction value) {
        double beforeMs = Double.NaN;
        double before = Double.NaN;
        for (int row = 0; row < times.size(); row++) {
            double timeMs = times.timeMs().applyAsDouble(row);
            double now = value.applyAsDouble(row);
            if (beforeMs < axis.fromMs() && timeMs > axis.fromMs()) {
                add(axis.fromMs(), between(beforeMs, before, timeMs, now, axis.fromMs()));
            }
            if (timeMs >= axis.fromMs() && timeMs <= axis.toMs()) {
                add(timeMs, now);
            }
            if (timeMs > axis.toMs()) {
                if (beforeMs < axis.toMs()) {
                    add(axis.toMs(), between(beforeMs, before, timeMs, now, axis.toMs()));
                }
                break;
            }
            beforeMs = timeMs;
            before = now;
        }
        endColumn();
    }

    private static double between(double t0, double v0, double t1, double v1, double t) {
        return v0 + (v1 - v0) * (t - t0) / (t1 - t0);
    }

    private void add(double timeMs, double value) {
        if (Double.isNaN(value)) {
            endColumn();
            gap();
            return;
        }
        double xPx = axis.x(timeMs);
        double yPx = y.applyAsDouble(value);
        long at = (long) Math.floor(xPx);
        if (at != column) {
            endColumn();
            column = at;
            lowX = xPx;
            lowY = yPx;
            highX = xPx;
            highY = yPx;
        } else if (yPx > lowY) {
            lowX = xPx;
            lowY = yPx;
        } else if (yPx < highY) {
            highX = xPx;
            highY = yPx;
        }
        lastY = yPx;
    }

    /** NaN stands for a gap. */
    private void gap() {
        if (!points.isEmpty() && points.get(points.size() - 1) != null) {
            points.add(null);
        }
    }

    private void endColumn() {
        if (column != Long.MIN_VALUE) {
            boolean lowFirst = lowX <= highX;
            keep(lowFirst ? lowX : highX, lowFirst ? lowY : highY);
            if (lowY > highY) {
                keep(lowFirst ? highX : lowX, lowFirst ? highY : lowY);
            }
            column = Long.MIN_VALUE;
        }
    }

    /** In the middle of a level stretch no point is needed. */
    private void keep(double xPx, double yPx) {
        double[] point = {xPx, yPx};
        int last = points.size() - 1;
        boolean isLevel = last > 0 && isAt(points.get(last), yPx) && isAt(points.get(last - 1), yPx);
        if (isLevel) {
            points.set(last, point);
        } else {
            points.add(point);
        }
    }

    private static boolean isAt(double[] point, double yPx) {
        return point != null && Svg.tenths(point[1]) == Svg.tenths(yPx);
    }

    /** The height of the last value, half-way when there is none. */
    double lastY() {
        return Double.isNaN(lastY) ? y.applyAsDouble(0) : lastY;
    }

    @Override
    public String toString() {
        StringBuilder path = new StringBuilder();
        boolean begins = true;
        for (double[] point : points) {
            if (point != null) {
                path.append(begins ? "M" : " ")
                        .append(Svg.px(point[0]))
                        .append(',')
                        .append(Svg.px(point[1]));
            }
            begins = point == null;
        }
        return path.toString();
    }
}
