package sprag.bench.evidence.margin;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.Cores;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.Json;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Shard;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Within;
import sprag.bench.evidence.campaign.CarFaults;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;

/** {@code margin}: many cars that are built from one drawing. */
@Command(
        name = "margin",
        mixinStandardHelpOptions = true,
        description = {
            "Plays scenarios with many cars of the same drawing, each within its tolerances.",
            "Tells the share that meets every expectation, by what margin, and which",
            "tolerance matters. The worst cars are kept as scenarios."
        },
        footer = {
            "",
            "The tolerances stand in [tolerance] of the vehicle's file.",
            "Examples: sprag margin parcel-van",
            "          sprag margin coupe drive-and-stop --cars 200 --out margins",
            "          sprag run coupe margins/drive-and-stop.worst-1.toml",
            "          sprag margin coupe --limits",
            "          sprag margin coupe --shard 1/2 --out first",
            "          sprag margin coupe --merge first second --out whole"
        })
public final class MarginCommand implements Callable<Integer> {
    private static final String USUAL = "drive-and-stop";
    private static final int MARGIN_CARS = 1000;
    private static final int LIMIT_CARS = 40;
    private static final int FAULT_CARS = 10;
    private static final long MOST_SEED = 999_999_999;

    @Mixin
    private VehicleArgument vehicle;

    @Parameters(
            index = "1..*",
            arity = "0..*",
            paramLabel = "SCENARIO",
            description = "Name of a shipped scenario, or path to a file (default: " + USUAL + ").")
    private List<String> scenarioNames = new ArrayList<>();

    @Option(
            names = "--cars",
            paramLabel = "N",
            description = "How many cars (default: 1000, with --limits 40, with --faults 10).")
    private Integer carsAsked;

    @Option(
            names = "--seed",
            paramLabel = "N",
            description = "Another number gives other cars (default: ${DEFAULT-VALUE}).")
    private long seed = 1;

    @Mixin
    private OutOption outFolder;

    @Option(
            names = "--limits",
            description = "Try each time and threshold with other values: false alarms against time to notice.")
    private boolean limits;

    @Option(
            names = "--faults",
            description = "Play the fault campaign with each car: what is noticed on how many, how late.")
    private boolean faults;

    @Option(names = "--only", paramLabel = "RUN", description = "With --faults: only runs whose name holds this.")
    private String only = "";

    @Option(names = "--shard", paramLabel = "I/N", description = "Only every N-th car, beginning with the I-th.")
    private String shard = "";

    @Option(
            names = "--merge",
            paramLabel = "DIR",
            arity = "1..*",
            description = "Play nothing but the drawing: join the folders that all shares have written.")
    private List<Path> merge = List.of();

    @Option(names = "--json", description = "Print the results as JSON and nothing else.")
    private boolean json;

    private int cars;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws BadInput {
        cars = carsAsked != null ? carsAsked : faults ? FAULT_CARS : limits ? LIMIT_CARS : MARGIN_CARS;
        range("--cars", cars, 2, Fleet.MOST);
        range("--seed", seed, 0, MOST_SEED);
        boolean split = !shard.isEmpty() || !merge.isEmpty();
        refuse(limits && faults, "--limits and --faults cannot be used together");
        refuse(faults && !scenarioNames.isEmpty(), "--faults plays the fault campaign: name no scenario with it");
        refuse(!faults && !only.isEmpty(), "--only chooses faults: use it with --faults");
        refuse(!shard.isEmpty() && !merge.isEmpty(), "--shard and --merge cannot be used together");
        refuse((limits || faults) && split, "--shard and --merge cannot be used with --limits or --faults");
        Vehicle drawing = vehicle.read();
        List<Scenario> scenarios = new ScenarioFiles(Catalogue.installed(), drawing)
                .take(scenarioNames.isEmpty() ? List.of(USUAL) : scenarioNames);
        refuseSingleCars(scenarios);
        List<CarShare> shares =
                Within.usage(spec, () -> merge.stream().map(CarShare::read).toList());
        if (!shares.isEmpty()) {
            seed = shares.get(0).seed();
            cars = shares.get(0).cars();
        }
        Shard part = shard.isEmpty() ? null : Shard.of(spec, shard, cars, "cars");
        Fleet fleet = new Fleet(drawing, seed, cars);
        List<List<Verdicts>> joined = shares.isEmpty()
                ? List.of()
                : Within.usage(spec, () -> CarShare.join(CarShare.what(fleet, scenarios), scenarios, shares));
        Path out = outFolder.open();
        if (part != null) {
            return share(scenarios, fleet, part, out);
        }
        if (faults) {
            return faults(fleet, out);
        }
        if (limits) {
            return limits(scenarios, fleet, out);
        }
        long beganNs = System.nanoTime();
        try (Interruption stop = new Interruption()) {
            List<Played> all = shares.isEmpty() ? play(scenarios, fleet, stop) : drawn(scenarios, fleet, joined);
            return tell(fleet, all, scenarios.size(), out, (System.nanoTime() - beganNs) / 1e9);
        }
    }

