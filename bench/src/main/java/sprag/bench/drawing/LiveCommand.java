package sprag.bench.drawing;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Terminal;
import sprag.bench.drawing.live.CircuitReader;
import sprag.bench.drawing.live.Fault;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.drawing.live.SwitchCircuit;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;
import sprag.supervisor.vocabulary.Parameter;

/** The command {@code live}: what is live when, by the wires that the schedule draws. */
@Command(
        name = "live",
        mixinStandardHelpOptions = true,
        description = {
            "Follows the current through the wiring schedule: what each net carries in each situation, and whether the"
                    + " promises about cut-offs, service switch, shorts and ratings hold in every combination of outputs"
                    + " and switches."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:every promise holds while nothing is broken",
            "1:a promise does not hold",
            "2:wrong usage, or a file that cannot be used",
            "3:trouble outside, such as a full disk"
        })
public final class LiveCommand implements Callable<Integer> {
    /** The name of the page in the output folder. */
    static final String PAGE = "live.html";

    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument vehicle;

    @Option(
            names = "--faults",
            description = "Also break, chafe, bridge or stick each wire, contact and terminal, one at a time.")
    private boolean faults;

    @Mixin
    private OutOption outFolder;

    @Option(names = "--json", description = "Print the results as JSON instead of text; no page is written.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Vehicle read = vehicle.read();
        LiveReport report = judge(read);
        PrintWriter print = spec.commandLine().getOut();
        if (json) {
            print.println(LiveJson.of(read.name(), report));
        } else {
            LiveText.of(read.name(), report).forEach(print::println);
            Path folder = outFolder.open();
            OutFolder.write(folder.resolve(PAGE), LivePage.of(read.name(), report));
            print.println("Page: " + folder.resolve(PAGE));
        }
        print.flush();
        return report.broken().isEmpty() ? ExitCode.WELL : ExitCode.FINDING;
    }

    private LiveReport judge(Vehicle read) throws BadInput {
        Path file = read.folder().resolve(Schedule.WIRES_FILE);
        Schedule schedule = ScheduleFiles.require(read.folder());
        SwitchCircuit circuit =
                CircuitReader.read(schedule, read.get(Parameter.PACK_MAX_V), read.get(Parameter.INLET_SUPPLY_V));
        String refusal = LiveReport.refusal(circuit, schedule, faults);
        if (!refusal.isEmpty()) {
            Problems problems = new Problems();
            problems.add(file, refusal, "Judge the circuits that do not depend on each other one by one.");
            throw new BadInput(problems.list());
        }
        int count = faults ? Fault.all(circuit, schedule).size() : 1;
        boolean shown = Terminal.interactive() && !json;
        try (ProgressBar bar = new ProgressBar(spec.commandLine().getErr(), shown, count, "faults")) {
            AtomicInteger tried = new AtomicInteger();
            return LiveReport.of(circuit, schedule, faults, () -> bar.accept(tried.incrementAndGet()));
        }
    }
}
