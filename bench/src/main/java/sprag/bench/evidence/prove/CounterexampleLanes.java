package sprag.bench.evidence.prove;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import sprag.bench.page.Svg;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.TorquePermission;

/** Draws a counterexample as lanes: state, contactors, permissions, and each fact that changed. A column is a chapter. */
final class CounterexampleLanes {
    private static final int LABEL_PX = 210;
    private static final int COLUMN_PX = 120;
    private static final int LANE_PX = 22;
    private static final int TOP_PX = 20;

    private final List<Counterexample.Chapter> chapters;
    private final Set<Fact> facts;
    private Svg svg;
    private int lane;

    CounterexampleLanes(Counterexample story) {
        this.chapters = story.chapters();
        this.facts = story.facts();
    }

    /** One {@code svg} element. Its width grows with the story; the page lets it scroll. */
    String svg() {
        int lanes = 6 + facts.size();
        int widthPx = LABEL_PX + chapters.size() * COLUMN_PX;
        int heightPx = TOP_PX + lanes * LANE_PX + 4;
        svg = new Svg("lanes", "The shortest way, as lanes", widthPx, heightPx).begin();
        for (int i = 0; i < chapters.size(); i++) {
            svg.add("<text x='%d' y='14'>%s</text>", LABEL_PX + i * COLUMN_PX + 2, ProofWords.ticks(chapters.get(i)));
        }
        states();
        bars("negative contactor", chapter -> chapter.shown().step().negativeClosed, "closed");
        bars("precharge relay", chapter -> chapter.shown().step().prechargeClosed, "closed");
        bars("positive contactor", chapter -> chapter.shown().step().positiveClosed, "closed");
        bars("torque", chapter -> chapter.shown().torque() != TorquePermission.NONE, "asked");
        bars("charge", chapter -> chapter.shown().charging(), "asked");
        for (Fact fact : facts) {
            fact(fact);
        }
        return svg.end();
    }

    private void states() {
        label("state");
        for (int i = 0; i < chapters.size(); i++) {
            String state = chapters.get(i).shown().state().name();
            svg.add(
                    "<g class='state%d'><rect x='%d' y='%d' width='%d' height='%d'/>",
                    chapters.get(i).shown().state().ordinal(), x(i), y(), COLUMN_PX - 1, LANE_PX - 4);
            svg.add(
                    "<text x='%d' y='%d'>%s</text></g>",
                    x(i) + 4, y() + 13, state.replace('_', ' ').toLowerCase(Locale.ROOT));
        }
        lane++;
    }

    private void bars(String name, Predicate<Counterexample.Chapter> on, String style) {
        label(name);
        for (int i = 0; i < chapters.size(); i++) {
            if (on.test(chapters.get(i))) {
                svg.add(
                        "<rect class='%s' x='%d' y='%d' width='%d' height='%d'/>",
                        style, x(i), y() + 4, COLUMN_PX, LANE_PX - 12);
            }
        }
        lane++;
    }

    /** Draws a bar where the fact is true, or its value in words where it has more than two. Where Logic did not ask, nothing. */
    private void fact(Fact fact) {
        label(fact.name());
        for (int i = 0; i < chapters.size(); i++) {
            Integer value = chapters.get(i).shown().facts().get(fact);
            if (value == null) {
                continue;
            }
            if (fact.labels.size() > 2) {
                svg.add("<text x='%d' y='%d'>%s</text>", x(i) + 4, y() + 13, fact.labels.get(value));
            } else if (value == 1) {
                svg.add(
                        "<rect class='asked' x='%d' y='%d' width='%d' height='%d'/>",
                        x(i), y() + 4, COLUMN_PX, LANE_PX - 12);
            } else {
                svg.add("<path class='rail' d='M%d %dh%d'/>", x(i), y() + LANE_PX - 8, COLUMN_PX);
            }
        }
        lane++;
    }

    private void label(String name) {
        svg.add("<text x='0' y='%d'>%s</text>", y() + 13, name);
    }

    private int x(int column) {
        return LABEL_PX + column * COLUMN_PX;
    }

    private int y() {
        return TOP_PX + lane * LANE_PX;
    }
}
