package sprag.bench.port;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Trouble;
import sprag.bench.evidence.campaign.CampaignRuns;
import sprag.bench.port.equal.Equality;
import sprag.bench.port.equal.Plays;
import sprag.bench.port.equal.Speed;
import sprag.bench.port.translate.Translation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;

/** The part of {@code port} that plays Java and C side by side. */
final class CompareOptions {
    private static final int MOST_SHOWN = 20;

    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Option(
            names = "--compare",
            description =
                    "Play every scenario in Java and in C, as it is and disturbed, and every state of Logic; with --single"
                            + " list each decision that differs with its limit; needs gcc.")
    private boolean compare;

    @Option(names = "--campaign", description = "With --compare: play every run of the fault campaign too.")
    private boolean campaign;

    @Option(
            names = "--every",
            paramLabel = "N",
            defaultValue = "1",
            description = "With --campaign: play only each N-th run of it (default: ${DEFAULT-VALUE}).")
    private int every;

    @Option(
            names = "--disturbed",
            paramLabel = "TIMES",
            defaultValue = "2",
            description =
                    "With --compare: how often each play is played again with disturbed readings (default: ${DEFAULT-VALUE}).")
    private int disturbed;

    @Option(
            names = "--hostile",
            paramLabel = "TICKS",
            defaultValue = "0",
            description =
                    "With --compare: how many ticks with hostile readings and no car follow (default: ${DEFAULT-VALUE}).")
    private long hostileTicks;

    /** Refuses what does not fit together. */
    void check() {
        least("--every", every, 1);
        least("--disturbed", disturbed, 0);
        least("--hostile", hostileTicks, 0);
        if (!campaign && spec.commandLine().getParseResult().hasMatchedOption("--every")) {
            throw new ParameterException(
                    spec.commandLine(), "--every says which runs of the campaign are played; it needs --campaign");
        }
        for (String option : List.of("--campaign", "--disturbed", "--hostile")) {
            if (!compare && spec.commandLine().getParseResult().hasMatchedOption(option)) {
                throw new ParameterException(
                        spec.commandLine(), option + " says how much is compared; it needs --compare");
            }
        }
    }

    private void least(String option, long value, long least) {
        if (value < least) {
            throw new ParameterException(
                    spec.commandLine(), option + " is " + value + "; it must be " + least + " or more");
        }
    }

    /** Compares, when it is asked for.
     *
     * @param translation the C
     * @param folder where the C was written
     * @param single whether it is in single precision
     */
    void compare(Translation translation, Vehicle vehicle, Path folder, boolean single) throws IOException, BadInput {
        if (!compare) {
            return;
        }
        Path built = folder.resolve("compared");
        OutFolder.make(built);
        Equality equality = new Equality(translation, vehicle, built);
        ScenarioFiles files = new ScenarioFiles(Catalogue.installed(), vehicle);
        List<Scenario> scenarios = files.take(List.of());
        Plays plays = new Plays(scenarios, disturbed);
        int runs = 0;
        if (campaign) {
            CampaignRuns all = new CampaignRuns(vehicle);
            runs = plays.add(all, every);
        }
        String played = String.format(
                Locale.ROOT, "%d scenarios%s", scenarios.size(), campaign ? ", " + runs + " runs of the campaign" : "");
        if (single) {
            single(equality, plays, played, folder);
        } else {
            toTheLastBit(equality, plays, played);
            speed(equality, files.take(List.of("drive-and-stop")).get(0));
        }
    }

    private ProgressBar bar(Plays plays) {
        return new ProgressBar(spec.commandLine().getErr(), Terminal.interactive(), plays.count(), "plays");
    }

    private void toTheLastBit(Equality equality, Plays plays, String played) throws IOException {
        Equality.Compared same;
        try (ProgressBar bar = bar(plays)) {
            same = equality.compare(plays, hostileTicks, bar);
        }
        say(
                "Java and C are equal to the last bit: %s, %,d ticks, %d remembered numbers; the gate alone with %,d orders;"
                        + " Logic with %,d states and %,d transitions%n",
                played, same.ticks(), same.remembered(), same.orders(), same.states(), same.transitions());
    }

    private void speed(Equality equality, Scenario drive) throws IOException {
        Speed speed = equality.speed(drive);
        say(
                "One step of a drive, processor time by turns: Java %.0f ns, C (gcc -O2) %.0f ns, ratio %.2f. Java also"
                        + " keeps the memory for people, which C leaves out.%n",
                speed.javaNs(), speed.cNs(), speed.ratio());
    }

    private void single(Equality equality, Plays plays, String played, Path folder) throws IOException {
        Equality.Rounded rounded;
        try (ProgressBar bar = bar(plays)) {
            rounded = equality.compareSingle(plays, bar);
        }
        List<String> differences = rounded.differences();
        say(
                "Single precision beside Java: %s, %,d ticks; %,d decisions differ%n",
                played, rounded.ticks(), differences.size());
        differences.stream().limit(MOST_SHOWN).forEach(line -> say("  %s%n", line));
        if (!differences.isEmpty()) {
            Path list = folder.resolve("differences.txt");
            OutFolder.write(list, String.join("\n", differences) + "\n");
            say("All of them: %s%n", list);
        }
        rounded.most()
                .forEach((output, away) -> say(
                        "%-24s at most %.2g away; bound %.2g%n", output.key(), away, Equality.Rounded.bound(output)));
        if (rounded.unexplained() > 0 || !rounded.beyond().isEmpty()) {
            throw new Trouble("single precision: " + rounded.unexplained()
                    + " decisions differ without a limit nearby; " + "beyond their bound: " + rounded.beyond());
        }
    }

    private void say(String format, Object... with) {
        PrintWriter to = spec.commandLine().getOut();
        to.printf(Locale.ROOT, format, with);
        to.flush();
    }
}
