package sprag.bench.evidence.campaign;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletionService;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorCompletionService;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import sprag.bench.bus.BusFile;
import sprag.bench.car.FaultSpec;
import sprag.bench.drawing.live.Fault;
import sprag.bench.evidence.campaign.play.DoubleFault;
import sprag.bench.evidence.campaign.play.FaultMoment;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultRig;
import sprag.bench.evidence.campaign.play.FaultRun;
import sprag.bench.evidence.campaign.play.ReferenceRun;
import sprag.bench.evidence.campaign.play.RelayRig;
import sprag.bench.evidence.campaign.play.SupervisedRig;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.wired.WiredPlan;

/** All runs of a campaign on one vehicle, played on every core. */
final class Campaign {
    /**
     * One run to be played.
     *
     * @param moment when the faults come
     * @param faults their names, each with its usual magnitude
     */
    record Run(FaultMoment moment, List<String> faults) {
        String id(Vehicle vehicle) {
            return vehicle.name() + " " + moment.key() + " " + String.join(FaultOutcome.PAIR, faults);
        }
    }

    private final Vehicle vehicle;
    private final BusFile bus;
    private final long seed;
    private final WiredPlan wires;
    private final ChipSeat seat;
    private final Map<Boolean, ReferenceRun> references;
    private boolean allPairs;

    Campaign(Vehicle vehicle, long seed) {
        this(vehicle, null, null, seed, ChipSeat.empty());
    }

    /** The same with a data bus between a part of the car and the supervisor, and with the faults of that bus.
     *
     * @param bus which messages, null for none
     */
    Campaign(Vehicle vehicle, BusFile bus, long seed) {
        this(vehicle, bus, null, seed, ChipSeat.empty());
    }

    /** The same with all that can be chosen.
     *
     * @param wires the drawn circuit, whose faults are then played in place of the car's; null for none
     * @param seat a chip that decides in each run with a fault
     */
    Campaign(Vehicle vehicle, BusFile bus, WiredPlan wires, long seed, ChipSeat seat) {
        this.vehicle = vehicle;
        this.bus = bus;
        this.wires = wires;
        this.seat = seat;
        this.seed = seed;
        references =
                Map.of(false, new ReferenceRun(vehicle, rig(), false), true, new ReferenceRun(vehicle, rig(), true));
    }

    /** A car at rest and what decides in it. */
    FaultRig rig() {
        return CarParameter.hasRelays(vehicle)
                ? RelayRig.of(vehicle, wires, seed)
                : SupervisedRig.of(vehicle, bus, wires, seed);
    }

    /** Moments that the run without a fault never reaches on this vehicle; there should be none. */
    List<FaultMoment> missing() {
        List<FaultMoment> missing = new ArrayList<>();
        for (FaultMoment moment : FaultMoment.values()) {
            if (!references.get(moment.charging).moments.containsKey(moment)) {
                missing.add(moment);
            }
        }
        return missing;
    }

    /** Every run, singles first, in an order that does not change. */
    List<Run> runs() {
        List<String> singles = singles();
        List<Run> runs = new ArrayList<>();
        for (FaultMoment moment : FaultMoment.values()) {
            if (references.get(moment.charging).moments.containsKey(moment)) {
                singles.forEach(fault -> runs.add(new Run(moment, List.of(fault))));
            }
        }
        for (FaultMoment moment : FaultMoment.values()) {
            if (references.get(moment.charging).moments.containsKey(moment)) {
                pairs().forEach(pair -> runs.add(new Run(moment, pair)));
            }
        }
        return runs;
    }

    private List<String> singles() {
        if (wires != null) {
            return wires.faults().stream().map(Fault::key).distinct().toList();
        }
        List<String> singles = new ArrayList<>(
                FaultSpec.all(vehicle).stream().map(FaultSpec::name).toList());
        if (bus != null) {
            singles.addAll(BusFaults.names(bus.map()));
        }
        return singles;
    }

    private List<List<String>> pairs() {
        if (allPairs) {
            return allPairs(singles());
        }
        return wires == null ? DoubleFault.of(vehicle) : List.of();
    }

    /** Plays every pair of faults in place of the chosen ones. */
    Campaign withAllPairs() {
        allPairs = true;
        return this;
    }

    /** Every two faults of different points. What the chosen pairs name first stands first here too. */
    private List<List<String>> allPairs(List<String> singles) {
        List<List<String>> pairs = new ArrayList<>(wires == null ? DoubleFault.of(vehicle) : List.of());
        Set<Set<String>> already = pairs.stream().map(Set::copyOf).collect(Collectors.toSet());
        for (int i = 0; i < singles.size(); i++) {
            for (int k = i + 1; k < singles.size(); k++) {
                List<String> pair = List.of(singles.get(i), singles.get(k));
                if (!point(pair.get(0)).equals(point(pair.get(1))) && !already.contains(Set.copyOf(pair))) {
                    pairs.add(pair);
                }
            }
        }
        return pairs;
    }

    private static String point(String fault) {
        return fault.substring(0, Math.max(0, fault.lastIndexOf('.')));
    }

    /** The names of all faults. */
    List<String> faults() {
        return singles();
    }

    /** Whether the faults are those of the drawn circuit. */
    boolean isWired() {
        return wires != null;
    }

    /** What would notice a fault that nothing noticed. */
    String remedy(String fault) {
        return wires == null ? Remedy.of(fault) : WireRemedy.of(wires, fault);
    }

    /** Plays one run.
     *
     * @param watcher shown the rig after each decision
     */
    FaultOutcome play(Run run, Consumer<FaultRig> watcher) {
        return feel(run, watcher).outcome;
    }

    /** An outcome, and whether the driver must have noticed the fault. */
    record Felt(FaultOutcome outcome, boolean felt) {}

    /** The same, with what the driver feels. */
    Felt feel(Run run, Consumer<FaultRig> watcher) {
        FaultRig rig = rig();
        try (ChipSeat.Running chip = seat.beside(rig.base())) {
            assert chip != null;
            return feel(run, rig, watcher);
        }
    }

    /** The same, with a rig at rest that {@link #rig} has made. */
    Felt feel(Run run, FaultRig rig, Consumer<FaultRig> watcher) {
        FaultRun played = new FaultRun(vehicle, references.get(run.moment().charging), rig);
        FaultOutcome outcome = played.play(run.moment(), run.faults(), watcher);
        return new Felt(outcome, played.isFelt());
    }

    /** Plays runs on every core.
     *
     * @param done given each outcome, in the caller's thread
     * @param stop asked before each run
     */
    void playAll(List<Run> runs, Consumer<FaultOutcome> done, BooleanSupplier stop) {
        ExecutorService pool = Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        CompletionService<Optional<FaultOutcome>> played = new ExecutorCompletionService<>(pool);
        try {
            runs.forEach(run -> played.submit(() -> playUnlessStopped(run, stop)));
            for (int i = 0; i < runs.size(); i++) {
                played.take().get().ifPresent(done);
            }
        } catch (ExecutionException e) {
            throw new IllegalStateException(e.getCause().getMessage(), e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            pool.shutdownNow();
        }
    }

    private Optional<FaultOutcome> playUnlessStopped(Run run, BooleanSupplier stop) {
        try {
            return stop.getAsBoolean() ? Optional.empty() : Optional.of(play(run, loop -> {}));
        } catch (RuntimeException e) {
            throw new IllegalStateException("the run \"" + run.id(vehicle) + "\" broke: " + e, e);
        }
    }

    /** How many of a list belong to a shard.
     *
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
