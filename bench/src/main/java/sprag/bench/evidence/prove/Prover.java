package sprag.bench.evidence.prove;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import sprag.bench.evidence.prove.explore.Exploration;
import sprag.bench.evidence.prove.explore.Explorer;
import sprag.bench.evidence.prove.explore.Machine;
import sprag.bench.evidence.prove.explore.Observer;
import sprag.bench.evidence.prove.explore.Recalled;
import sprag.bench.evidence.prove.explore.Recollection;
import sprag.bench.evidence.prove.explore.Trace;
import sprag.bench.evidence.prove.explore.Watched;
import sprag.bench.evidence.prove.promise.Goal;
import sprag.bench.evidence.prove.promise.HistoryPromise;
import sprag.bench.evidence.prove.promise.Idle;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.evidence.prove.promise.PromiseLimits;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.Transition;

/**
 * Explores the shipped Logic of a vehicle completely: once for all promises, then once for each group of histories.
 *
 * <p>The explorations are independent of each other and share the cores; each visits every reachable state, or says that it
 * did not.
 */
final class Prover {
    /** A gross defect makes the machine many times larger than it is when sound: some million transitions. */
    static final long PATIENCE = 10_000_000;

    /**
     * What an exploration tries at the most. With every wait of a vehicle at the end of its range the largest one of a sound Logic
     * tries 435 million, in 3.7 million states.
     */
    static final long MOST_TRANSITIONS = 1_000_000_000;

    /** The largest exploration of a sound Logic has 3.7 million, see {@link #MOST_TRANSITIONS}. */
    static final long MOST_UNASKED = 10_000_000;

    private final Settings settings;
    private Settings promised;
    private Set<Interlock> without = EnumSet.noneOf(Interlock.class);
    private long maxStates = MOST_UNASKED;
    private long patience = PATIENCE;
    private long maxTransitions = MOST_TRANSITIONS;
    private int workers = 1;
    private boolean stopEarly; // as soon as one promise is found broken
    private boolean gated;
    private boolean witnesses;
    private ProofProgress progress = ProofProgress.SILENT;
    private BooleanSupplier interrupted = () -> false;
    private Set<String> ignored = Set.of();
    private boolean asksEveryTime;
    private Recollection known = new Recollection();

    Prover(Settings settings) {
        this.settings = settings;
        this.promised = settings;
    }

    /** The values that the promises speak of, where they are not those of Logic. */
    Prover promised(Settings values) {
        promised = values;
        return this;
    }

    /** Takes interlocks out. */
    Prover without(Set<Interlock> rows) {
        without = rows;
        known = new Recollection();
        return this;
    }

    /** Begins with what was found out about a Logic that is the same in some states. */
    Prover knowing(Recollection before) {
        known = before;
        return this;
    }

    /** What it has found out. */
    Recollection known() {
        return known;
    }

    /** Gives the Gate the last word. */
    Prover gated(boolean withGate) {
        gated = withGate;
        return this;
    }

    /** Leaves out promises that are known to be broken anyway. */
    Prover ignoring(Set<String> names) {
        ignored = names;
        return this;
    }

    /** Also tells for each promise the shortest run in which it has something to say. */
    Prover witnesses(boolean wanted) {
        witnesses = wanted;
        return this;
    }

    /** Asks the promises about every tick that is tried, and recalls nothing: slow, for comparison. */
    Prover asksEveryTime(boolean every) {
        asksEveryTime = every;
        return this;
    }

    /** Tells somebody how far it is. */
    Prover progress(ProofProgress listener) {
        progress = listener;
        return this;
    }

    /** Gives up when asked to; what was found until then is kept. */
    Prover stopWhen(BooleanSupplier asked) {
        interrupted = asked;
        return this;
    }

    Prover workers(int threads) {
        workers = threads;
        return this;
    }

    Prover maxStates(long most) {
        maxStates = most;
        return this;
    }

    /** How many transitions an exploration tries at the most. */
    Prover maxTransitions(long most) {
        maxTransitions = most;
        return this;
    }

    /** How many transitions an exploration still tries after it has found a promise broken. */
    Prover patience(long transitions) {
        patience = transitions;
        return this;
    }

