package sprag.bench.drawing.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.drawing.paper.Fill;
import sprag.bench.drawing.paper.Ink;
import sprag.bench.drawing.paper.Pen;
import sprag.bench.drawing.paper.Point;
import sprag.bench.drawing.paper.SheetFont;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.wiring.schedule.Schedule;

/** No word lies on another one, and no upright line goes through a word. */
class SheetWordsTest {
    private static final double TOUCH_MM = 0.15;

    /** Remembers where words and upright lines are. */
    private static final class Places implements Ink {
        private record Words(double left, double top, double right, double bottom, String text) {
            boolean meets(Words other) {
                return left < other.right - TOUCH_MM
                        && other.left < right - TOUCH_MM
                        && top < other.bottom - TOUCH_MM
                        && other.top < bottom - TOUCH_MM;
            }
        }

        private record Upright(double x, double top, double bottom) {
            boolean crosses(Words words) {
                return x > words.left + TOUCH_MM
                        && x < words.right - TOUCH_MM
                        && top < words.bottom - TOUCH_MM
                        && bottom > words.top + TOUCH_MM;
            }
        }

        private final List<Words> words = new ArrayList<>();
        private final List<Upright> uprights = new ArrayList<>();

        @Override
        public void line(Pen pen, List<Point> points) {
            for (int i = 1; i < points.size(); i++) {
                Point p = points.get(i - 1);
                Point q = points.get(i);
                if (Math.abs(p.x() - q.x()) < 0.02) {
                    uprights.add(new Upright(p.x(), Math.min(p.y(), q.y()), Math.max(p.y(), q.y())));
                }
            }
        }

        @Override
        public void shape(Pen pen, Fill fill, List<Point> points) {
            // Frames and symbols; what goes into a frame is another test's.
        }

        @Override
        public void circle(Pen pen, Fill fill, Point centre, double radiusMm) {
            // As above.
        }

        @Override
        public void text(Point at, double sizeMm, Anchor anchor, Fill colour, String text) {
            double width = SheetFont.widthMm(SheetFont.drawable(text), sizeMm);
            double left = at.x() - (anchor == Anchor.START ? 0 : anchor == Anchor.END ? width : width / 2);
            words.add(new Words(left, at.y() - sizeMm * SheetFont.CAPITAL, left + width, at.y(), text));
        }

        @Override
        public void begin(String kind, String name, int net) {
            // Nothing is grouped here.
        }

        @Override
        public void end() {
            // As above.
        }

        List<String> faults() {
            List<String> faults = new ArrayList<>();
            for (int i = 0; i < words.size(); i++) {
                for (int j = i + 1; j < words.size(); j++) {
                    if (words.get(i).meets(words.get(j))) {
                        faults.add(words.get(i).text + " lies on " + words.get(j).text);
                    }
                }
                for (Upright upright : uprights) {
                    if (upright.crosses(words.get(i))) {
                        faults.add("a line goes through " + words.get(i).text);
                    }
                }
            }
            return faults;
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "draft of yard-cart", "draft of coupe"})
    void words_onEverySheet_standFree(String vehicle) throws Exception {
        Schedule schedule = SheetPlanTest.schedule(vehicle);
        List<Sheet> sheets = new ArrayList<>(SheetPlan.of(schedule, Marks.NONE));
        sheets.addAll(OneLine.of(schedule));
        List<String> faults = new ArrayList<>();
        for (Sheet sheet : sheets) {
            Places places = new Places();
            SheetPainter.draw(sheet, Marks.NONE, wire -> -1, "strip", places);
            assertTrue(places.words.size() > sheet.wires().size(), "words are there");
            places.faults().forEach(fault -> faults.add(sheet.heading() + ": " + fault));
        }
        assertEquals(List.of(), faults);
    }

    /** Remembers the signs of findings and the number on each. */
    private static final class Signs implements Ink {
        private final List<String> outside = new ArrayList<>();
        private final Map<Fill, Integer> seen = new EnumMap<>(Fill.class);
        private List<Point> sign = List.of();
        private Fill filled = Fill.NONE;

        @Override
        public void line(Pen pen, List<Point> points) {
            // No sign is made of lines.
        }

        @Override
        public void shape(Pen pen, Fill fill, List<Point> points) {
            sign = points;
            filled = fill;
        }

        @Override
        public void circle(Pen pen, Fill fill, Point centre, double radiusMm) {
            // Notes have no sign on a sheet.
        }

        @Override
        public void text(Point at, double sizeMm, Anchor anchor, Fill colour, String text) {
            if (colour != Fill.PAPER) {
                return;
            }
            seen.merge(filled, 1, Integer::sum);
            double half = SheetFont.widthMm(text, sizeMm) / 2;
            double top = at.y() - sizeMm * SheetFont.CAPITAL;
            List<Point> corners = List.of(
                    new Point(at.x() - half, top),
                    new Point(at.x() + half, top),
                    new Point(at.x() - half, at.y()),
                    new Point(at.x() + half, at.y()));
            if (!corners.stream().allMatch(this::isWithin)) {
                outside.add(text + " on " + filled);
            }
        }

        /** All signs are convex: a point within lies on the same side of every edge. */
        private boolean isWithin(Point p) {
            int sides = 0;
            for (int i = 0; i < sign.size(); i++) {
                Point a = sign.get(i);
                Point b = sign.get((i + 1) % sign.size());
                sides += (b.x() - a.x()) * (p.y() - a.y()) - (b.y() - a.y()) * (p.x() - a.x()) > 0 ? 1 : -1;
            }
            return Math.abs(sides) == sign.size();
        }

        @Override
        public void begin(String kind, String name, int net) {
            // Nothing is grouped here.
        }

        @Override
        public void end() {
            // As above.
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 9, 10, 24, 88, 100})
    void numberOfAFinding_liesWithinItsSign_andBesideNoOtherWords(int number) throws Exception {
        Schedule schedule = SheetPlanTest.schedule("yard-cart");
        List<Marks.Mark> both = List.of(new Marks.Mark(number, Weight.STOP), new Marks.Mark(number, Weight.CAUTION));
        Map<String, List<Marks.Mark>> onWires = new HashMap<>();
        schedule.wires().forEach(wire -> onWires.put(wire.id(), both));
        Map<String, List<Marks.Mark>> onParts = new HashMap<>();
        schedule.parts().keySet().forEach(part -> onParts.put(part, both));
        Marks marks = new Marks(onWires, Map.of(), onParts, Map.of());
        List<String> faults = new ArrayList<>();
        for (Sheet sheet : SheetPlan.of(schedule, marks)) {
            Signs signs = new Signs();
            SheetPainter.draw(sheet, marks, wire -> -1, "strip", signs);
            assertTrue(signs.seen.get(Fill.BAD) > 0 && signs.seen.get(Fill.ODD) > 0, signs.seen.toString());
            faults.addAll(signs.outside);
            Places places = new Places();
            SheetPainter.draw(sheet, marks, wire -> -1, "strip", places);
            places.faults().forEach(fault -> faults.add(sheet.heading() + ": " + fault));
        }
        assertEquals(List.of(), faults);
    }
}
