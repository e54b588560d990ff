package sprag.bench.drawing;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.Wrap;
import sprag.bench.drawing.sheet.Listing;
import sprag.bench.drawing.sheet.Sheet;
import sprag.bench.review.report.CheckReport;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleArgument;

/** The command {@code draw}: the wiring schedule as sheets and tables to build from. */
@Command(
        name = "draw",
        mixinStandardHelpOptions = true,
        description = {
            "Draws the wiring schedule as sheets to build from: traction, 12 V supply, coils and loops, switches and"
                    + " sensors, data, charging. Writes one page, one PDF, an SVG for each sheet, and tables for the"
                    + " bench as CSV. Findings of check sit on the sheets."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:drawn; no stop sits on it that nobody has accepted",
            "1:drawn, with a stop on it",
            "2:wrong usage, or a file that cannot be used",
            "3:trouble outside, such as a full disk"
        })
public final class DrawCommand implements Callable<Integer> {
    /** The page in the output folder. */
    static final String PAGE = "draw.html";
    /** The document in the output folder. */
    static final String DOCUMENT = "sheets.pdf";

    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument vehicle;

    @Option(
            names = "--against",
            paramLabel = "OLD",
            description =
                    "Also show what was added, removed and changed since another schedule: a vehicle's name or folder.")
    private String against;

    @Mixin
    private OutOption outFolder;

    @Override
    public Integer call() throws BadInput {
        Path home = vehicle.folder();
        CheckReport report = Drawing.review(home);
        Drawing drawing = Drawing.of(
                report,
                against == null ? null : Drawing.schedule(Catalogue.installed().vehicle(against)));
        Path folder = outFolder.open();
        OutFolder.write(folder.resolve(PAGE), DrawPage.of(drawing));
        OutFolder.write(folder.resolve(DOCUMENT), drawing.pdf());
        for (Sheet sheet : drawing.sheets()) {
            OutFolder.write(
                    folder.resolve(sheet.fileName() + ".svg"),
                    drawing.svg(sheet).alone());
        }
        for (Listing listing : drawing.listings()) {
            OutFolder.write(folder.resolve(listing.file() + ".csv"), listing.csv());
        }
        print(drawing, folder);
        return report.stops() ? ExitCode.FINDING : ExitCode.WELL;
    }

    private void print(Drawing drawing, Path folder) {
        PrintWriter print = spec.commandLine().getOut();
        print.println("Sheets of " + drawing.report().vehicle().name() + ", schedule " + drawing.checkSum());
        drawing.sheets()
                .forEach(s -> print.printf(
                        "  %2d  %-28s %9s%n",
                        s.number(), s.title(), Drawing.count(s.wires().size(), "wire")));
        drawing.changes()
                .forEach(line ->
                        Wrap.hanging("  ", "    ", line, Wrap.TERMINAL_COLUMNS).forEach(print::println));
        if (against != null && drawing.changes().isEmpty()) {
            print.println("Nothing was added, removed or changed.");
        }
        Wrap.lines(drawing.findingsWords(), Wrap.TERMINAL_COLUMNS).forEach(print::println);
        print.println("Document: " + folder.resolve(DOCUMENT));
        print.println("Page: " + folder.resolve(PAGE));
        print.flush();
    }
}
