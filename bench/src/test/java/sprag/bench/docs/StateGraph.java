package sprag.bench.docs;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import sprag.bench.page.Svg;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Transition;

/**
 * Draws the states and every way between them. A number on a way is the row of the table of exits. Two ways between the same
 * states share an arrow. FAULT is as wide as the drawing, so that a way to it is short and straight.
 */
final class StateGraph {
    private static final int WIDTH_PX = 1016;
    private static final int HEIGHT_PX = 420;
    private static final double HALF_WIDTH_PX = 84;
    private static final double HALF_HEIGHT_PX = 21;
    /** There and back stand side by side. */
    private static final double ASIDE_PX = 11;
    /** The numbers stand nearer to the beginning of a way: there they lie apart. */
    private static final double NUMBER_AT = 0.3;

    private static final double NUMBER_PX = 17;

    private record Place(double x, double y, double halfWidth) {}

    private record Way(State from, State to) {}

    private final Map<State, Place> places = new EnumMap<>(State.class);
    private final Svg svg = new Svg("graph", "States and the ways between them", WIDTH_PX, HEIGHT_PX).begin();

    StateGraph() {
        place(State.OFF, 100, 50);
        place(State.IGNITION, 370, 50);
        place(State.PRECHARGE, 640, 50);
        place(State.DRIVE_ENABLE, 916, 50);
        place(State.CHARGE_LOCKOUT, 236, 225);
        place(State.RUNDOWN, 780, 225);
        places.put(State.FAULT, new Place(WIDTH_PX / 2.0, 385, WIDTH_PX / 2.0 - 16));
    }

    private void place(State state, double x, double y) {
        places.put(state, new Place(x, y, HALF_WIDTH_PX));
    }

    String svg() {
        svg.raw(
                "<defs><marker id=\"tip\" viewBox=\"0 0 10 10\" refX=\"9\" refY=\"5\" markerWidth=\"8\" markerHeight=\"8\"");
        svg.raw(" orient=\"auto\"><path d=\"M0 0L10 5L0 10z\" fill=\"var(--axis)\"/></marker></defs>\n");
        List<Way> ways = new ArrayList<>();
        for (Transition via : Transition.values()) {
            Way way = new Way(via.from, via.to);
            if (!ways.contains(way)) {
                ways.add(way);
            }
        }
        ways.forEach(this::arrow);
        for (State state : State.values()) {
            box(state);
        }
        ways.forEach(this::numbers);
        return svg.end();
    }

    private void box(State state) {
        Place place = places.get(state);
        svg.add("<g class=\"state%d\"><rect rx=\"8\" stroke=\"var(--axis)\" ", state.ordinal());
        svg.add("x=\"%s\" y=\"%s\" ", Svg.px(place.x - place.halfWidth), Svg.px(place.y - HALF_HEIGHT_PX));
        svg.add("width=\"%s\" height=\"%s\"/></g>", Svg.px(2 * place.halfWidth), Svg.px(2 * HALF_HEIGHT_PX));
        svg.add("<text class=\"mid\" font-weight=\"600\" x=\"%s\" y=\"%s\">", Svg.px(place.x), Svg.px(place.y + 5));
        svg.add("%s</text>\n", state.name());
    }

    private void arrow(Way way) {
        double[] ends = ends(way);
        svg.add("<path class=\"axis\" fill=\"none\" marker-end=\"url(#tip)\" ");
        svg.add("d=\"M%s %sL%s %s\"/>\n", Svg.px(ends[0]), Svg.px(ends[1]), Svg.px(ends[2]), Svg.px(ends[3]));
    }

    private void numbers(Way way) {
        List<String> rows = new ArrayList<>();
        for (Transition via : Transition.values()) {
            if (via.from == way.from && via.to == way.to) {
                rows.add(String.valueOf(via.ordinal() + 1));
            }
        }
        double[] ends = ends(way);
        double x = ends[0] + (ends[2] - ends[0]) * NUMBER_AT;
        double y = ends[1] + (ends[3] - ends[1]) * NUMBER_AT;
        String words = String.join(", ", rows);
        double half = Math.max(NUMBER_PX, words.length() * 8 + 4) / 2;
        svg.add("<rect rx=\"8\" fill=\"var(--paper)\" x=\"%s\" y=\"%s\" ", Svg.px(x - half), Svg.px(y - NUMBER_PX / 2));
        svg.add("width=\"%s\" height=\"%s\"/>", Svg.px(2 * half), Svg.px(NUMBER_PX));
        svg.add("<text class=\"mid\" x=\"%s\" y=\"%s\">%s</text>\n", Svg.px(x), Svg.px(y + 4.5), words);
    }

    /** Both ends of a way on the edges of the boxes: x and y of the beginning, x and y of the end. */
    private double[] ends(Way way) {
        Place from = places.get(way.from);
        Place to = places.get(way.to);
        if (way.to == State.FAULT || way.from == State.FAULT) {
            Place upper = way.to == State.FAULT ? from : to;
            double x = upper.x + (way.to == State.FAULT ? -1 : 1) * 2 * ASIDE_PX - (upper.y > 100 ? 0 : ASIDE_PX);
            double high = upper.y + HALF_HEIGHT_PX;
            double low = places.get(State.FAULT).y - HALF_HEIGHT_PX;
            return way.to == State.FAULT ? new double[] {x, high, x, low} : new double[] {x, low, x, high};
        }
        double dx = to.x - from.x;
        double dy = to.y - from.y;
        double asideX = -dy / Math.hypot(dx, dy) * ASIDE_PX;
        double asideY = dx / Math.hypot(dx, dy) * ASIDE_PX;
        double begin = Math.min(
                (from.halfWidth - Math.signum(dx) * asideX) / Math.abs(dx),
                (HALF_HEIGHT_PX - Math.signum(dy) * asideY) / Math.abs(dy));
        double end = 1
                - Math.min(
                        (to.halfWidth + Math.signum(dx) * asideX) / Math.abs(dx),
                        (HALF_HEIGHT_PX + Math.signum(dy) * asideY) / Math.abs(dy));
        double x = from.x + asideX;
        double y = from.y + asideY;
        return new double[] {x + dx * begin, y + dy * begin, x + dx * end, y + dy * end};
    }
}
