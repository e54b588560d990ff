package sprag.bench.speed;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.Json;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Version;
import sprag.bench.cli.Within;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** {@code speed}: how fast all of it is here. */
@Command(
        name = "speed",
        mixinStandardHelpOptions = true,
        description = {
            "Measures how fast Sprag is on this machine, each figure beside a baseline.",
            "A figure that misses its aim is no finding: machines differ."
        },
        footer = {
            "",
            "All of it takes a minute or two on a quiet machine. What else runs makes it slower;",
            "the baseline is then slower too, so compare both.",
            "Examples: sprag speed",
            "          sprag speed --only prove --json",
            "          sprag speed --growth --out growth"
        })
public final class SpeedCommand implements Callable<Integer> {
    private static final String VEHICLE = "parcel-van";
    private static final String GROWTH_PAGE = "growth.html";

    @Option(names = "--only", paramLabel = "WORDS", description = "Only measures whose name holds this.")
    private String only = "";

    @Option(
            names = "--rounds",
            paramLabel = "N",
            description =
                    "The best of N counts (default: ${DEFAULT-VALUE}); a command of more than two seconds has one.")
    private int rounds = 5;

    @Option(
            names = "--growth",
            description =
                    "Measure instead how costs grow: states of the proof over a wait and over the tick, a campaign over"
                            + " its runs, the check of a schedule over its wires, a recording over hours. Writes growth.html.")
    private boolean growth;

    @Mixin
    private OutOption outFolder;

    @Option(names = "--json", description = "Print the results as JSON and nothing else.")
    private boolean json;

    @Spec
    private CommandSpec spec;

    /** The share of the work that a growth is measured with. */
    private final double work;

    /** The command as people use it. */
    public SpeedCommand() {
        this(1);
    }

    SpeedCommand(double work) {
        this.work = work;
    }

    @Override
    public Integer call() throws BadInput, IOException {
        Within.check(spec, "--rounds", rounds, 1, 100);
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = VehicleReader.read(catalogue.vehicle(VEHICLE));
        if (growth) {
            Path folder = outFolder.open();
            Schedule schedule = ScheduleFiles.require(catalogue.vehicle(VEHICLE));
            return measure(new GrowthTrials(vehicle, schedule, folder, work).all(), (growths, done, planned) -> {
                Files.writeString(folder.resolve(GROWTH_PAGE), GrowthPage.of(growths, machine()));
                tellGrowth(growths, done, planned, folder);
            });
        }
        return measure(measures(vehicle, catalogue.home().resolve("bench/sprag")), this::tell);
    }

    /** What is done with the results, also when not all of them are there. */
    private interface Teller<T> {
        void tell(List<T> results, int done, int planned) throws IOException;
    }

    private <T> int measure(Map<String, Supplier<List<T>>> all, Teller<T> teller) throws IOException {
        List<String> chosen =
                all.keySet().stream().filter(name -> name.contains(only)).toList();
        if (chosen.isEmpty()) {
            throw new ParameterException(
                    spec.commandLine(),
                    "no measure's name holds \"" + only + "\"; there are: " + String.join(", ", all.keySet()));
        }
        List<T> results = new ArrayList<>();
        int done = 0;
        boolean shown = Terminal.interactive() && !json;
        try (Interruption stop = new Interruption();
                ProgressBar bar = new ProgressBar(spec.commandLine().getErr(), shown, chosen.size(), "measures")) {
            for (String name : chosen) {
                if (stop.getAsBoolean()) {
                    break;
                }
                results.addAll(all.get(name).get());
                bar.accept(++done);
            }
        }
        teller.tell(results, done, chosen.size());
        return done == chosen.size() ? ExitCode.WELL : ExitCode.FINDING;
    }

    private Map<String, Supplier<List<Figure>>> measures(Vehicle vehicle, Path launcher) {
        Map<String, Supplier<List<Figure>>> all = new LinkedHashMap<>();
        if (Files.isExecutable(launcher)) {
            Felt[] felt = new Felt[1];
            double[] plainS = new double[1];
            for (Felt.Wait wait : Felt.WAITS) {
                all.put(wait.words(), () -> {
                    if (felt[0] == null) {
                        felt[0] = new Felt(List.of(launcher.toString()), outFolder.open());
                        plainS[0] = Felt.plainS(rounds);
                    }
                    return List.of(felt[0].of(wait, wait.aimS() > 2 ? 1 : rounds, plainS[0]));
                });
            }
        }
        Core core = new Core(vehicle, rounds, 1);
        all.put("step of the supervisor", () -> List.of(core.step()));
        all.put("closed loop", () -> List.of(core.loop()));
        all.put("Logic explored", core::logic);
        return all;
    }

    private void tell(List<Figure> figures, int done, int planned) throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            ObjectNode root = heading(done, planned);
            figures.forEach(figure -> figure.put(root.withArray("figures").addObject()));
            out.println(root.toPrettyString());
        } else {
            out.println(Version.line() + " on " + machine());
            String load = load() < 0 ? "unknown" : String.format(Locale.ROOT, "%.1f", load());
            out.println("Load of the machine over the last minute: " + load + ", with this measurement.");
            out.println();
            out.printf("%-27s %8s %-4s %-12s %s%n", "", "measured", "", "aim", "baseline in the same run");
            figures.forEach(figure -> out.println(figure.line()));
            if (done < planned) {
                out.println("Interrupted: " + done + " of " + planned + " measures are done.");
            }
        }
        out.flush();
    }

    private void tellGrowth(List<Growth> growths, int done, int planned, Path folder) throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            ObjectNode root = heading(done, planned);
            growths.forEach(each -> each.put(root.withArray("growth").addObject()));
            out.println(root.toPrettyString());
        } else {
            out.println(Version.line() + " on " + machine());
            for (Growth each : growths) {
                out.println();
                each.lines().forEach(out::println);
            }
            out.println();
            if (done < planned) {
                out.println("Interrupted: " + done + " of " + planned + " measures are done.");
            }
            out.println("Page: " + folder.resolve(GROWTH_PAGE));
        }
        out.flush();
    }

    private static ObjectNode heading(int done, int planned) throws IOException {
        ObjectNode root = Json.object();
        root.put("program", Version.line())
                .put("machine", machine())
                .put("measured", done)
                .put("planned", planned);
        Json.number(root, "load", load());
        return root;
    }

    private static double load() {
        return ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
    }

    /** What the figures depend on: processor, cores, system and Java. */
    private static String machine() throws IOException {
        Path told = Path.of("/proc/cpuinfo");
        String processor = System.getProperty("os.arch");
        if (Files.isReadable(told)) {
            processor = Files.readAllLines(told).stream()
                    .filter(line -> line.startsWith("model name"))
                    .map(line -> line.substring(line.indexOf(':') + 1).strip())
                    .findFirst()
                    .orElse(processor);
        }
        return processor + ", " + Runtime.getRuntime().availableProcessors() + " cores, "
                + System.getProperty("os.name") + ", Java " + Runtime.version().feature();
    }
}
