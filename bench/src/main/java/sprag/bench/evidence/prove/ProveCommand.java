package sprag.bench.evidence.prove;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.ProgressBar;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Trouble;
import sprag.bench.cli.Within;
import sprag.bench.evidence.prove.explore.Recollection;
import sprag.bench.evidence.prove.explore.UnrepeatableMachineException;
import sprag.bench.evidence.prove.export.Export;
import sprag.bench.loop.TakenOut;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;
import sprag.supervisor.vocabulary.Interlock;

/** {@code prove}: explores every reachable state of a vehicle's Logic. */
@Command(
        name = "prove",
        mixinStandardHelpOptions = true,
        description = {
            "Proves the safety promises of the supervisor's Logic.",
            "It tries every order of events that Logic can meet. For each promise it shows",
            "that it holds, or the shortest series of events that breaks it."
        },
        footer = {
            "",
            "With --out: proof.html, proof.json, junit.xml, and a scenario for each broken",
            "promise that \"sprag run\" plays on the simulated car.",
            "",
            "Example: sprag prove parcel-van --without plug-present"
        })
public final class ProveCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument named;

    private static final long MOST_STATES = 2_000_000_000;

    @Option(
            names = "--without",
            paramLabel = "ID",
            description = "Leave out an interlock, to see what it is needed for; may be given more than once.")
    private List<String> withoutIds = new ArrayList<>();

    @Option(
            names = "--gate",
            description = "Give the Gate the last word; without this, Logic must keep every promise alone.")
    private boolean gated;

    @Option(
            names = "--necessity",
            description =
                    "Leave out each interlock and change each wait by one tick in turn, and show which promise breaks.")
    private boolean necessity;

    @Option(
            names = "--max-states",
            paramLabel = "N",
            description =
                    "Explore up to this many states, however long it takes (default: 10 million; and an exploration ends"
                            + " after 1,000 million steps, or 10 million steps after a promise was found broken).")
    private Long maxStates;

    @Option(names = "--out", paramLabel = "DIR", description = "Write the results into this folder.")
    private Path outDir;

    @Option(
            names = "--export",
            paramLabel = "DIR",
            description = "Write the reachable graph (.aut) and a model for SPIN into this folder, for other tools.")
    private Path exportDir;

    @Option(names = "--junit", paramLabel = "FILE", description = "Also write the results as JUnit XML here.")
    private Path junit;

    @Option(names = "--json", description = "Print the results as JSON and nothing else.")
    private boolean json;

    private BooleanSupplier stop = () -> false;

    @Override
    public Integer call() throws Exception {
        if (maxStates != null) {
            Within.check(spec, "--max-states", maxStates, 1, MOST_STATES);
        }
        if (exportDir != null && gated) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--export and --gate do not go together: what is exported is Logic alone. Leave one out");
        }
        Vehicle vehicle = named.readSupervised();
        Set<Interlock> without = TakenOut.of(spec.commandLine(), withoutIds);
        try (Interruption interruption = new Interruption()) {
            stop = interruption;
            return prove(vehicle, without);
        } catch (UnrepeatableMachineException e) {
            spec.commandLine()
                    .getErr()
                    .println("Nothing is proved: Logic decided the same tick in two ways. " + e.getMessage());
            return ExitCode.FINDING;
        }
    }

    private int prove(Vehicle vehicle, Set<Interlock> without) throws InterruptedException {
        boolean watched = Terminal.interactive() && !json;
        ProofProgress progress = json
                ? ProofProgress.SILENT
                : new ProofProgress(spec.commandLine().getErr(), watched);
        long startNs = System.nanoTime();
        Prover prover = new Prover(vehicle.settings())
                .without(without)
                .gated(gated)
                .maxStates(mostStates())
                .patience(unlessGiven(Prover.PATIENCE))
                .maxTransitions(unlessGiven(Prover.MOST_TRANSITIONS))
                .workers(workers())
                .witnesses(outDir != null || json)
                .progress(progress)
                .stopWhen(stop);
        Proof proof = prover.prove();
        progress.wipe();
        double provedS = secondsSince(startNs);
        startNs = System.nanoTime();
        Recollection known = without.isEmpty() ? prover.known() : new Recollection();
        Necessity needs = necessity ? needs(vehicle, proof, known, watched) : null;
        tell(vehicle, proof, provedS, needs, secondsSince(startNs));
        return proof.good() && (needs == null || needs.findings().isEmpty()) ? ExitCode.WELL : ExitCode.FINDING;
    }

    private long mostStates() {
        return maxStates == null ? Prover.MOST_UNASKED : maxStates;
    }

    /** Who gives a limit of states wants everything up to there, however long it takes, also after a promise was found broken. */
    private long unlessGiven(long limit) {
        return maxStates == null ? limit : Long.MAX_VALUE;
    }

    private static int workers() {
        return Runtime.getRuntime().availableProcessors();
    }

    private Necessity needs(Vehicle vehicle, Proof proof, Recollection known, boolean watched)
            throws InterruptedException {
        Set<String> brokenAnyway =
                proof.broken().stream().map(Proof.Verdict::id).collect(Collectors.toSet());
        PrintWriter err = spec.commandLine().getErr();
        try (ProgressBar bar = new ProgressBar(err, watched, Necessity.TASKS, "interlocks and waits left out")) {
            return Necessity.of(vehicle.settings(), brokenAnyway, known, workers(), bar, stop);
        }
    }

    private void tell(Vehicle vehicle, Proof proof, double provedS, Necessity needs, double neededS) {
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(ProofJson.of(vehicle.name(), proof, gated, needs));
        } else {
            ProofText text = new ProofText(out);
            text.proof(vehicle.name(), proof, gated, provedS);
            if (needs != null) {
                text.necessity(needs, neededS);
            }
        }
        String xml = ProofXml.of(vehicle.name(), proof, needs, provedS + neededS);
        if (junit != null) {
            write(junit, xml);
        }
        if (outDir != null) {
            writeAll(vehicle, proof, needs, xml);
            if (!json) {
                out.println();
                out.println("Written to " + outDir);
            }
        }
        if (exportDir != null) {
            export(vehicle, proof, out);
        }
        out.flush();
    }

    private void export(Vehicle vehicle, Proof proof, PrintWriter out) {
        Optional<String> written;
        PrintWriter err = spec.commandLine().getErr();
        int looks = (int) Math.min(Integer.MAX_VALUE, 2 * proof.states());
        try (ProgressBar bar = new ProgressBar(err, Terminal.interactive() && !json, looks, "states exported")) {
            written = new Export(vehicle, proof.without()).write(exportDir, mostStates(), stop, bar);
        }
        if (json) {
            return;
        }
        out.println();
        out.println("Exported to " + exportDir);
        out.println("  " + Export.MODEL + ": Logic and its promises as a model for SPIN");
        if (written.isEmpty()) {
            out.println("  no " + Export.GRAPH + ": not every state was visited");
            return;
        }
        out.println("  " + Export.GRAPH + ": " + written.get());
        out.println("  " + Export.STATES + ": what each state of it is");
    }

    private void writeAll(Vehicle vehicle, Proof proof, Necessity needs, String xml) {
        write(outDir.resolve("proof.html"), ProofPage.of(vehicle.name(), proof, gated, needs));
        write(outDir.resolve("proof.json"), ProofJson.of(vehicle.name(), proof, gated, needs));
        write(outDir.resolve("junit.xml"), xml);
        for (Proof.Verdict verdict : proof.broken()) {
            String name = verdict.id().toLowerCase(Locale.ROOT).replace('_', '-') + ".toml";
            write(
                    outDir.resolve("counterexamples").resolve(name),
                    ScenarioDraft.of(vehicle, proof.without(), verdict, stop));
        }
    }

    private static void write(Path file, String text) {
        try {
            Path folder = file.toAbsolutePath().getParent();
            Files.createDirectories(folder);
            OutFolder.refusePipe(file);
            Files.writeString(file, text);
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }

    private static double secondsSince(long startNs) {
        return (System.nanoTime() - startNs) / 1e9;
    }
}
