package sprag.bench.evidence.prove;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.cli.Within;
import sprag.bench.evidence.prove.explore.Courses;
import sprag.bench.evidence.prove.explore.Exploration;
import sprag.bench.evidence.prove.explore.Explorer;
import sprag.bench.evidence.prove.explore.Observer;
import sprag.bench.evidence.prove.explore.Recalled;
import sprag.bench.evidence.prove.explore.Recollection;
import sprag.bench.evidence.prove.explore.Watched;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Settings;

/** How fast the shipped Logic of each vehicle is explored: alone, with the promises beside it, and the whole proof. */
@Command(
        name = "prove-benchmark",
        mixinStandardHelpOptions = true,
        hidden = true,
        description = "Explores the shipped Logic of every vehicle and prints transitions a second and times.")
public final class ProveBenchmark implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Option(
            names = "--rounds",
            paramLabel = "N",
            defaultValue = "20",
            description = "Rounds; the best of each counts (default: ${DEFAULT-VALUE}).")
    private int rounds;

    @Override
    public Integer call() throws Exception {
        Within.check(spec, "--rounds", rounds, 1, 1000);
        PrintWriter out = spec.commandLine().getOut();
        int cores = Runtime.getRuntime().availableProcessors();
        out.printf("Best of %d; the whole proof and the necessity table on %d cores.%n", rounds, cores);
        out.printf("%-12s%10s%22s%22s%11s%12s%n", "", "", "Logic, one core", "with promises", "proof", "necessity");
        out.printf("%-12s%10s%22s%22s%11s%12s%n", "vehicle", "states", "M transitions/s", "M transitions/s", "s", "s");
        Catalogue catalogue = Catalogue.installed();
        for (String name : catalogue.vehicles()) {
            Vehicle vehicle = VehicleReader.read(catalogue.vehicle(name));
            if (!CarParameter.hasRelays(vehicle)) {
                measure(name, vehicle.settings(), cores, out);
            }
        }
        return 0;
    }

    private void measure(String name, Settings settings, int cores, PrintWriter out) throws InterruptedException {
        Exploration.Size alone = null;
        Exploration.Size promised = null;
        double proofS = Double.MAX_VALUE;
        for (int round = 0; round < rounds; round++) {
            alone = faster(alone, settings, List.of());
            promised = faster(promised, settings, List.of(Promise.values()));
            long startNs = System.nanoTime();
            new Prover(settings).workers(cores).prove();
            proofS = Math.min(proofS, (System.nanoTime() - startNs) / 1e9);
        }
        long startNs = System.nanoTime();
        Necessity.of(settings, Set.of(), new Recollection(), cores, done -> {}, () -> false);
        double necessityS = (System.nanoTime() - startNs) / 1e9;
        out.printf(
                Locale.ROOT,
                "%-12s%,10d%22.1f%22.1f%11.2f%12.1f%n",
                name,
                alone.states(),
                alone.transitionsPerS() / 1e6,
                promised.transitionsPerS() / 1e6,
                proofS,
                necessityS);
        out.flush();
    }

    private static Exploration.Size faster(Exploration.Size best, Settings settings, List<Promise> promises) {
        Exploration.Size found = Explorer.of(() -> {
                    Watched<Tick> watched = new Watched<>(
                            new Tick(settings, settings, Set.of(), false), promises, List.<Observer<Tick>>of());
                    return promises.isEmpty() ? watched : new Recalled<>(watched, new Courses());
                })
                .explore()
                .size();
        return best == null || found.tookNs() < best.tookNs() ? found : best;
    }
}
