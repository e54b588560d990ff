package sprag.bench.campaign;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import sprag.bench.car.FaultSpec;
import sprag.bench.config.Vehicle;

/** All runs of a campaign on one vehicle, told on every core. */
final class Campaign {
    /**
     * One run to be told.
     *
     * @param moment when the faults come
     * @param faults which
     */
    record Run(Moment moment, List<FaultSpec> faults) {
        String id(Vehicle vehicle) {
            List<String> names = faults.stream().map(FaultSpec::name).toList();
            return vehicle.name() + " " + moment.key() + " " + String.join("+", names);
        }
    }

    private final Vehicle vehicle;
    private final long seed;
    private final Map<Boolean, Story> stories;

    Campaign(Vehicle vehicle, long seed) {
        this.vehicle = vehicle;
        this.seed = seed;
        stories = Map.of(false, new Story(vehicle, seed, false), true, new Story(vehicle, seed, true));
    }

    /** Moments that the story of this vehicle never reaches; there should be none. */
    List<Moment> missing() {
        List<Moment> missing = new ArrayList<>();
        for (Moment moment : Moment.values()) {
            if (!stories.get(moment.charging).moments.containsKey(moment)) {
                missing.add(moment);
            }
        }
        return missing;
    }

    /** Every run, singles first, in an order that does not change. */
    List<Run> runs() {
        List<Run> runs = new ArrayList<>();
        for (Moment moment : Moment.values()) {
            if (stories.get(moment.charging).moments.containsKey(moment)) {
                FaultSpec.all(vehicle).forEach(fault -> runs.add(new Run(moment, List.of(fault))));
            }
        }
        for (Moment moment : Moment.values()) {
            if (stories.get(moment.charging).moments.containsKey(moment)) {
                Doubles.of(vehicle).forEach(pair -> runs.add(new Run(moment, pair)));
            }
        }
        return runs;
    }

    /** Tells one run.
     *
     * @param run which
     * @param watcher shown the stage after each tick
     * @return what came of it
     */
    Outcome tell(Run run, Consumer<Stage> watcher) {
        Story story = stories.get(run.moment().charging);
        return new Telling(vehicle, story, seed).tell(run.moment(), run.faults(), watcher);
    }

    /** Tells runs on every core.
     *
     * @param runs which
     * @param done told of each outcome, one at a time
     * @param stop asked before each run
     */
    void tellAll(List<Run> runs, Consumer<Outcome> done, BooleanSupplier stop) {
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
            Consumer<Outcome> done,
            BooleanSupplier stop,
            List<RuntimeException> failures) {
        for (Run run = waiting.poll(); run != null && !stop.getAsBoolean(); run = waiting.poll()) {
            try {
                Outcome outcome = tell(run, stage -> {});
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
    static Map<Outcome.Verdict, Integer> count(List<Outcome> outcomes) {
        Map<Outcome.Verdict, Integer> counts = new EnumMap<>(Outcome.Verdict.class);
        for (Outcome.Verdict verdict : Outcome.Verdict.values()) {
            counts.put(verdict, 0);
        }
        outcomes.forEach(outcome -> counts.merge(outcome.verdict(), 1, Integer::sum));
        return counts;
    }
}
