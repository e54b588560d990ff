package sprag.bench.vehicle;

import static sprag.supervisor.vocabulary.Parameter.PEDAL_A_FULL_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_A_RELEASED_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_B_FULL_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_B_RELEASED_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_MIN_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_SHORT_V;

import java.util.function.ToDoubleFunction;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;

/**
 * What cannot be told from two rows alone: a track must move, stay inside the window of good volts, and never come so near to
 * the other that a short between the two could not be told.
 *
 * <pre>
 *   max ------------------------------
 *            A full  ___---
 *             ___----            } everywhere further apart
 *     A released     ___--- B full } than pedal.short_v
 *     B released ----
 *   min ------------------------------
 * </pre>
 */
final class PedalCheck {
    private static final double ROUNDING_V = 1e-9;

    private final Section root;
    private final ToDoubleFunction<Row> values;

    private PedalCheck(Section root, ToDoubleFunction<Row> values) {
        this.root = root;
        this.values = values;
    }

    static void check(Section root, ToDoubleFunction<Row> values, boolean twoTracks) {
        PedalCheck pedal = new PedalCheck(root, values);
        pedal.track(PEDAL_A_RELEASED_V, PEDAL_A_FULL_V);
        if (twoTracks) {
            pedal.track(PEDAL_B_RELEASED_V, PEDAL_B_FULL_V);
            pedal.apart();
        }
    }

    private void track(Parameter released, Parameter full) {
        inWindow(released);
        inWindow(full);
        if (get(released) == get(full)) {
            String same = "= " + Section.plain(get(full)) + " equals " + released.key();
            root.note(
                    full.key(),
                    same,
                    "another voltage",
                    "make the pedal do nothing",
                    "Measure both ends of the travel.");
        }
    }

    private void inWindow(Parameter end) {
        double min = get(PEDAL_MIN_V);
        double max = get(PEDAL_MAX_V);
        if (get(end) <= min || get(end) >= max) {
            String found = "= " + Section.plain(get(end)) + " is not between " + PEDAL_MIN_V.key() + " = "
                    + Section.plain(min) + " and " + PEDAL_MAX_V.key() + " = " + Section.plain(max);
            root.note(
                    end.key(),
                    found,
                    min + ".." + max,
                    "make a good pedal count as a broken wire",
                    "Measure it, or move the window.");
        }
    }

    /** Two straight lines are nearest at an end of the travel, or cross in between. */
    private void apart() {
        double released = get(PEDAL_A_RELEASED_V) - get(PEDAL_B_RELEASED_V);
        double full = get(PEDAL_A_FULL_V) - get(PEDAL_B_FULL_V);
        double least = released * full <= 0 ? 0 : Math.min(Math.abs(released), Math.abs(full));
        if (least <= get(PEDAL_SHORT_V) + ROUNDING_V) {
            String found = "comes within " + Section.plain(Math.rint(least * 1000) / 1000) + " V of the first track ("
                    + PEDAL_SHORT_V.key() + " = " + Section.plain(get(PEDAL_SHORT_V)) + ")";
            root.note(
                    PEDAL_B_RELEASED_V.key(),
                    found,
                    "tracks apart everywhere",
                    "hide a short between the two wipers",
                    "Use tracks with another slope or offset, or lower " + PEDAL_SHORT_V.key() + ".");
        }
    }

    private double get(Row row) {
        return values.applyAsDouble(row);
    }
}
