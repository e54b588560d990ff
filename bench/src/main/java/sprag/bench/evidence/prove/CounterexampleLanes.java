package sprag.bench.evidence.prove;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.TorquePermission;

/** Draws a story as lanes: the state, the contactors, what is permitted, and each fact that changed. A column is a chapter. */
final class CounterexampleLanes {
    private static final int LABEL_PX = 190;
    private static final int COLUMN_PX = 110;
    private static final int LANE_PX = 22;
    private static final int TOP_PX = 20;

    private final List<Counterexample.Chapter> chapters;
    private final Set<Fact> facts;
    private final StringBuilder svg = new StringBuilder();
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
        add(
                "<svg role='img' aria-label='The shortest way, as lanes' viewBox='0 0 %d %d' style='width:%dpx'>",
                widthPx, heightPx, widthPx);
        for (int i = 0; i < chapters.size(); i++) {
            add("<text x='%d' y='14'>%s</text>", LABEL_PX + i * COLUMN_PX + 2, ProofWords.ticks(chapters.get(i)));
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
        return svg.append("</svg>").toString();
    }

    private void states() {
        label("state");
        for (int i = 0; i < chapters.size(); i++) {
            String state = chapters.get(i).shown().state().name();
            add(
                    "<g class='state%d'><rect x='%d' y='%d' width='%d' height='%d'/>",
                    chapters.get(i).shown().state().ordinal(), x(i), y(), COLUMN_PX - 1, LANE_PX - 4);
            add(
                    "<text x='%d' y='%d'>%s</text></g>",
                    x(i) + 4, y() + 13, state.replace('_', ' ').toLowerCase(Locale.ROOT));
        }
        lane++;
    }

    private void bars(String name, Predicate<Counterexample.Chapter> on, String style) {
        label(name);
        for (int i = 0; i < chapters.size(); i++) {
            if (on.test(chapters.get(i))) {
                add(
                        "<rect class='%s' x='%d' y='%d' width='%d' height='%d'/>",
                        style, x(i), y() + 4, COLUMN_PX, LANE_PX - 12);
            }
        }
        lane++;
    }

    /** A bar where the fact is true, its label where it has more than two; nothing is drawn where it was not asked for. */
    private void fact(Fact fact) {
        label(fact.name());
        for (int i = 0; i < chapters.size(); i++) {
            Integer value = chapters.get(i).shown().facts().get(fact);
            if (value == null) {
                continue;
            }
            if (fact.labels.size() > 2) {
                add("<text x='%d' y='%d'>%s</text>", x(i) + 4, y() + 13, fact.labels.get(value));
            } else if (value == 1) {
                add(
                        "<rect class='asked' x='%d' y='%d' width='%d' height='%d'/>",
                        x(i), y() + 4, COLUMN_PX, LANE_PX - 12);
            } else {
                add("<path class='rail' d='M%d %dh%d'/>", x(i), y() + LANE_PX - 8, COLUMN_PX);
            }
        }
        lane++;
    }

    private void label(String name) {
        add("<text x='0' y='%d'>%s</text>", y() + 13, name);
    }

    private int x(int column) {
        return LABEL_PX + column * COLUMN_PX;
    }

    private int y() {
        return TOP_PX + lane * LANE_PX;
    }

    private void add(String pattern, Object... values) {
        svg.append(String.format(Locale.ROOT, pattern, values));
    }
}
