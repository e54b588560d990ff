package sprag.bench.review;

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
import sprag.bench.review.page.HtmlPage;
import sprag.bench.review.page.JsonPage;
import sprag.bench.review.page.SarifPage;
import sprag.bench.review.page.TextPage;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.Checker;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleArgument;

/** The command {@code check}: reviews a vehicle's file and its wiring schedule before anything is bought or crimped. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = {
            "Reviews a vehicle: sizing calculations, limits that contradict each other, the wiring schedule by rules,"
                    + " and what cannot be detected for lack of a signal."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:nothing says not to build it",
            "1:there is a stop that nobody has accepted",
            "2:wrong usage, or a file that cannot be used",
            "3:trouble outside, such as a full disk"
        })
public final class CheckCommand implements Callable<Integer> {
    /** The name of the page in the output folder. */
    static final String PAGE = "check.html";

    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument vehicle;

    @Mixin
    private OutOption outFolder;

    @Option(
            names = "--bus",
            paramLabel = "B",
            description =
                    "A data bus to review too: a shipped one, or a path (default: bus.toml in the vehicle's folder).")
    private String bus;

    @Option(names = "--json", description = "Print the findings as JSON instead of text.")
    private boolean json;

    @Option(
            names = "--sarif",
            paramLabel = "FILE",
            description = "Also write the findings in SARIF 2.1.0, for editors and build servers.")
    private Path sarif;

    @Option(names = "--all", description = "Also list the calculations that keep their limit.")
    private boolean all;

    @Override
    public Integer call() throws BadInput {
        Catalogue catalogue = Catalogue.installed();
        Path home = vehicle.folder();
        CheckReport report = bus == null ? Checker.check(home) : Checker.check(home, catalogue.bus(bus));
        Path folder = outFolder.open();
        Path page = folder.resolve(PAGE);
        OutFolder.write(page, HtmlPage.of(report));
        if (sarif != null) {
            OutFolder.write(sarif, SarifPage.of(report));
        }
        PrintWriter print = spec.commandLine().getOut();
        print.print(json ? JsonPage.of(report) : TextPage.of(report, all));
        if (!json) {
            print.println("Page: " + page);
            print.println(TextPage.verdict(report));
        }
        print.flush();
        return report.stops() ? ExitCode.FINDING : ExitCode.WELL;
    }
}
