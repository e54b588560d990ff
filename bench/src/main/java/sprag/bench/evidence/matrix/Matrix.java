package sprag.bench.evidence.matrix;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.Transition;

/** Causes against effects, and states against exits, as text. Nothing is written here that the code does not say. */
public final class Matrix {
    private static final String EFFECT_LETTERS = "OSTBCLW";

    private Matrix() {}

    /** The matrix for a terminal, at most 80 columns wide.
     *
     * @param settings the vehicle whose times are shown
     * @return lines without line ends
     */
    public static List<String> forTerminal(Settings settings) {
        List<String> lines = new ArrayList<>();
        lines.add("Effects: O opens at once  S stops, then opens  T takes torque away");
        lines.add("         B blocks a start  C blocks a charge  L limits  W warns");
        lines.add("Asked in: o off  i ignition  p precharge  d drive-enable  r rundown");
        lines.add("         c charge-lockout  f fault. In i every row blocks a start.");
        lines.add("");
        lines.add(String.format(
                Locale.ROOT,
                "%-22s%-5s%-8s%-9s%9s %8s  %s",
                "cause",
                "haz.",
                "effect",
                "asked in",
                "detect ms",
                "budget",
                "ends with"));
        for (Interlock row : Interlock.values()) {
            lines.add(line(row, settings));
        }
        List<String> cannot = Needs.lines(settings);
        if (!cannot.isEmpty()) {
            lines.add("");
            lines.add("Not fitted: these rows cannot act on this vehicle (signals.fitted).");
            lines.addAll(cannot);
        }
        return lines;
    }

    private static String line(Interlock row, Settings settings) {
        boolean cannot = !Needs.of(row).missing(settings).isEmpty();
        Parameter detection = row.cause.detection();
        String detect = cannot
                ? "never"
                : detection == null ? row.cause.isFact() ? "at once" : "in step" : ms(settings, detection);
        return String.format(
                Locale.ROOT,
                "%-22s%-5s%-8s%-9s%9s %8s  %s",
                row.id(),
                row.hazard,
                effects(row.response),
                states(row),
                detect,
                ms(settings, row.budget),
                cannot ? "not fitted" : ending(row));
    }

    /** The headings of {@link #cells}. */
    public static final List<String> HEADS = List.of(
            "interlock", "hazard", "cause", "what it does", "ends with", "asked in", "detected (ms)", "budget (ms)");

    /** The matrix with a vehicle's times, one row for each interlock, for a table with {@link #HEADS}. */
    public static List<List<String>> cells(Settings settings) {
        List<List<String>> cells = new ArrayList<>();
        for (Interlock row : Interlock.values()) {
            List<String> missing =
                    Needs.of(row).missing(settings).stream().map(Signal::key).toList();
            Parameter detection = row.cause.detection();
            String detected = detection == null ? detection(row) : ms(settings, detection);
            cells.add(List.of(
                    row.id(),
                    row.hazard,
                    row.cause.toString(),
                    row.response.words,
                    row.reset.words,
                    stateNames(row),
                    missing.isEmpty() ? detected : "never: needs " + String.join(", ", missing),
                    ms(settings, row.budget)));
        }
        return cells;
    }

    /** Whether an interlock can act on a vehicle: it has the signals that the cause is seen by. */
    public static boolean canAct(Interlock row, Settings settings) {
        return Needs.of(row).missing(settings).isEmpty();
    }

    private static String ending(Interlock row) {
        return switch (row.reset) {
            case NONE -> "its cause";
            case PEDAL_RELEASE -> "release";
            case BRAKED_RELEASE -> "braked rel.";
            case KEY_CYCLE -> "key cycle";
            case SERVICE -> "service";
        };
    }

    private static String ms(Settings settings, Parameter parameter) {
        return String.format(Locale.ROOT, "%.0f", settings.get(parameter));
    }

    private static String effects(Response response) {
        StringBuilder marks = new StringBuilder(".".repeat(EFFECT_LETTERS.length()));
        marks.setCharAt(response.ordinal(), EFFECT_LETTERS.charAt(response.ordinal()));
        return marks.toString();
    }

    private static String states(Interlock row) {
        StringBuilder letters = new StringBuilder();
        for (State state : State.values()) {
            letters.append(row.where.contains(state) ? state.letter : '.');
        }
        return letters.toString();
    }

    /** The matrix as a page for {@code docs/}, with causes and reasons in words; default times. */
    public static String asMarkdown() {
        StringBuilder md = new StringBuilder();
        md.append("# The interlock matrix\n\n");
        md.append(
                "This page is made from `Interlock` in `supervisor/`; a test fails when it is stale. In each state the"
                        + " rows are\n");
        md.append(
                "checked from top to bottom, and the first one whose cause is present acts. In `IGNITION` an acting row"
                        + " refuses\n");
        md.append("a start; in `FAULT` it refuses a reset. [hazards.md](hazards.md) explains the hazards. Times are"
                + " parameters\n");
        md.append("that a vehicle may change.\n\n");
        md.append("| interlock | hazard | cause | what it does | ends with | asked in | detected within | budget | why"
                + " this response |\n");
        md.append("|---|---|---|---|---|---|---|---|---|\n");
        for (Interlock row : Interlock.values()) {
            md.append(String.format(
                    Locale.ROOT,
                    "| `%s` | %s | %s | %s | %s | %s | %s | `%s` | %s |%n",
                    row.id(),
                    row.hazard,
                    row.cause,
                    row.response.words,
                    row.reset.words,
                    stateNames(row),
                    detection(row),
                    row.budget.key(),
                    row.why));
        }
        return md.toString();
    }

    private static String detection(Interlock row) {
        Parameter detection = row.cause.detection();
        return detection != null ? "`" + detection.key() + "`" : row.cause.isFact() ? "the same tick" : "its step";
    }

    private static String stateNames(Interlock row) {
        List<String> names = new ArrayList<>();
        for (State state : row.where) {
            names.add(state.name());
        }
        return String.join(", ", names);
    }

    /** States, their exits and the contactor steps as a page for {@code docs/}. */
    public static String statesAsMarkdown() {
        StringBuilder md = new StringBuilder();
        md.append("# States and contactor steps\n\n");
        md.append("Made from `State`, `Transition` and `Step` in `supervisor/`; a test fails when this page is"
                + " stale.\n\n");
        md.append("![The states, and an arrow for each way from one to another](states.svg)\n\n");
        md.append("The numbers in the drawing are those of the exits below.\n\n");
        md.append("| number | exit | from | to | when |\n|---|---|---|---|---|\n");
        for (Transition via : Transition.values()) {
            md.append(String.format(
                    "| %d | `%s` | `%s` | `%s` | %s |%n", via.ordinal() + 1, via, via.from, via.to, via.reason));
        }
        md.append("\n## Which contactor is closed in which step\n\n");
        md.append("| step | negative | precharge | positive |\n|---|---|---|---|\n");
        for (Step step : Step.values()) {
            md.append(String.format(
                    "| `%s` | %s | %s | %s |%n",
                    step, closed(step.negativeClosed), closed(step.prechargeClosed), closed(step.positiveClosed)));
        }
        return md.toString();
    }

    private static String closed(boolean isClosed) {
        return isClosed ? "closed" : "open";
    }
}
