package sprag.bench.drawing;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.function.ToIntFunction;
import sprag.bench.drawing.live.CircuitReader;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.drawing.live.LiveTable;
import sprag.bench.drawing.live.SwitchCircuit;
import sprag.bench.drawing.paper.Ink;
import sprag.bench.drawing.paper.PdfFile;
import sprag.bench.drawing.paper.SvgInk;
import sprag.bench.drawing.sheet.Listing;
import sprag.bench.drawing.sheet.Listings;
import sprag.bench.drawing.sheet.Marks;
import sprag.bench.drawing.sheet.NetFacts;
import sprag.bench.drawing.sheet.ScheduleChanges;
import sprag.bench.drawing.sheet.Sheet;
import sprag.bench.drawing.sheet.SheetPainter;
import sprag.bench.drawing.sheet.SheetPlan;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.Checker;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.BadInput;
import sprag.supervisor.vocabulary.Parameter;

/**
 * A vehicle's schedule, drawn.
 *
 * @param changes what became of it since another one, a sentence each; empty when there is none to compare with
 * @param live why nobody knows what is live when; empty when it is known
 * @param checkSum of the schedule, to tell an old sheet from a new one
 */
public record Drawing(
        CheckReport report,
        List<Sheet> sheets,
        List<Listing> listings,
        Map<Integer, NetFacts.Net> nets,
        Marks marks,
        List<String> changes,
        String live,
        String checkSum,
        ToIntFunction<Wire> netOf) {
    /** About a minute on a laptop. */
    private static final int MOST_WIRES = 3000;

    private static final double PAGE_WIDTH_MM = 420;
    private static final double PAGE_HEIGHT_MM = 297;

    /** Reviews a vehicle that is to be drawn.
     *
     * @throws BadInput when a file cannot be used, there is no schedule, or it is too large
     */
    public static CheckReport review(Path home) throws BadInput {
        int wires = schedule(home).wires().size();
        if (wires > MOST_WIRES) {
            throw refused(
                    home,
                    "has " + wires + " wires; at most " + MOST_WIRES + " are drawn",
                    "Divide the schedule into several vehicles' folders.");
        }
        return Checker.check(home);
    }

    /** The schedule of a vehicle, which has to be there. */
    static Schedule schedule(Path folder) throws BadInput {
        return ScheduleFiles.read(folder)
                .orElseThrow(() -> refused(
                        folder,
                        "is not there",
                        "Let sprag draft write one, or copy config/vehicles/parcel-van/wiring.csv."));
    }

    private static BadInput refused(Path folder, String what, String remedy) {
        return BadInput.of(folder.resolve(Schedule.WIRES_FILE), 1, what, remedy);
    }

    /** Draws a schedule.
     *
     * @param report the review of the vehicle
     * @param before an older schedule to compare with; null for none
     */
    public static Drawing of(CheckReport report, Schedule before) {
        Schedule now = report.schedule();
        ScheduleChanges changes =
                before == null ? new ScheduleChanges(now, Map.of(), List.of()) : ScheduleChanges.between(before, now);
        Marks marks = FindingMarks.of(report, changes);
        List<Sheet> sheets = SheetPlan.of(changes.both(), marks);
        DrawnCircuit circuit = new DrawnCircuit(changes.both());
        double packV = report.vehicle().get(Parameter.PACK_MAX_V);
        SwitchCircuit switches = CircuitReader.read(now, packV, report.vehicle().get(Parameter.INLET_SUPPLY_V));
        String refusal = LiveReport.refusal(switches, now, false);
        LiveTable.Table table = refusal.isEmpty()
                ? LiveReport.of(switches, now, false, () -> {}).table()
                : null;
        return new Drawing(
                report,
                sheets,
                Listings.of(now, sheets),
                NetFacts.of(changes.both(), Checker.limits(report.vehicle()), table),
                marks,
                changes.sentences(),
                refusal,
                checkSum(now),
                circuit::netOf);
    }

    /** Eight letters that change with anything that the sheets show. */
    private static String checkSum(Schedule schedule) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            schedule.wires().forEach(w -> digest.update(w.toString().getBytes(StandardCharsets.UTF_8)));
            schedule.parts().values().forEach(p -> digest.update(p.toString().getBytes(StandardCharsets.UTF_8)));
            return HexFormat.of().formatHex(digest.digest()).substring(0, 8);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /** What stands at the foot of each sheet. */
    private String strip() {
        return report.vehicle().name() + ", schedule " + checkSum + ", " + sheets.size() + " sheets";
    }

    /** One sheet as SVG. */
    public SvgInk svg(Sheet sheet) {
        SvgInk ink = new SvgInk(sheet.heading(), Sheet.WIDTH_MM, sheet.heightMm());
        draw(sheet, ink);
        return ink;
    }

    /** Draws one sheet. */
    public void draw(Sheet sheet, Ink ink) {
        SheetPainter.draw(sheet, marks, netOf, strip(), ink);
    }

    /** All sheets on A3, one to a page. */
    byte[] pdf() {
        try (PdfFile file = new PdfFile("Sheets of " + report.vehicle().name() + ", schedule " + checkSum)) {
            for (Sheet sheet : sheets) {
                file.page(PAGE_WIDTH_MM, PAGE_HEIGHT_MM, (PAGE_WIDTH_MM - Sheet.WIDTH_MM) / 2, ink -> draw(sheet, ink));
            }
            return file.bytes();
        }
    }

    /** How many findings sit on the sheets, in one sentence. */
    String findingsWords() {
        return "Findings of check: " + count(report.count(Weight.STOP), "stop") + ", "
                + count(report.count(Weight.CAUTION), "caution") + ". Notes are on the page of check only.";
    }

    static String count(long number, String word) {
        return number + " " + word + (number == 1 ? "" : "s");
    }
}
