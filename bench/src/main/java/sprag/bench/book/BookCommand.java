package sprag.bench.book;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.book.print.Document;
import sprag.bench.book.print.DocumentPage;
import sprag.bench.book.print.DocumentPdf;
import sprag.bench.book.print.Paper;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Version;
import sprag.bench.cli.Wrap;
import sprag.bench.drawing.Drawing;
import sprag.bench.drawing.draft.Answers;
import sprag.bench.drawing.draft.PassageReport;
import sprag.bench.drawing.live.CircuitReader;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.drawing.live.SwitchCircuit;
import sprag.bench.evidence.campaign.CampaignResult;
import sprag.bench.evidence.prove.ProofResult;
import sprag.bench.hand.commission.record.RecordSummary;
import sprag.bench.review.report.CheckReport;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;
import sprag.supervisor.vocabulary.Parameter;

/** The command {@code book}: everything that is known of a car in one document. */
@Command(
        name = "book",
        mixinStandardHelpOptions = true,
        description = {
            "Binds everything that is known of a car into one page of HTML and one PDF, for the inspector and for the next owner:"
                    + " what it is, sheets and tables, sizes with sources, interlocks, hazards and their guards, what cannot be"
                    + " detected, results, how to make it safe, a page for rescuers, a maintenance list.",
            "It runs check, live with single faults, and prove. It says what was not run."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:bound; check, live and prove found nothing that is wrong, and no result given to it is stale or bad",
            "1:bound, with a stop, a broken promise, a result that is stale, or steps that did not pass",
            "2:wrong usage, or a file that cannot be used",
            "3:trouble outside, such as a full disk"
        },
        footer = {
            "",
            "Example: sprag campaign my-van --out faults",
            "         sprag book my-van --campaign faults --record first-bring-up --out book"
        })
public final class BookCommand implements Callable<Integer> {
    /** The page in the output folder. */
    static final String PAGE = "book.html";
    /** The document in the output folder. */
    static final String DOCUMENT = "book.pdf";

    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument named;

    @Option(
            names = "--campaign",
            paramLabel = "DIR",
            description = "Folder that sprag campaign has written; its results are bound as well.")
    private Path campaign;

    @Option(
            names = "--record",
            paramLabel = "DIR",
            description = "Folder that sprag commission has written, or its commission.json; bound as well.")
    private Path record;

    @Option(
            names = "--quick",
            description = "Leave out the proof of the logic and the single faults of the wires; the book says so.")
    private boolean quick;

    @Option(
            names = "--paper",
            paramLabel = "SIZE",
            description = "Paper of the PDF: ${COMPLETION-CANDIDATES} (default: ${DEFAULT-VALUE}).")
    private Paper paper = Paper.A4;

    @Mixin
    private OutOption outFolder;

    @Override
    public Integer call() throws BadInput, InterruptedException, IOException {
        Vehicle vehicle = named.readSupervised();
        Material material = material(vehicle);
        Document book = Book.of(material);
        Path folder = outFolder.open();
        say("writing");
        OutFolder.write(folder.resolve(PAGE), DocumentPage.of(book));
        OutFolder.write(folder.resolve(DOCUMENT), DocumentPdf.of(book, paper));
        print(material, folder);
        return isGood(material) ? ExitCode.WELL : ExitCode.FINDING;
    }

    private Material material(Vehicle vehicle) throws BadInput, InterruptedException, IOException {
        CampaignResult played = campaign == null ? null : CampaignResult.read(campaign, vehicle);
        RecordSummary brought = record == null ? null : RecordSummary.read(record);
        say("reviewing and drawing");
        CheckReport report = Drawing.review(vehicle.folder());
        Drawing drawing = Drawing.of(report, null);
        say(quick ? "following the current" : "following the current, with each single fault");
        SwitchCircuit circuit = CircuitReader.read(
                report.schedule(), vehicle.get(Parameter.PACK_MAX_V), vehicle.get(Parameter.INLET_SUPPLY_V));
        String refusal = LiveReport.refusal(circuit, report.schedule(), false);
        boolean faults =
                !quick && LiveReport.refusal(circuit, report.schedule(), true).isEmpty();
        LiveReport live = refusal.isEmpty() ? LiveReport.of(circuit, report.schedule(), faults, () -> {}) : null;
        say(quick ? "" : "proving the logic");
        List<Path> others = new ArrayList<>();
        if (played != null) {
            others.add(played.file());
        }
        if (brought != null) {
            others.add(brought.file());
        }
        return new Material(
                report,
                drawing,
                live,
                refusal,
                quick ? null : ProofResult.of(vehicle),
                played,
                brought,
                InputSums.of(vehicle.folder(), others),
                ways(vehicle, report),
                LocalDate.now(),
                Version.line());
    }

    /** Without a passage every way is a guess, and nobody's. */
    private static Map<String, String> ways(Vehicle vehicle, CheckReport report) throws BadInput {
        Answers answers = Answers.read(vehicle.folder());
        return answers.hasPassages()
                ? PassageReport.of(vehicle, answers, report.schedule()).ways()
                : Map.of();
    }

    /** Says what is being done, so that a person who waits knows it. */
    private void say(String doing) {
        if (Terminal.interactive() && !doing.isEmpty()) {
            spec.commandLine().getErr().println(doing + " ...");
            spec.commandLine().getErr().flush();
        }
    }

    /** Whether nothing was found. A part that was not run is named in the book, but it is no finding. */
    private static boolean isGood(Material material) {
        boolean wires = material.live() != null && material.live().broken().isEmpty();
        boolean logic = material.proof() == null || material.proof().good();
        boolean played = material.campaign() == null || material.campaign().isGood();
        boolean brought = material.record() == null
                || material.record().passed()
                        && ResultChapters.changed(
                                        material.record(), material.vehicle().folder())
                                .isEmpty();
        return !material.report().stops() && wires && logic && played && brought;
    }

    private void print(Material material, Path folder) {
        PrintWriter print = spec.commandLine().getOut();
        print.println("The book of " + material.vehicle().name() + ", files "
                + material.sums().together());
        List<String> open = Book.open(material);
        print.println(open.isEmpty() ? "Everything was run and is well." : "Not run, or not well:");
        open.forEach(
                line -> Wrap.hanging("  ", "    ", line, Wrap.TERMINAL_COLUMNS).forEach(print::println));
        print.println("Document: " + folder.resolve(DOCUMENT));
        print.println("Page: " + folder.resolve(PAGE));
        print.flush();
    }
}