    private List<Played> play(List<Scenario> scenarios, Fleet fleet, BooleanSupplier stop) {
        List<Played> all = new ArrayList<>();
        boolean shown = Terminal.interactive() && !json;
        try (ProgressBar bar = new ProgressBar(spec.commandLine().getErr(), shown, scenarios.size() * cars, "cars")) {
            for (Scenario scenario : scenarios) {
                int before = all.size() * cars;
                Played played = Played.of(scenario, fleet, done -> bar.accept(before + done), stop);
                if (!played.cars().isEmpty()) {
                    all.add(played);
                }
                if (stop.getAsBoolean()) {
                    break;
                }
            }
        }
        return all;
    }

    private static List<Played> drawn(List<Scenario> scenarios, Fleet fleet, List<List<Verdicts>> joined) {
        List<Played> all = new ArrayList<>();
        for (int i = 0; i < scenarios.size(); i++) {
            all.add(Played.drawn(scenarios.get(i), fleet, joined.get(i)));
        }
        return all;
    }

    /** Plays some of the cars. Nothing is judged of a part: that is done when all are joined. */
    private int share(List<Scenario> scenarios, Fleet fleet, Shard part, Path out) {
        List<Integer> numbers = CarShare.numbers(cars, part.part(), part.of());
        List<Map<Integer, Verdicts>> played = new ArrayList<>();
        boolean shown = Terminal.interactive() && !json;
        int planned = scenarios.size() * numbers.size();
        try (Interruption stop = new Interruption();
                ProgressBar bar = new ProgressBar(spec.commandLine().getErr(), shown, planned, "cars")) {
            for (Scenario scenario : scenarios) {
                int before = played.size() * numbers.size();
                List<Verdicts> each = Played.cars(scenario, fleet, numbers, done -> bar.accept(before + done), stop);
                Map<Integer, Verdicts> byNumber = new TreeMap<>();
                for (int i = 0; i < each.size(); i++) {
                    byNumber.put(numbers.get(i), each.get(i));
                }
                played.add(byNumber);
            }
        }
        CarShare share = new CarShare(seed, cars, part.part(), part.of(), CarShare.what(fleet, scenarios), played);
        share.write(out);
        PrintWriter terminal = spec.commandLine().getOut();
        if (json) {
            terminal.println(Json.object()
                    .put("share", shard)
                    .put("played", share.count())
                    .put("planned", share.planned())
                    .put("written_to", out.toString())
                    .toPrettyString());
        } else {
            terminal.println("Share " + shard + ": " + share.count() + " of its " + share.planned()
                    + " runs are played. --merge joins all shares and judges them.");
            terminal.println("Written to " + out);
        }
        terminal.flush();
        return share.count() == share.planned() ? ExitCode.WELL : ExitCode.FINDING;
    }

    /** The limits are tried in the first scenario; sound cars must pass it. */
    private int limits(List<Scenario> scenarios, Fleet fleet, Path out) {
        if (scenarios.size() > 1) {
            throw new ParameterException(spec.commandLine(), "--limits takes one scenario, not " + scenarios.size());
        }
        List<Limit> tried = Arrays.stream(Limit.values())
                .filter(limit -> LimitTrial.canBeTried(limit, fleet.vehicle()))
                .toList();
        List<LimitCurve> curves = new ArrayList<>();
        boolean shown = Terminal.interactive() && !json;
        int values =
                tried.stream().mapToInt(l -> l.values(fleet.vehicle()).size()).sum();
        try (Interruption stop = new Interruption();
                ProgressBar bar = new ProgressBar(spec.commandLine().getErr(), shown, values, "values")) {
            for (Limit limit : tried) {
                int before = curves.stream().mapToInt(c -> c.points().size()).sum();
                curves.add(LimitCurve.of(limit, scenarios.get(0), fleet, done -> bar.accept(before + done), stop));
            }
        }
        LimitReport report = new LimitReport(fleet, scenarios.get(0), curves);
        OutFolder.write(out.resolve("limits.json"), report.json() + "\n");
        OutFolder.write(out.resolve("limits.html"), report.page());
        PrintWriter terminal = spec.commandLine().getOut();
        if (json) {
            terminal.println(report.json());
        } else {
            report.print(terminal);
            terminal.println();
            terminal.println("Written to " + out);
        }
        terminal.flush();
        return curves.stream().allMatch(LimitCurve::isQuiet) ? ExitCode.WELL : ExitCode.FINDING;
    }

