package sprag.bench.drawing;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.drawing.live.BrokenPromise;
import sprag.bench.drawing.live.FaultResult;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.drawing.live.LiveTable;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.page.Page;

/** What is live when, as a page. */
public final class LivePage {
    /** What the signs of the table mean. */
    public static final String LEGEND =
            "P+ pack plus, Pm middle of the pack, P- pack minus, L and N mains, 12 and 5 volts, 0 ground,"
                    + " in brackets what is reached only through a load, / between two that reach it, - nothing, ! two sources against each other.";

    static final String CAUTION =
            "This follows what the schedule says, not what was built. A net that should be dead is live until a meter"
                    + " rated for it has shown otherwise, proved before and after. Capacitors keep their voltage after"
                    + " every contact is open. Never alone.";

    private record Cell(String text, String kind) {}

    private record Row(String net, List<Cell> cells) {}

    private record Broken(String words, String hazard, String when, String happens, List<String> ways) {}

    private record Fault(String fault, boolean harms, String fuses, List<Broken> broken) {}

    private LivePage() {}

    static String of(String name, LiveReport report) {
        Map<String, Object> model = Map.of(
                "holds", report.broken().isEmpty(),
                "covered", covered(report),
                "caution", CAUTION,
                "legend", LEGEND,
                "situations", report.table().titles(),
                "rows", report.table().rows().stream().map(LivePage::row).toList(),
                "kept", report.kept(),
                "broken", report.broken().stream().map(LivePage::broken).toList(),
                "tried", report.faultsTried() > 0 ? faultSummary(report) : "",
                "faults", report.faults().stream().map(LivePage::fault).toList());
        return Page.of(
                LivePage.class,
                "live.html",
                "current by the wires that are drawn",
                "What is live when: " + name,
                model);
    }

    /** How much the promises cover. */
    public static String covered(LiveReport report) {
        return String.format(
                Locale.ROOT,
                "%d of %d promises hold in each of %,.0f combinations of outputs and switches (%,d of them had to be"
                        + " told apart; the others differ only in switches that lead to an input and nowhere else).",
                report.kept().size(),
                report.kept().size() + report.broken().size(),
                report.combinations(),
                report.tried());
    }

    /** What the single faults have shown. */
    public static String faultSummary(LiveReport report) {
        long harms = report.faults().stream().filter(FaultResult::harms).count();
        return String.format(
                Locale.ROOT,
                "%d single faults were tried. After %d of them a promise no longer holds that held before: after %d"
                        + " one that guards against harm, after %d only one about a car that works. The others change no"
                        + " promise.",
                report.faultsTried(),
                report.faults().size(),
                harms,
                report.faults().size() - harms);
    }

    private static Row row(LiveTable.Row row) {
        return new Row(
                row.net(),
                row.cells().stream().map(c -> new Cell(c.text(), kind(c))).toList());
    }

    /** Which colour a cell has; the sign says the same without it. */
    private static String kind(LiveTable.Cell cell) {
        if (cell.shorted()) {
            return "short";
        }
        boolean low = cell.joined().contains(Potential.LOW_VOLTAGE);
        return cell.isDangerous() ? "traction" : low ? "low" : cell.isDead() ? "none" : "other";
    }

    private static Broken broken(BrokenPromise broken) {
        return new Broken(
                broken.promise().words, broken.promise().hazard, broken.when(), broken.happens(), broken.ways());
    }

    private static Fault fault(FaultResult fault) {
        return new Fault(
                fault.fault(),
                fault.harms(),
                String.join(", ", fault.fuses()),
                fault.broken().stream().map(LivePage::broken).toList());
    }
}
