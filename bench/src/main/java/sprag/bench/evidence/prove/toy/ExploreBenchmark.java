package sprag.bench.evidence.prove.toy;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.Within;
import sprag.bench.evidence.prove.explore.Exploration;
import sprag.bench.evidence.prove.explore.Explorer;

/** Explores the toy machine on one core and, in the same run, lets SPIN explore it too: states a second as a ratio. */
@Command(
        name = "explore-benchmark",
        mixinStandardHelpOptions = true,
        hidden = true,
        description = "Explores the toy machine on one core beside SPIN, if spin and gcc are installed.")
public final class ExploreBenchmark implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(
            arity = "0..*",
            paramLabel = "LIMIT",
            defaultValue = "54 118",
            split = " ",
            description = "What the timers count to, 1 to 255 (default: 54 118).")
    private List<Integer> limits;

    @Option(
            names = "--rounds",
            paramLabel = "N",
            defaultValue = "3",
            description = "Rounds; the best of each counts (default: ${DEFAULT-VALUE}).")
    private int rounds;

    @Override
    public Integer call() throws IOException, InterruptedException {
        Within.check(spec, "--rounds", rounds, 1, 1000);
        PrintWriter out = spec.commandLine().getOut();
        warmUp();
        for (int limit : limits) {
            compare(limit, out);
        }
        return 0;
    }

    private static void warmUp() {
        for (int i = 0; i < 8; i++) {
            Explorer.of(() -> ToyMachine.hashed(25)).explore();
            Explorer.of(() -> ToyMachine.dense(25)).explore();
        }
    }

    private void compare(int limit, PrintWriter out) throws IOException, InterruptedException {
        Optional<Spin> spin = Spin.forLimit(limit);
        Exploration hashed = null;
        Exploration dense = null;
        Spin.Count baseline = null;
        for (int round = 0; round < rounds; round++) {
            hashed = faster(hashed, () -> ToyMachine.hashed(limit));
            dense = faster(dense, () -> ToyMachine.dense(limit));
            if (spin.isPresent()) {
                Spin.Count count = spin.get().explore();
                baseline = baseline == null || count.seconds() < baseline.seconds() ? count : baseline;
            }
        }
        if (spin.isPresent()) {
            spin.get().delete();
        }
        print(limit, hashed, dense, baseline, out);
    }

    private static Exploration faster(Exploration best, Supplier<ToyMachine> machines) {
        Exploration found = Explorer.of(machines).explore();
        return best == null || found.size().tookNs() < best.size().tookNs() ? found : best;
    }

    private void print(int limit, Exploration hashed, Exploration dense, Spin.Count baseline, PrintWriter out) {
        out.printf(Locale.ROOT, "Toy machine, timers to %d, one core, best of %d:%n", limit, rounds);
        out.printf("  %-8s%14s%14s%12s%14s%10s%n", "", "states", "transitions", "M states/s", "bytes/state", "ratio");
        row(out, "hashed", hashed, baseline);
        row(out, "dense", dense, baseline);
        if (baseline == null) {
            out.println("  SPIN: spin or gcc is not installed, so there is no ratio to give");
        } else {
            out.printf(
                    Locale.ROOT,
                    "  %-8s%,14d%,14d%12.2f%14.1f%10s%n",
                    "SPIN",
                    baseline.states(),
                    baseline.transitions(),
                    baseline.statesPerS() / 1e6,
                    baseline.bytesPerState(),
                    "1");
        }
        out.flush();
    }

    private static void row(PrintWriter out, String name, Exploration found, Spin.Count baseline) {
        Exploration.Size size = found.size();
        if (baseline != null && baseline.states() != size.states()) {
            throw new IllegalStateException("SPIN counts " + baseline.states() + " states, not " + size.states());
        }
        String ratio =
                baseline == null ? "-" : String.format(Locale.ROOT, "%.1f", size.statesPerS() / baseline.statesPerS());
        out.printf(
                Locale.ROOT,
                "  %-8s%,14d%,14d%12.2f%14.1f%10s%n",
                name,
                size.states(),
                size.transitions(),
                size.statesPerS() / 1e6,
                size.bytesPerState(),
                ratio);
    }
}
