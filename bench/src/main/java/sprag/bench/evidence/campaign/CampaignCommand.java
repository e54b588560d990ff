package sprag.bench.evidence.campaign;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusReader;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.Json;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.OutOption;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Shard;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Trouble;
import sprag.bench.cli.Version;
import sprag.bench.cli.Within;
import sprag.bench.evidence.campaign.Campaign.Run;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.evidence.campaign.play.FaultRig;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.trace.CsvTrace;
import sprag.bench.loop.trace.Frame;
import sprag.bench.port.chip.ChipOption;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;
import sprag.bench.wired.WiredPlan;

/** {@code campaign}: every single fault at every moment. */
@Command(
        name = "campaign",
        mixinStandardHelpOptions = true,
        description = {
            "Plays one drive and one charge with every single fault, at every moment of them.",
            "Each run shows what noticed the fault, how soon, and what harm it did."
        },
        footer = {
            "",
            "Stopped with Ctrl-C, it goes on where it was with the same --out.",
            "Examples: sprag campaign parcel-van --out faults",
            "          sprag campaign parcel-van --bus van-pair --only message.",
            "          sprag campaign coupe --only \"cruising pedal_a_v.open\"",
            "          sprag campaign parcel-van --wired --only \"cruising L013.\"",
            "          sprag campaign coupe --shard 1/2 --out first",
            "          sprag campaign coupe --merge first second --out whole"
        })
public final class CampaignCommand implements Callable<Integer> {
    private static final int MOST_SHARES = 999_999;
    private static final int SHOWN = 12;
    private static final int MOST_BYTES = 64 << 20;

    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument named;

    @Mixin
    private OutOption outFolder;

    @Option(
            names = "--bus",
            paramLabel = "B",
            description = "Also the faults of this data bus, between the car and the supervisor: a shipped bus, a bus"
                    + " file, or a folder that holds bus.toml.")
    private String busName;

    @Option(names = "--seed", paramLabel = "N", description = "Seed of the sensors' noise (default: ${DEFAULT-VALUE}).")
    private long seed = 1;

    @Option(names = "--shard", paramLabel = "I/N", description = "Only every N-th run, beginning with the I-th.")
    private String shard = "1/1";

    @Option(
            names = "--merge",
            paramLabel = "DIR",
            arity = "1..*",
            description = "Play nothing: join the folders that all shares have written.")
    private List<Path> merge = List.of();

    @Option(
            names = "--compare",
            paramLabel = "FILE",
            description = "The baseline.txt of an earlier campaign; exit status 1 when any row differs, and only then.")
    private Path compare;

    @Option(
            names = "--only",
            paramLabel = "RUN",
            description = "Only runs whose name holds this; a single one leaves a trace.")
    private String only = "";

    @Mixin
    private ChipOption chip;

    @Option(
            names = "--wired",
            description =
                    "The faults of the drawn circuit in place of the car's: each wire, contact, fuse and neighbouring"
                            + " terminal of wiring.csv (docs/wired.md).")
    private boolean wired;

    @Option(
            names = "--pairs",
            description =
                    "Every pair of faults too, not only the chosen ones: many hours; choose with --only, split with"
                            + " --shard.")
    private boolean pairs;

    @Option(
            names = "--rates",
            paramLabel = "FILE",
            description = "Failure rates for the cut sets: lines fault,per_hour (docs/campaign.md).")
    private Path ratesFile;

    @Option(
            names = "--hours",
            paramLabel = "H",
            description = "With --rates: how long nobody looks at the car (default: ${DEFAULT-VALUE}).")
    private double hours = 1000;

    @Option(names = "--json", description = "Print the counts and the worst rows as JSON and nothing else.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Shard part = Shard.of(spec, shard, MOST_SHARES, "shares");
        Within.check(spec, "--hours", hours, 1, 1e6);
        Vehicle vehicle = wired ? named.read() : named.readSupervised();
        seed = merge.isEmpty()
                ? seed
                : Within.usage(spec, () -> ShardMerge.keyOf(merge.get(0)).seed());
        if (chip.wanted() && only.isEmpty()) {
            throw new ParameterException(
                    spec.commandLine(), "--chip takes seconds for each run; choose some with --only");
        }
        BusFile bus =
                busName == null ? null : BusReader.read(Catalogue.installed().bus(busName), vehicle);
        try (Interruption stop = new Interruption();
                ChipSeat seat = chip.seat(vehicle, Set.of())) {
            WiredPlan wires = wired ? WiredPlan.of(vehicle) : null;
            Campaign campaign = new Campaign(vehicle, bus, wires, seed, seat);
            return play(vehicle, bus, pairs ? campaign.withAllPairs() : campaign, part, stop);
        }
    }

