package sprag.bench.evidence.campaign;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Trouble;
import sprag.bench.evidence.campaign.Campaign.Run;
import sprag.bench.evidence.campaign.FaultOutcome.Verdict;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.trace.CsvTrace;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

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
            "          sprag campaign coupe --only \"cruising pedal_a_v.open\""
        })
public final class CampaignCommand implements Callable<Integer> {
    private static final Pattern SHARD = Pattern.compile("(\\d+)/(\\d+)");
    private static final int SHOWN = 12;

    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "VEHICLE", description = "name of a shipped vehicle, or path to a vehicle's folder")
    private String vehicleName;

    @Option(names = "--out", paramLabel = "DIR", description = "where to write; default: a new folder")
    private Path outDir;

    @Option(names = "--seed", paramLabel = "N", description = "seed of the sensors' noise (default ${DEFAULT-VALUE})")
    private long seed = 1;

    @Option(names = "--shard", paramLabel = "I/N", description = "only every N-th run, beginning with the I-th")
    private String shard = "1/1";

    @Option(
            names = "--only",
            paramLabel = "RUN",
            description = "only runs whose name holds this; a single one leaves a trace")
    private String only = "";

    @Option(names = "--json", description = "print the counts and the worst rows as JSON and nothing else")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Matcher part = SHARD.matcher(shard);
        if (!part.matches()
                || Integer.parseInt(part.group(1)) < 1
                || Integer.parseInt(part.group(1)) > Integer.parseInt(part.group(2))) {
            throw new ParameterException(
                    spec.commandLine(), "--shard " + shard + " is not I/N with I from 1 to N, e.g. 2/8");
        }
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle(vehicleName));
        Campaign campaign = new Campaign(vehicle, seed);
        List<Run> runs = campaign.runs().stream()
                .filter(run -> run.id(vehicle).contains(only))
                .toList();
        if (runs.isEmpty()) {
            throw new ParameterException(
                    spec.commandLine(),
                    "no run's name holds \"" + only + "\"; names look like \""
                            + campaign.runs().get(0).id(vehicle) + "\"");
        }
        Path out = OutFolder.open(outDir);
        String heading = "sprag campaign, " + vehicle.name() + ", seed " + seed;
        try (Interruption stop = new Interruption();
                ResultFile results = results(out.resolve("campaign.csv"), heading)) {
            Set<String> already = new HashSet<>(
                    results.sorted().stream().map(FaultOutcome::id).toList());
            List<Run> left =
                    campaign.share(runs, Integer.parseInt(part.group(1)), Integer.parseInt(part.group(2)), already);
            if (runs.size() == 1) {
                traced(campaign, runs.get(0), results, out);
            } else {
                all(campaign, left, results, stop);
            }
            return report(vehicle, campaign, results.sorted(), out);
        }
    }

    private ResultFile results(Path file, String heading) {
        try {
            return new ResultFile(file, heading);
        } catch (IllegalArgumentException e) {
            throw new ParameterException(spec.commandLine(), e.getMessage(), e);
        }
    }

    private void all(Campaign campaign, List<Run> left, ResultFile results, Interruption stop) {
        boolean progress = Terminal.interactive() && !json;
        PrintWriter err = spec.commandLine().getErr();
        int[] done = {0};
        campaign.playAll(
                left,
                outcome -> {
                    results.add(outcome);
                    if (progress && ++done[0] % 20 == 0) {
                        int bars = 40 * done[0] / left.size();
                        err.printf("\r[%-40s] %d of %d", "#".repeat(bars), done[0], left.size());
                        err.flush();
                    }
                },
                stop);
        if (progress) {
            err.printf("\r%70s\r", "");
            err.flush();
        }
    }

    private void traced(Campaign campaign, Run run, ResultFile results, Path out) {
        Path file = out.resolve("trace.csv");
        try (CsvTrace trace = new CsvTrace(FrameColumns.CHANNELS, Files.newBufferedWriter(file))) {
            Frame frame = FrameColumns.CHANNELS.newFrame();
            FaultOutcome outcome = campaign.play(run, loop -> write(loop, frame, trace));
            if (results.sorted().stream().noneMatch(o -> o.id().equals(outcome.id()))) {
                results.add(outcome);
            }
        } catch (UncheckedIOException e) {
            throw new Trouble("cannot write", file, e.getCause());
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }

    private static void write(ClosedLoop loop, Frame frame, CsvTrace trace) {
        loop.show(frame);
        try {
            trace.write(frame);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private int report(Vehicle vehicle, Campaign campaign, List<FaultOutcome> sorted, Path out) {
        OutFolder.write(out.resolve("campaign.html"), CampaignPage.of(vehicle, sorted));
        OutFolder.write(out.resolve("junit.xml"), CampaignXml.of(vehicle, sorted));
        PrintWriter terminal = spec.commandLine().getOut();
        if (json) {
            terminal.println(asJson(vehicle, sorted, out));
        } else {
            campaign.missing()
                    .forEach(m -> terminal.println(
                            "The run of " + vehicle.name() + " without a fault never reaches " + m.key() + "."));
            Campaign.count(sorted)
                    .forEach((verdict, count) -> terminal.printf(
                            "%6d %-11s %s%n",
                            count, verdict.name().toLowerCase(Locale.ROOT), CampaignPage.meaning(verdict)));
            terminal.println();
            sorted.stream()
                    .filter(o -> o.verdict() == Verdict.HARM || o.verdict() == Verdict.LATE)
                    .limit(SHOWN)
                    .forEach(o -> terminal.println(line(vehicle, o)));
            terminal.println("Written to " + out);
        }
        terminal.flush();
        boolean finding = sorted.stream().anyMatch(FaultOutcome::isFinding);
        return finding ? ExitCode.FINDING : ExitCode.WELL;
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

    private static String asJson(Vehicle vehicle, List<FaultOutcome> sorted, Path out) {
        ObjectMapper mapper = new ObjectMapper();
        ObjectNode root = mapper.createObjectNode();
        root.put("vehicle", vehicle.name()).put("runs", sorted.size()).put("written_to", out.toString());
        ObjectNode counts = root.putObject("verdicts");
        Campaign.count(sorted)
                .forEach((verdict, count) -> counts.put(verdict.name().toLowerCase(Locale.ROOT), count));
        sorted.stream()
                .filter(o -> o.verdict() == Verdict.HARM || o.verdict() == Verdict.LATE)
                .forEach(o -> root.withArray("findings")
                        .addObject()
                        .put("moment", o.moment())
                        .put("fault", o.fault())
                        .put("verdict", o.verdict().name())
                        .put("interlock", o.interlock())
                        .put("margin_ms", o.marginMs())
                        .put("harm", CampaignPage.harm(vehicle, o))
                        .put("unasked_torque_nms", o.amount(Harm.UNASKED_TORQUE)));
        return root.toPrettyString();
    }
}
