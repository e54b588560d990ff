package sprag.bench.trip;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BooleanSupplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Within;
import sprag.bench.trip.drive.Weather;
import sprag.bench.trip.trace.SpeedTrace;
import sprag.bench.trip.trace.TraceReader;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** {@code trip}: how far, how fast, how warm. */
@Command(
        name = "trip",
        mixinStandardHelpOptions = true,
        description = {
            "Follows a speed trace with the simulated car: a driver on pedal and brake, the real supervisor, the whole"
                    + " car. Tells consumption, range, temperatures, limits, and the charge afterwards."
        },
        footer = {"", "Example: sprag trip parcel-van udds", "         sprag trip parcel-van udds --cold -10 --heater"},
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:the trip was finished and the trace was kept",
            "1:the car could not finish the trip, or not keep the trace",
            "2:wrong usage, or a file that cannot be used",
            "3:trouble outside, such as a full disk"
        })
public final class TripCommand implements Callable<Integer> {
    /** The name of the page in the output folder. */
    static final String PAGE = "trip.html";

    private static final double WARM_C = 20;
    private static final double KELVIN = 273.15;

    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument vehicle;

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "TRACE",
            description = "Name of a shipped trace (config/trips), or a path to a CSV or GPX file.")
    private String traceName;

    @Option(
            names = "--soc",
            paramLabel = "SHARE",
            defaultValue = "0.9",
            description = "State of charge at the start, 0 to 1 (default: ${DEFAULT-VALUE}).")
    private double soc;

    @Option(
            names = "--cold",
            paramLabel = "C",
            defaultValue = "20",
            description = "Temperature of the air and of the parked car (default: ${DEFAULT-VALUE}).")
    private double ambientC;

    @Option(
            names = "--headwind",
            paramLabel = "KPH",
            defaultValue = "0",
            description = "Wind against the car; negative from behind.")
    private double headwindKph;

    @Option(
            names = "--load",
            paramLabel = "KG",
            defaultValue = "0",
            description = "What the car carries beside its mass in the file.")
    private double loadKg;

    @Option(names = "--heater", description = "Ask for cabin heat all the way.")
    private boolean heater;

    @Option(
            names = "--regen",
            paramLabel = "LEVEL",
            description = "Where the lever for regeneration stands (default: the highest level).")
    private Integer regenLevel;

    @Option(
            names = "--standing",
            description = "Times from a standing start, top speed, hills, and what limits each; no trace is needed.")
    private boolean standing;

    @Option(
            names = "--find",
            arity = "3..5",
            paramLabel = "ARG",
            description =
                    "KEY A..B [KEY A..B] FIGURE=VALUE: try values of one or two keys of the vehicle's file, and tell which"
                            + " give the figure, as in --find pack.cells 60..140 range_km=120.")
    private List<String> find;

    @Mixin
    private OutOption outFolder;

    private long startedNs;

    @Option(names = "--json", description = "Print the results as JSON instead of text; no page is written.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Vehicle read = vehicle.read();
        Weather weather = weather(read);
        Vehicle loaded = loaded(read);
        if (standing && (find != null || traceName != null)) {
            throw wrong("--standing needs no trace and seeks no value; ask for one thing at a time");
        }
        if (standing) {
            return tell(loaded, Standing.of(loaded, weather));
        }
        if (traceName == null) {
            throw new ParameterException(
                    spec.commandLine(),
                    "a trace is missing; the shipped ones are: "
                            + String.join(", ", Catalogue.installed().trips()));
        }
        SpeedTrace trace = TraceReader.read(Catalogue.installed().trip(traceName));
        SearchRequest sought = find == null ? null : SearchRequest.of(find, loaded, this::wrong);
        try (Interruption interruption = new Interruption()) {
            startedNs = System.nanoTime();
            TripReport report = TripReport.of(loaded, weather, trace, interruption);
            if (sought == null) {
                return tell(report);
            }
            return find(report, sought, interruption);
        }
    }

    private int find(TripReport report, SearchRequest sought, BooleanSupplier stop) {
        int firsts = sought.first().values().size();
        int count = sought.second() == null
                ? firsts
                : firsts * sought.second().values().size();
        boolean shown = Terminal.interactive() && !json;
        Search search = null;
        Grid grid = null;
        try (ProgressBar bar = new ProgressBar(spec.commandLine().getErr(), shown, count, "values")) {
            AtomicInteger tried = new AtomicInteger();
            Runnable each = () -> bar.accept(tried.incrementAndGet());
            if (sought.second() == null) {
                search = Search.of(report, sought.first(), each, stop);
            } else {
                grid = Grid.of(report, sought.first(), sought.second(), each, stop);
            }
        }
        return search == null ? tell(report, grid) : tell(new SearchView(report, search));
    }

    private void told(PrintWriter print, Path page) {
        print.println("Computed in " + Say.number((System.nanoTime() - startedNs) / 1e9, 1, "s") + ".");
        print.println("Page: " + page);
    }

    private ParameterException wrong(String message) {
        return new ParameterException(spec.commandLine(), message);
    }

    private int tell(FoundView view) {
        PrintWriter print = spec.commandLine().getOut();
        if (json) {
            print.println(view.json());
        } else {
            view.text().forEach(print::println);
            Path folder = outFolder.open();
            OutFolder.write(folder.resolve("search.html"), view.page());
            told(print, folder.resolve("search.html"));
        }
        print.flush();
        return view.isFound() ? ExitCode.WELL : ExitCode.FINDING;
    }

    private int tell(TripReport base, Grid grid) {
        if (grid.driven().isEmpty()) {
            throw wrong("--find: no value of " + grid.second().key() + " can be driven: "
                    + grid.curves().get(0).trouble());
        }
        return tell(new GridView(base, grid));
    }

    private int tell(Vehicle read, List<Standing.Trial> trials) {
        PrintWriter print = spec.commandLine().getOut();
        if (json) {
            print.println(StandingText.json(read, trials));
        } else {
            StandingText.of(read, trials).forEach(print::println);
        }
        print.flush();
        boolean starts = trials.size() > 1;
        return starts ? ExitCode.WELL : ExitCode.FINDING;
    }

    private int tell(TripReport report) {
        PrintWriter print = spec.commandLine().getOut();
        if (json) {
            print.println(TripJson.of(report));
        } else {
            TripText.of(report).forEach(print::println);
            Path folder = outFolder.open();
            OutFolder.write(folder.resolve(PAGE), TripPage.of(report));
            told(print, folder.resolve(PAGE));
        }
        print.flush();
        return report.well() ? ExitCode.WELL : ExitCode.FINDING;
    }

    private Weather weather(Vehicle read) {
        Within.check(spec, "--soc", soc, 0, 1);
        Within.check(spec, "--cold", ambientC, -40, 60);
        Within.check(spec, "--headwind", headwindKph, -80, 80);
        int levels = (int) read.get(Parameter.REGEN_LEVELS);
        int level = regenLevel == null ? levels : regenLevel;
        Within.check(spec, "--regen", level, 0, levels);
        if (heater && !(read.get(CarParameter.WARMER_POWER_W) > 0 && hasHeaterSwitch(read))) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--heater: " + read.name() + " has no heater. It needs car.warmer.power_w above 0 and"
                            + " \"heater_request\" in signals.fitted");
        }
        return new Weather(soc, ambientC, headwindKph, heater, level);
    }

    private static boolean hasHeaterSwitch(Vehicle read) {
        return read.settings().has(Signal.HEATER_REQUEST);
    }

    /** With the load, and in air as dense as its temperature makes it. */
    private Vehicle loaded(Vehicle read) {
        double kg = read.get(CarParameter.BODY_MASS_KG) + loadKg;
        Within.check(
                spec,
                "--load",
                loadKg,
                CarParameter.BODY_MASS_KG.min() - read.get(CarParameter.BODY_MASS_KG),
                CarParameter.BODY_MASS_KG.max() - read.get(CarParameter.BODY_MASS_KG));
        double density = read.get(CarParameter.BODY_AIR_KG_PER_M3) * (WARM_C + KELVIN) / (ambientC + KELVIN);
        double possible = Math.min(CarParameter.BODY_AIR_KG_PER_M3.max(), density);
        return read.with(CarParameter.BODY_MASS_KG, kg).with(CarParameter.BODY_AIR_KG_PER_M3, possible);
    }
}