    private int play(Vehicle vehicle, BusFile bus, Campaign campaign, Shard part, Interruption stop) {
        List<Run> runs = chosen(campaign.runs(), vehicle);
        if (runs.isEmpty()) {
            throw new ParameterException(
                    spec.commandLine(),
                    "no run's name holds \"" + only + "\"; names look like \""
                            + campaign.runs().get(0).id(vehicle) + "\"");
        }
        Baseline accepted = compare == null ? null : Within.usage(spec, () -> Baseline.parse(lines(compare)));
        FailureRates rates = ratesFile == null
                ? FailureRates.none()
                : Within.usage(spec, () -> FailureRates.read(ratesFile, campaign.faults(), hours));
        CampaignKey key = key(vehicle, bus, runs.size(), part);
        List<FaultOutcome> joined = merge.isEmpty() ? List.of() : Within.usage(spec, () -> ShardMerge.join(key, merge));
        Path out = outFolder.open();
        try (ResultFile results = Within.usage(spec, () -> new ResultFile(out.resolve(ResultFile.NAME), key))) {
            Set<String> already = new HashSet<>(
                    results.sorted().stream().map(FaultOutcome::id).toList());
            joined.stream().filter(o -> !already.contains(o.id())).forEach(results::add);
            if (merge.isEmpty() && runs.size() == 1) {
                traced(campaign, runs.get(0), results, out);
            } else if (merge.isEmpty()) {
                all(campaign, campaign.share(runs, key.part(), key.of(), already), results, stop);
            }
            return report(new Result(vehicle, campaign, key, results.sorted(), out), rates, accepted);
        }
    }

    /** With every pair, each fault of a chosen pair is played alone at its moment too: only then is a pair known to be minimal. */
    private List<Run> chosen(List<Run> all, Vehicle vehicle) {
        List<Run> named =
                all.stream().filter(run -> run.id(vehicle).contains(only)).toList();
        Set<Run> wanted = new HashSet<>(named);
        if (pairs) {
            named.forEach(run -> run.faults().forEach(fault -> wanted.add(new Run(run.moment(), List.of(fault)))));
        }
        return all.stream().filter(wanted::contains).toList();
    }

    private CampaignKey key(Vehicle vehicle, BusFile bus, int runs, Shard part) {
        List<Path> files = CampaignKey.files(vehicle.folder(), wired, bus == null ? null : bus.file());
        try {
            return new CampaignKey(
                    Version.line(), vehicle.name(), CampaignKey.sum(files), seed, runs, part.part(), part.of(), only);
        } catch (IOException e) {
            throw new Trouble("cannot read", files.get(0), e);
        }
    }

