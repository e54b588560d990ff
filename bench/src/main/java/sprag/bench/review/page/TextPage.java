package sprag.bench.review.page;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.Wrap;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.formula.VoltageBand;
import sprag.bench.review.report.Acceptance;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.JudgedFinding;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.review.wiring.schedule.Schedule;

/** The review as text for a terminal of 80 columns. */
public final class TextPage {

    private final StringBuilder text = new StringBuilder();

    private TextPage() {}

    /**
     * Writes the review. The heaviest findings stand at the end, where a terminal stops. With {@code all}, calculations that keep
     * their limit are listed too. Returns lines of at most 80 columns, longer only where one word is.
     */
    public static String of(CheckReport report, boolean all) {
        TextPage page = new TextPage();
        page.head(report);
        page.calculations(report, all);
        page.lostCover(report);
        page.accepted(report);
        for (int i = Weight.values().length - 1; i >= 0; i--) {
            page.findings(report, Weight.values()[i]);
        }
        page.wrapped(Summary.CAUTION, "");
        return page.text.append('\n').toString();
    }

    /** The last line: how many findings of each weight, and the verdict. */
    public static String verdict(CheckReport report) {
        return Summary.of(report);
    }

    private void head(CheckReport report) {
        wrapped("Design review of " + report.vehicle().name(), "");
        if (!report.vehicle().description().isEmpty()) {
            wrapped(report.vehicle().description() + ".", "");
        }
        VoltageBand band = VoltageBand.of(report.vehicle());
        wrapped(Summary.voltage(report.vehicle()) + ": " + band.changes + ". Source: " + band.source + ".", "");
        Schedule schedule = report.schedule();
        if (schedule != null) {
            wrapped(
                    schedule.wires().size() + " wires, " + schedule.parts().size() + " parts, "
                            + report.calculations().size() + " calculations.",
                    "");
            wrapped(report.pins(), "");
        }
        text.append('\n');
    }

    private void findings(CheckReport report, Weight weight) {
        List<JudgedFinding> open = report.findings().stream()
                .filter(j -> j.finding().weight() == weight && !j.isAccepted())
                .toList();
        if (open.isEmpty()) {
            return;
        }
        text.append(weight.name()).append(": ").append(weight.meaning).append("\n\n");
        for (JudgedFinding judged : open) {
            finding(judged.finding());
        }
    }

    private void finding(Finding finding) {
        wrapped(finding.id() + "  " + finding.place() + "  " + finding.where(), "  ");
        wrapped(finding.sentence(), "    ");
        if (!finding.why().isEmpty()) {
            wrapped("Why it matters: " + finding.why() + ".", "    ");
        }
        wrapped("Source: " + finding.source() + ".", "    ");
        text.append('\n');
    }

    private void accepted(CheckReport report) {
        List<JudgedFinding> accepted =
                report.findings().stream().filter(JudgedFinding::isAccepted).toList();
        if (accepted.isEmpty()) {
            return;
        }
        text.append("ACCEPTED: found, looked at, and lived with\n\n");
        for (JudgedFinding judged : accepted) {
            Finding finding = judged.finding();
            Acceptance acceptance = judged.acceptance();
            wrapped(finding.weight().word() + " " + finding.id() + "  " + finding.where(), "  ");
            wrapped(finding.sentence(), "    ");
            wrapped("Accepted " + acceptance.date() + ": " + acceptance.reason(), "    ");
            text.append('\n');
        }
    }

    private void lostCover(CheckReport report) {
        if (report.lostCover().isEmpty()) {
            return;
        }
        text.append("LOSS OF COVER: what this vehicle cannot detect, signal by signal\n\n");
        report.lostCover().forEach((signal, lost) -> wrapped("without " + signal.key() + ": " + lost, "  "));
        text.append('\n');
    }

    private void calculations(CheckReport report, boolean all) {
        List<Calculation> shown = report.calculations().stream()
                .filter(sum -> all
                        || sum.verdict() == Calculation.Verdict.BROKEN
                        || sum.verdict() == Calculation.Verdict.UNKNOWN)
                .toList();
        int kept = report.calculations().size() - shown.size();
        text.append("CALCULATIONS, with the margin to the limit\n\n");
        if (kept > 0) {
            wrapped(
                    kept + (shown.isEmpty() ? "" : " more") + " are well; --all lists them, and so does the page.",
                    "  ");
        }
        for (Calculation sum : shown) {
            String verdict = switch (sum.verdict()) {
                case KEPT -> "ok";
                case BROKEN -> "!!";
                case INFORMS -> "--";
                case UNKNOWN -> "??";
            };
            List<String> words = new ArrayList<>(List.of(sum.title() + ": " + sum.result()));
            if (!sum.lacks().isEmpty()) {
                words.set(0, sum.title() + ": cannot be judged, " + sum.lacks());
            } else if (sum.limit() != null) {
                words.add((sum.isAtMost() ? "at most " : "at least ") + sum.limit());
            }
            if (!Double.isNaN(sum.margin())) {
                words.add("margin " + Numbers.text(Math.round(sum.margin() * 1000) / 10.0) + " %");
            }
            wrapped(String.join(", ", words), "  ", verdict + "  ");
        }
        text.append('\n');
    }

    private void wrapped(String words, String indent) {
        wrapped(words, indent, "");
    }

    /** Following lines are indented as far as the first word. */
    private void wrapped(String words, String indent, String mark) {
        Wrap.hanging(indent + mark, indent + " ".repeat(mark.length()), words, Wrap.TERMINAL_COLUMNS)
                .forEach(line -> text.append(line).append('\n'));
    }
}