    /** One exploration to be made: the promises, or a group of histories. */
    private final class Job {
        final List<Promise> promises;
        final List<HistoryPromise> histories;

        Job(List<Promise> promises, List<HistoryPromise> histories) {
            this.promises = promises;
            this.histories = histories;
        }

        Object watchers() {
            return List.of(gated, PromiseLimits.of(promised), promises, histories);
        }

        Watched<Tick> machine() {
            PromiseLimits limits = PromiseLimits.of(promised);
            List<Observer<Tick>> watchers =
                    histories.stream().map(row -> row.watcher(limits)).toList();
            return new Watched<>(new Tick(settings, promised, without, gated), promises, watchers);
        }

        String watches() {
            return promises.isEmpty()
                    ? histories.stream().map(HistoryPromise::name).collect(Collectors.joining(" "))
                    : promises.size() + " promises about single ticks";
        }

        int size() {
            return promises.size() + histories.size();
        }

        /** Whether the i-th row is a promise about single ticks; the histories come after them. */
        private boolean single(int i) {
            return i < promises.size();
        }

        private HistoryPromise history(int i) {
            return histories.get(i - promises.size());
        }

        String name(int i) {
            return single(i) ? promises.get(i).name() : history(i).name();
        }

        String hazard(int i) {
            return single(i) ? promises.get(i).hazard : history(i).hazard;
        }

        String explanation(int i) {
            return single(i) ? promises.get(i).explanation() : history(i).explanation;
        }

        int broken(Watched<Tick> machine, int i) {
            return single(i) ? machine.eventOfProperty(i) : machine.eventOfObserver(i - promises.size());
        }

        int applies(Watched<Tick> machine, int i) {
            return single(i) ? machine.eventOfConcern(i) : machine.eventOfApplying(i - promises.size());
        }

        Done run() {
            Supplier<Machine> machines = () -> asksEveryTime ? machine() : new Recalled<>(machine(), known, watchers());
            Watched<Tick> machine = machine();
            String watches = watches();
            Explorer explorer = Explorer.of(machines)
                    .maxStates(maxStates)
                    .maxTransitions(maxTransitions)
                    .stopWhen(interrupted)
                    .giveUpAfter(patience, IntStream.range(0, size()).map(i -> broken(machine, i)))
                    .progress((depth, states, transitions, seen) -> {
                        progress.after(watches, depth, transitions);
                        for (int i = 0; i < size(); i++) {
                            if (seen.test(broken(machine, i))) {
                                progress.broken(hazard(i) + " " + name(i), depth + 1);
                            }
                        }
                    });
            if (stopEarly) {
                for (int i = 0; i < size(); i++) {
                    explorer.stopAt(broken(machine, i));
                }
            }
            return new Done(this, machine, explorer.explore());
        }
    }

    /** An exploration that was made. */
    private final class Done {
        private final Job job;
        private final Watched<Tick> machine;
        private final Exploration found;

        Done(Job job, Watched<Tick> machine, Exploration found) {
            this.job = job;
            this.machine = machine;
            this.found = found;
        }

        /** After an interruption without witnesses: to find them takes as long as the exploration did. */
        List<Proof.Verdict> verdicts() {
            boolean withWitnesses = witnesses && !interrupted.getAsBoolean();
            IntStream rows = IntStream.range(0, job.size());
            IntStream wanted = rows.flatMap(i -> withWitnesses
                    ? IntStream.of(job.broken(machine, i), job.applies(machine, i))
                    : IntStream.of(job.broken(machine, i)));
            Map<Integer, Trace> traces = found.traces(wanted);
            return IntStream.range(0, job.size())
                    .mapToObj(i -> verdict(i, traces))
                    .toList();
        }

        private Proof.Verdict verdict(int i, Map<Integer, Trace> traces) {
            int applies = job.applies(machine, i);
            int applied = found.happened(applies) ? found.stepsTo(applies) : 0;
            return new Proof.Verdict(
                    job.name(i),
                    job.hazard(i),
                    job.explanation(i),
                    story(traces.get(job.broken(machine, i))),
                    story(traces.get(applies)),
                    applied,
                    applied == 0 && found.complete() ? Idle.why(job.name(i), PromiseLimits.of(promised)) : "");
        }

