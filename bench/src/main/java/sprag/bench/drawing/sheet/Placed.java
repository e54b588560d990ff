package sprag.bench.drawing.sheet;

import java.util.List;
import java.util.Map;
import sprag.bench.drawing.paper.Point;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * Where everything of a sheet stands.
 *
 * @param boxes with the top left corner of the frame
 * @param ends where each wire end meets the frame
 * @param routes the corners of each wire, from frame to frame
 */
record Placed(
        Map<Box, Point> boxes, Map<Slot, Point> ends, Map<Wire, List<Point>> routes, double widthMm, double heightMm) {}
