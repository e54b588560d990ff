package sprag.bench.panel.bench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.car.Lever;
import sprag.bench.cli.Numbers;
import sprag.bench.panel.bench.ActionLog.Broke;
import sprag.bench.panel.bench.ActionLog.Done;
import sprag.bench.panel.bench.ActionLog.Entered;
import sprag.bench.panel.bench.ActionLog.Mended;
import sprag.bench.panel.bench.ActionLog.Moved;
import sprag.bench.panel.bench.ActionLog.Other;
import sprag.bench.panel.session.CarSession;
import sprag.bench.panel.session.Subject;
import sprag.bench.vehicle.Catalogue;
import sprag.supervisor.vocabulary.Unit;

/**
 * Writes what was done as a scenario file: one step an action, a lever that was dragged as a few straight ramps, and the states
 * that came of it as expectations.
 */
final class ScenarioText {
    /** A drag is followed to within this share of the lever's range. */
    private static final double CLOSE = 0.02;
    /** Moves further apart in time are not one drag. */
    private static final long SAME_DRAG_MS = 300;
    /** Longer drags are followed in parts. */
    private static final int LONGEST_DRAG = 200;
    /** How far a state may come early or late. */
    private static final double SLACK_S = 0.5;

    private final StringBuilder text = new StringBuilder(4096);
    private int steps;

    /** Somebody moves a lever along a straight line. */
    private record Ramp(long startMs, long overMs, Lever lever, double to) {}

    private ScenarioText() {}

    /** Writes the file.
     *
     * @param endMs when the car was asked for it
     */
    static String of(Subject subject, ActionLog actions, long endMs) {
        ScenarioText writer = new ScenarioText();
        List<Done> done = actions.all();
        writer.about(subject, endMs);
        if (actions.isFull()) {
            writer.text
                    .append("\n# More was done than fits: what came after the first ")
                    .append(ActionLog.KEPT)
                    .append(" moves is missing.\n");
        }
        writer.steps(done);
        writer.expectations(done);
        return writer.text.toString();
    }

    private void about(Subject subject, long endMs) {
        text.append("# What was done at the panel. Give it a title, say why it matters, and keep the expectations"
                        + " that count.\n\n")
                .append("[about]\n")
                .append("title = \"Done at the panel\"\n")
                .append("why = \"Kept from the panel, to be looked at again\"\n")
                .append("vehicles = [\"")
                .append(subject.vehicle().name())
                .append("\"]\n")
                .append(bus(subject))
                .append("duration_s = ")
                .append(seconds(endMs + 1000))
                .append('\n')
                .append("seed = ")
                .append(CarSession.SEED)
                .append('\n');
    }

    private static String bus(Subject subject) {
        if (subject.bus() == null) {
            return "";
        }
        Path file = subject.bus().file();
        boolean own = Catalogue.BUS_FILE.equals(String.valueOf(file.getFileName()));
        Path named = own ? file.toAbsolutePath().getParent() : file;
        return "bus = \"" + String.valueOf(named.getFileName()).replaceFirst("\\.toml$", "") + "\"\n";
    }

    private void steps(List<Done> done) {
        Map<Long, List<String>> byTime = new TreeMap<>();
        for (Ramp ramp : ramps(done)) {
            String over = ramp.overMs > 0 ? "over_s = " + seconds(ramp.overMs) + "\n" : "";
            String words = ramp.lever.key() + " to " + plain(ramp.to);
            put(byTime, ramp.startMs, words, "set = { " + ramp.lever.key() + " = " + plain(ramp.to) + " }\n" + over);
        }
        for (Done each : done) {
            if (each instanceof Broke broke) {
                put(byTime, broke.timeMs(), "fault: " + broke.fault(), "fault = \"" + broke.fault() + "\"\n");
            } else if (each instanceof Mended mended) {
                put(byTime, mended.timeMs(), "mended: " + mended.fault(), "clear = \"" + mended.fault() + "\"\n");
            } else if (each instanceof Other other) {
                byTime.computeIfAbsent(other.timeMs(), t -> new ArrayList<>())
                        .add("\n# at " + seconds(other.timeMs()) + " s, which no scenario can do: " + other.words()
                                + "\n");
            }
        }
        byTime.values().forEach(all -> all.forEach(text::append));
    }