        private Optional<Counterexample> story(Trace trace) {
            return Optional.ofNullable(trace).map(way -> Counterexample.tell(way, machine));
        }

        Proof.Pass pass() {
            return new Proof.Pass(
                    job.watches(),
                    found.size(),
                    found.complete(),
                    found.stoppedBy().orElse(""));
        }
    }

    /** Explores. Returns what holds and what does not. */
    Proof prove() throws InterruptedException {
        List<Done> done = inParallel(jobs());
        List<Proof.Verdict> verdicts =
                done.stream().flatMap(each -> each.verdicts().stream()).toList();
        List<Proof.Pass> passes = done.stream().map(Done::pass).toList();
        return new Proof(without, verdicts, unreached(done.get(0).found), passes);
    }

    private List<Job> jobs() {
        List<Job> jobs = new ArrayList<>();
        jobs.add(new Job(
                Arrays.stream(Promise.values())
                        .filter(row -> !ignored.contains(row.name()))
                        .toList(),
                List.of()));
        Arrays.stream(HistoryPromise.values())
                .filter(row -> !ignored.contains(row.name()))
                .collect(Collectors.groupingBy(row -> row.group))
                .forEach((group, rows) -> jobs.add(new Job(List.of(), rows)));
        return jobs;
    }

    /** An exploration ended before every state was visited, and nothing was broken so far. */
    static final class IncompleteException extends IllegalStateException {
        private static final long serialVersionUID = 1;

        IncompleteException(String why) {
            super(why);
        }
    }

    /**
     * Looks for the shortest way to break any promise, one exploration after the other, on the calling thread. Returns
     * the first that is broken, or nothing.
     */
    Optional<Proof.Verdict> firstBroken() {
        stopEarly = true;
        for (Job job : jobs()) {
            Done done = job.run();
            Optional<Proof.Verdict> first = done.verdicts().stream()
                    .filter(verdict -> !verdict.holds())
                    .min(Comparator.comparingInt(
                            verdict -> verdict.story().get().ticks().size()));
            if (first.isPresent()) {
                return first;
            }
            if (!done.found.complete()) {
                throw new IncompleteException(done.found.stoppedBy().orElse(""));
            }
        }
        return Optional.empty();
    }

    private List<Done> inParallel(List<Job> jobs) throws InterruptedException {
        ExecutorService threads = Executors.newFixedThreadPool(workers);
        try {
            List<Future<Done>> running =
                    jobs.stream().map(job -> threads.submit(job::run)).toList();
            List<Done> done = new ArrayList<>();
            for (Future<Done> each : running) {
                done.add(each.get());
            }
            return done;
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            throw new IllegalStateException("an exploration failed: " + e.getCause(), e.getCause());
        } finally {
            threads.shutdownNow();
        }
    }

    /** What is written in the code but cannot happen. Interlocks that only warn, and those taken out, are not asked for. */
    private List<Proof.Unreached> unreached(Exploration found) {
        List<Proof.Unreached> dead = new ArrayList<>();
        for (State state : State.values()) {
            note(found, Tick.label(state), "state", state, dead);
        }
        for (Step step : Step.values()) {
            note(found, Tick.label(step), "step", step, dead);
        }
        for (Transition transition : Transition.values()) {
            note(found, Tick.label(transition), "transition", transition, dead);
        }
        for (Interlock row : Interlock.values()) {
            if (row.response != sprag.supervisor.vocabulary.Response.WARN && !without.contains(row)) {
                note(found, Tick.label(row), "interlock", row, dead);
            }
        }
        for (ChargePhase phase : ChargePhase.values()) {
            note(found, Tick.label(phase), "charge phase", phase, dead);
        }
        for (Goal goal : Goal.values()) {
            note(found, Tick.label(goal), "goal", goal, dead);
        }
        return dead;
    }

    private static void note(Exploration found, int label, String kind, Enum<?> which, List<Proof.Unreached> dead) {
        if (!found.happened(label)) {
            dead.add(new Proof.Unreached(kind, which.name()));
        }
    }
}