    private static List<String> lines(Path file) {
        try {
            return new String(InputFile.bytes(file, MOST_BYTES), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
        } catch (InputFile.Refused e) {
            throw new IllegalArgumentException(file + " " + e.getMessage() + ". " + e.remedy(), e);
        }
    }

    private void all(Campaign campaign, List<Run> left, ResultFile results, Interruption stop) {
        boolean shown = Terminal.interactive() && !json;
        int[] done = {0};
        try (ProgressBar bar = new ProgressBar(spec.commandLine().getErr(), shown, left.size(), "runs")) {
            campaign.playAll(
                    left,
                    outcome -> {
                        results.add(outcome);
                        bar.accept(++done[0]);
                    },
                    stop);
        }
    }

    private void traced(Campaign campaign, Run run, ResultFile results, Path out) {
        Path file = out.resolve("trace.csv");
        try (CsvTrace trace = new CsvTrace(FrameColumns.CHANNELS, Files.newBufferedWriter(file))) {
            Frame frame = FrameColumns.CHANNELS.newFrame();
            FaultOutcome outcome = campaign.play(run, rig -> write(rig, frame, trace));
            if (results.sorted().stream().noneMatch(o -> o.id().equals(outcome.id()))) {
                results.add(outcome);
            }
        } catch (UncheckedIOException e) {
            throw new Trouble("cannot write", file, e.getCause());
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }

    private static void write(FaultRig rig, Frame frame, CsvTrace trace) {
        rig.show(frame);
        try {
            trace.write(frame);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private record Result(Vehicle vehicle, Campaign campaign, CampaignKey key, List<FaultOutcome> sorted, Path out) {}

    private int report(Result r, FailureRates rates, Baseline accepted) {
        CutSets sets = CutSets.of(r.vehicle, r.sorted);
        OutFolder.write(r.out.resolve("cutsets.html"), CutSetPage.of(r.vehicle, sets, rates, partly(r)));
        OutFolder.write(r.out.resolve("cutsets.csv"), CutSetPage.csv(sets, rates));
        Baseline now = Baseline.of(r.vehicle, r.sorted);
        OutFolder.write(r.out.resolve("campaign.html"), CampaignPage.of(r.vehicle, r.key, r.sorted, r.campaign));
        OutFolder.write(r.out.resolve("junit.xml"), CampaignXml.of(r.vehicle, r.sorted));
        OutFolder.write(r.out.resolve("baseline.txt"), now.toString());
        boolean whole = r.key.of() == 1 && only.isEmpty() && r.sorted.size() == r.key.runs();
        List<String> differences = accepted == null ? List.of() : now.differencesFrom(accepted, whole);
        PrintWriter terminal = spec.commandLine().getOut();
        if (json) {
            terminal.println(asJson(r, differences));
        } else {
            print(r, differences, terminal);
        }
        terminal.flush();
        boolean finding =
                accepted == null ? r.sorted.stream().anyMatch(FaultOutcome::isFinding) : !differences.isEmpty();
        return finding ? ExitCode.FINDING : ExitCode.WELL;
    }

    private String partly(Result r) {
        String chosen = only.isEmpty()
                ? ""
                : "Only runs whose name holds \"" + only + "\" were played"
                        + (pairs ? ", and the faults of their pairs alone." : ": part of a set may be enough.");
        return (r.key.share(r.sorted.size()) + " " + chosen).strip();
    }

    private void print(Result r, List<String> differences, PrintWriter terminal) {
        r.campaign
                .missing()
                .forEach(m -> terminal.println(
                        "The run of " + r.vehicle.name() + " without a fault never reaches " + m.key() + "."));
        String share = r.key.share(r.sorted.size());
        if (!share.isEmpty()) {
            terminal.println(share);
        }
        Campaign.count(r.sorted)
                .forEach((verdict, count) -> terminal.printf(
                        "%6d %-11s %s%n",
                        count, verdict.name().toLowerCase(Locale.ROOT), CampaignPage.meaning(verdict)));
        terminal.println();
        if (compare == null) {
            r.sorted.stream()
                    .filter(o -> o.verdict() == Verdict.HARM || o.verdict() == Verdict.LATE)
                    .limit(SHOWN)
                    .forEach(o -> terminal.println(line(r.vehicle, o)));
        } else {
            differences.forEach(terminal::println);
            terminal.println(differences.size() + " rows are not as in " + compare + "."
                    + (differences.isEmpty() ? "" : " To accept them, put baseline.txt in its place."));
        }
        terminal.println("Written to " + r.out);
    }

    private static String line(Vehicle vehicle, FaultOutcome o) {
        return String.format(
                Locale.ROOT,
                "%-5s %-18s %s%n      noticed by %s, margin %.0f ms; %s",
                o.verdict().name().toLowerCase(Locale.ROOT),
                o.moment(),
                o.fault(),
                o.interlock().isEmpty() ? "nothing" : o.interlock(),
                o.marginMs(),
                CampaignPage.amount(vehicle, o));
    }

    private static String asJson(Result r, List<String> differences) {
        ObjectNode root = Json.object();
        root.put("vehicle", r.vehicle.name()).put("runs", r.sorted.size()).put("written_to", r.out.toString());
        root.put("share", r.key.part() + "/" + r.key.of()).put("runs_of_campaign", r.key.runs());
        differences.forEach(line -> root.withArray("differences").add(line));
        ObjectNode counts = root.putObject("verdicts");
        Campaign.count(r.sorted)
                .forEach((verdict, count) -> counts.put(verdict.name().toLowerCase(Locale.ROOT), count));
        r.sorted.stream()
                .filter(o -> o.verdict() == Verdict.HARM || o.verdict() == Verdict.LATE)
                .forEach(o -> root.withArray("findings")
                        .addObject()
                        .put("moment", o.moment())
                        .put("fault", o.fault())
                        .put("verdict", o.verdict().name())
                        .put("interlock", o.interlock())
                        .put("margin_ms", o.marginMs())
                        .put("harm", CampaignPage.harm(r.vehicle, o))
                        .put("unasked_torque_nms", o.amount(Harm.UNASKED_TORQUE)));
        return root.toPrettyString();
    }
}