    private void put(Map<Long, List<String>> byTime, long timeMs, String words, String does) {
        steps++;
        byTime.computeIfAbsent(timeMs, t -> new ArrayList<>())
                .add("\n[[do]]\nname = \"" + steps + ": " + words + "\"\nat_s = " + seconds(timeMs) + "\n" + does);
    }

    private static List<Ramp> ramps(List<Done> done) {
        Map<Lever, List<Moved>> byLever = new TreeMap<>();
        for (Done each : done) {
            if (each instanceof Moved moved) {
                byLever.computeIfAbsent(moved.lever(), l -> new ArrayList<>()).add(moved);
            }
        }
        List<Ramp> all = new ArrayList<>();
        byLever.values().forEach(moves -> straighten(moves, all));
        return all;
    }

    /** Turns the moves of one lever into as few straight ramps as follow them closely. */
    private static void straighten(List<Moved> moves, List<Ramp> into) {
        int i = 0;
        while (i < moves.size()) {
            Moved first = moves.get(i);
            into.add(new Ramp(first.timeMs(), 0, first.lever(), first.to()));
            int end = i;
            while (end + 1 < moves.size() && end - i < LONGEST_DRAG && isDrag(moves.get(end), moves.get(end + 1))) {
                end++;
            }
            while (i < end) {
                int to = end;
                while (to > i + 1 && !isStraight(moves, i, to)) {
                    to--;
                }
                long overMs = moves.get(to).timeMs() - moves.get(i).timeMs();
                into.add(new Ramp(
                        moves.get(i).timeMs(),
                        overMs,
                        first.lever(),
                        moves.get(to).to()));
                i = to;
            }
            i++;
        }
    }

    private static boolean isDrag(Moved one, Moved next) {
        Lever lever = one.lever();
        return lever.unit != Unit.SWITCH
                && lever.way == Lever.Way.HELD
                && lever != Lever.DIRECTION
                && lever != Lever.REGEN_LEVEL
                && next.timeMs() > one.timeMs()
                && next.timeMs() - one.timeMs() <= SAME_DRAG_MS;
    }

    private static boolean isStraight(List<Moved> moves, int from, int to) {
        Moved a = moves.get(from);
        Moved b = moves.get(to);
        double range = a.lever().max - a.lever().min;
        for (int i = from + 1; i < to; i++) {
            double share = (moves.get(i).timeMs() - a.timeMs()) / (double) (b.timeMs() - a.timeMs());
            if (Math.abs(a.to() + share * (b.to() - a.to()) - moves.get(i).to()) > CLOSE * range) {
                return false;
            }
        }
        return true;
    }

    private void expectations(List<Done> done) {
        int count = 0;
        for (Done each : done) {
            if (each instanceof Entered entered) {
                count++;
                double atS = entered.timeMs() / 1000.0;
                text.append("\n[[expect]]\ntext = \"")
                        .append(count)
                        .append(": ")
                        .append(entered.state())
                        .append(" at about ")
                        .append(Numbers.text(atS))
                        .append(" s\"\nstate = \"")
                        .append(entered.state())
                        .append("\"\nfrom_s = ")
                        .append(plain(Math.max(0, atS - SLACK_S)))
                        .append("\nby_s = ")
                        .append(plain(atS + SLACK_S))
                        .append('\n');
            }
        }
        if (count == 0) {
            text.append("\n[[expect]]\ntext = \"nothing happens\"\nstate = \"OFF\"\nalways = true\n");
        }
    }

    private static String seconds(long ms) {
        return plain(ms / 1000.0);
    }

    /** A number without the noise of its last digits, as TOML reads it. */
    private static String plain(double value) {
        double rounded = Math.rint(value * 1e6) / 1e6;
        return java.math.BigDecimal.valueOf(rounded).stripTrailingZeros().toPlainString();
    }
}