    private int faults(Fleet fleet, Path out) {
        boolean shown = Terminal.interactive() && !json;
        List<CarFaults.Outcome> drawn;
        List<List<CarFaults.Outcome>> played;
        try (Interruption stop = new Interruption();
                ProgressBar bar = new ProgressBar(spec.commandLine().getErr(), shown, cars, "cars")) {
            drawn = CarFaults.of(fleet.vehicle(), seed, only, stop);
            if (drawn.isEmpty() && !stop.getAsBoolean()) {
                throw new ParameterException(
                        spec.commandLine(), "no run's name holds \"" + only + "\"; see campaign.csv");
            }
            played = Cores.each(
                    cars,
                    car -> CarFaults.of(fleet.vehicle().withCar(fleet.rows(car)), fleet.seed(car), only, stop),
                    bar,
                    stop);
            if (stop.getAsBoolean() && !played.isEmpty()) {
                played.remove(played.size() - 1);
            }
        }
        FaultReport report = new FaultReport(fleet, played.size(), FaultSpread.of(drawn, played));
        OutFolder.write(out.resolve("faults.json"), report.json() + "\n");
        OutFolder.write(out.resolve("faults.html"), report.page());
        PrintWriter terminal = spec.commandLine().getOut();
        if (json) {
            terminal.println(report.json());
        } else {
            report.print(terminal);
            terminal.println("Written to " + out);
        }
        terminal.flush();
        return played.size() == cars && report.worse().isEmpty() ? ExitCode.WELL : ExitCode.FINDING;
    }

    private void refuse(boolean contradicts, String why) {
        if (contradicts) {
            throw new ParameterException(spec.commandLine(), why);
        }
    }

    private void range(String option, long value, long least, long most) {
        if (value < least || value > most) {
            throw new ParameterException(
                    spec.commandLine(), option + " " + value + " is outside " + least + " to " + most);
        }
    }

    /** A scenario that says what its car is made of leaves nothing to scatter. */
    private static void refuseSingleCars(List<Scenario> scenarios) throws BadInput {
        List<Problem> problems = scenarios.stream()
                .filter(scenario -> !scenario.car().isEmpty())
                .map(scenario -> new Problem(
                        scenario.file(),
                        1,
                        1,
                        "car",
                        "says what the car is made of: it is about one car",
                        "a scenario without [car]",
                        "",
                        "Play it with run, or name the scenario that it was made from."))
                .toList();
        if (!problems.isEmpty()) {
            throw new BadInput(problems);
        }
    }

    private int tell(Fleet fleet, List<Played> all, int planned, Path out, double seconds) {
        OutFolder.write(out.resolve("margin.json"), MarginJson.of(fleet, seed, all, out) + "\n");
        OutFolder.write(out.resolve("margin.html"), MarginPage.of(fleet, seed, all));
        all.forEach(played -> keepWorst(played, out));
        boolean whole =
                all.size() == planned && all.stream().allMatch(p -> p.cars().size() == cars);
        PrintWriter terminal = spec.commandLine().getOut();
        if (json) {
            terminal.println(MarginJson.of(fleet, seed, all, out));
        } else {
            all.forEach(played -> MarginText.print(terminal, played));
            terminal.println();
            int runs = all.stream().mapToInt(p -> p.cars().size()).sum();
            terminal.printf(Locale.ROOT, "%d runs in %.1f s.%n", runs, seconds);
            if (!whole) {
                terminal.println("Interrupted: " + runs + " of " + (long) planned * cars + " runs are played.");
            }
            terminal.println("Written to " + out);
        }
        terminal.flush();
        boolean well = whole
                && all.stream()
                        .allMatch(p -> p.share().count() == cars && p.drawn().passed());
        return well ? ExitCode.WELL : ExitCode.FINDING;
    }

    private static void keepWorst(Played played, Path out) {
        for (Spread spread : played.spreads()) {
            if (spread.worst() >= 0) {
                String why = "car " + spread.worst() + " of " + played.fleet().size() + ", the worst of them for: "
                        + spread.expectation().text();
                OutFolder.write(
                        out.resolve(fileName(played.scenario(), spread)),
                        WorstCar.scenario(played.scenario(), played.fleet(), spread.worst(), why));
            }
        }
    }

    /** The file of an expectation's worst car; the number is that of the expectation in the scenario's file. */
    static String fileName(Scenario scenario, Spread spread) {
        return scenario.name() + ".worst-" + (scenario.expectations().indexOf(spread.expectation()) + 1) + ".toml";
    }
}
