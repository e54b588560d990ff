package sprag.bench.check;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

import java.nio.file.Path;
import sprag.bench.config.BadInput;
import sprag.bench.config.Catalogue;
import sprag.bench.check.page.TextPage;

/** The command {@code check}. */
@Command(name = "check")
public final class CheckCommand implements Callable<Integer> {
    @Parameters(index = "0", paramLabel = "VEHICLE")
    private String vehicle;
    @Option(names = "--out") private Path out;

    @Override
    public Integer call() throws BadInput {
        CheckReport report = Checker.check(Catalogue.installed().vehicle(vehicle));
        System.out.print(TextPage.of(report));
        return report.stops() ? 1 : 0;
    }

    /** x. */
    public static void main(String[] a) { System.exit(new picocli.CommandLine(new CheckCommand()).execute(a)); }
}
