package sprag.bench.evidence.campaign;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import sprag.bench.car.FaultSpec;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.Vehicle;

/** All runs of a campaign on one vehicle, told on every core. */
final class Campaign {
    /**
     * One run to be told.
     *
     * @param moment when the faults come
     * @param faults which
     */
    record Run(FaultMoment moment, List<FaultSpec> faults) {
        String id(Vehicle vehicle) {
            List<String> names = faults.stream().map(FaultSpec::name).toList();
            return vehicle.name() + " " + moment.key() + " " + String.join("+", names);
        }
    }

    private final Vehicle vehicle;
    private final long seed;
    private final Map<Boolean, ReferenceRun> stories;

    Campaign(Vehicle vehicle, long seed) {
        this.vehicle = vehicle;
        this.seed = seed;
        stories = Map.of(false, new ReferenceRun(vehicle, seed, false), true, new ReferenceRun(vehicle, seed, true));
    }

    /** Moments that the story of this vehicle never reaches; there should be none. */
    List<FaultMoment> missing() {
        List<FaultMoment> missing = new ArrayList<>();
        for (FaultMoment moment : FaultMoment.values()) {
            if (!stories.get(moment.charging).moments.containsKey(moment)) {
                missing.add(moment);
            }
        }
        return missing;
    }

    /** Every run, singles first, in an order that does not change. */
    List<Run> runs() {
        List<Run> runs = new ArrayList<>();
        for (FaultMoment moment : FaultMoment.values()) {
            if (stories.get(moment.charging).moments.containsKey(moment)) {
                FaultSpec.all(vehicle).forEach(fault -> runs.add(new Run(moment, List.of(fault))));
            }
        }
        for (FaultMoment moment : FaultMoment.values()) {
            if (stories.get(moment.charging).moments.containsKey(moment)) {
                DoubleFault.of(vehicle).forEach(pair -> runs.add(new Run(moment, pair)));
            }
        }
        return runs;
    }

    /** Tells one run.
     *
     * @param run which
     * @param watcher shown the loop after each decision
     * @return what came of it
     */
    FaultOutcome tell(Run run, Consumer<ClosedLoop> watcher) {
        ReferenceRun story = stories.get(run.moment().charging);
        return new FaultRun(vehicle, story, seed).tell(run.moment(), run.faults(), watcher);
    }

    /** Tells runs on every core.
     *
     * @param runs which
     * @param done told of each outcome, one at a time
     * @param stop asked before each run
     */
    void tellAll(List<Run> runs, Consumer<FaultOutcome> done, BooleanSupplier stop) {
        ConcurrentLinkedQueue<Run> waiting = new ConcurrentLinkedQueue<>(runs);
        List<Thread> workers = new ArrayList<>();
        List<RuntimeException> failures = new ArrayList<>();
        for (int i = 0; i < Runtime.getRuntime().availableProcessors(); i++) {
            Thread worker = new Thread(() -> work(waiting, done, stop, failures), "campaign-" + i);
            worker.start();
            workers.add(worker);
        }
        for (Thread worker : workers) {
            try {
                worker.join();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
        if (!failures.isEmpty()) {
            throw failures.get(0);
        }
    }

    private void work(
            ConcurrentLinkedQueue<Run> waiting,
            Consumer<FaultOutcome> done,
            BooleanSupplier stop,
            List<RuntimeException> failures) {
        for (Run run = waiting.poll(); run != null && !stop.getAsBoolean(); run = waiting.poll()) {
            try {
                FaultOutcome outcome = tell(run, stage -> {});
                synchronized (this) {
                    done.accept(outcome);
                }
            } catch (RuntimeException e) {
                synchronized (this) {
                    failures.add(new IllegalStateException("the run \"" + run.id(vehicle) + "\" broke: " + e, e));
                }
                waiting.clear();
            }
        }
    }

    /** How many of a list belong to a shard.
     *
     * @param runs all runs
     * @param part which shard, from 1
     * @param of how many shards there are
     * @param already identifiers of runs that are done
     * @return the runs left to do, in order
     */
    List<Run> share(List<Run> runs, int part, int of, Set<String> already) {
        List<Run> mine = new ArrayList<>();
        for (int i = 0; i < runs.size(); i++) {
            if (i % of == part - 1 && !already.contains(runs.get(i).id(vehicle))) {
                mine.add(runs.get(i));
            }
        }
        return mine;
    }

    /** How many outcomes there are of each verdict. */
    static Map<FaultOutcome.Verdict, Integer> count(List<FaultOutcome> outcomes) {
        Map<FaultOutcome.Verdict, Integer> counts = new EnumMap<>(FaultOutcome.Verdict.class);
        for (FaultOutcome.Verdict verdict : FaultOutcome.Verdict.values()) {
            counts.put(verdict, 0);
        }
        outcomes.forEach(outcome -> counts.merge(outcome.verdict(), 1, Integer::sum));
        return counts;
    }
}
