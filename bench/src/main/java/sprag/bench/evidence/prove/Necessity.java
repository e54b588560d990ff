package sprag.bench.evidence.prove;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BooleanSupplier;
import java.util.function.IntConsumer;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import sprag.bench.evidence.prove.explore.Recollection;
import sprag.bench.evidence.prove.promise.PromiseLimits;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;

/**
 * What each interlock and each wait is needed for: which promise breaks when it is taken out or changed by one tick,
 * and after how many ticks.
 *
 * @param rows one for each
 */
record Necessity(List<Row> rows) {
    /** The waits that Logic counts. */
    static final List<Parameter> WAITS = List.of(
            Parameter.CONTACTOR_WELD_TEST_MS,
            Parameter.CONTACTOR_CLOSE_MS,
            Parameter.CONTACTOR_RELEASE_MS,
            Parameter.CONTACTOR_OVERLAP_MS,
            Parameter.PRECHARGE_FAST_MS,
            Parameter.PRECHARGE_MIN_MS,
            Parameter.PRECHARGE_TIMEOUT_MS,
            Parameter.RUNDOWN_WAIT_MS,
            Parameter.RUNDOWN_SPIN_MS);

    /** How many things are tried. */
    static final int TASKS = Interlock.values().length + 2 * WAITS.size();

    /**
     * One thing taken out or weakened.
     *
     * @param of the interlock's id, or the key of a wait
     * @param change by how much the wait was changed; empty for an interlock
     * @param hazard what it is there for; empty for a wait
     * @param broken the promise that breaks first; none when nothing does
     * @param gated what breaks first with the Gate in place
     * @param isKnown whether it was explored to the end
     * @param note why nothing breaks, or why that is not known
     */
    record Row(
            String of,
            String change,
            String hazard,
            Optional<Proof.Verdict> broken,
            Optional<Proof.Verdict> gated,
            boolean isKnown,
            String note) {
        /** The interlock's id, or a wait and by how much it was changed. */
        String what() {
            return change.isEmpty() ? of : of + " " + change;
        }

        /** Whether this needs somebody's attention: nothing breaks, and nobody knows why. */
        boolean finding() {
            return broken.isEmpty() && (note.isEmpty() || !isKnown);
        }

        /** What breaks nothing, or why that is not known. */
        String nothing() {
            return note.isEmpty() ? "nothing: a finding" : note;
        }
    }

    /** Takes out each interlock in turn and weakens each wait.
     *
     * @param brokenAnyway promises that do not hold even with everything in place
     * @param known what was found out about the same Logic with everything in place; more is added to it
     * @param done told how many of {@link #TASKS} are done, in any thread
     * @param stop whether to give up; what was not tried is then not known
     */
    static Necessity of(
            Settings settings,
            Set<String> brokenAnyway,
            Recollection known,
            int workers,
            IntConsumer done,
            BooleanSupplier stop)
            throws InterruptedException {
        Trial trial = new Trial(settings, brokenAnyway, known, stop);
        trial.learn(workers);
        List<Callable<Row>> tasks = new ArrayList<>();
        for (Interlock row : Interlock.values()) {
            tasks.add(() -> explored(row.id(), "", row.hazard, () -> trial.without(row)));
        }
        for (Parameter wait : WAITS) {
            tasks.add(() -> explored(wait.key(), changed(-1), "", () -> trial.weakened(wait, -1)));
            tasks.add(() -> explored(wait.key(), changed(1), "", () -> trial.weakened(wait, 1)));
        }
        assert tasks.size() == TASKS : tasks.size();
        ExecutorService threads = Executors.newFixedThreadPool(workers);
        AtomicInteger count = new AtomicInteger();
        Collections.reverse(tasks); // the waits take longest: whoever begins with them is not waited for at the end
        List<Callable<Row>> counted = tasks.stream()
                .map(task -> (Callable<Row>) () -> {
                    Row row = task.call();
                    done.accept(count.incrementAndGet());
                    return row;
                })
                .toList();
        try {
            List<Row> rows = new ArrayList<>();
            for (Future<Row> each : threads.invokeAll(counted)) {
                rows.add(each.get());
            }
            Collections.reverse(rows);
            return new Necessity(together(rows));
        } catch (ExecutionException e) {
            throw new IllegalStateException("an exploration failed: " + e.getCause(), e.getCause());
        } finally {
            threads.shutdownNow();
        }
    }

    /** A row, or that it is not known. */
    private static Row explored(String of, String change, String hazard, Supplier<Row> row) {
        try {
            return row.get();
        } catch (Prover.IncompleteException e) {
            return new Row(
                    of, change, hazard, Optional.empty(), Optional.empty(), false, "not known: " + e.getMessage());
        }
    }

    private static Row harmless(String of, String change, String hazard, String note) {
        return new Row(of, change, hazard, Optional.empty(), Optional.empty(), true, note);
    }

    private static String changed(int ticks) {
        return ticks < 0 ? "one tick shorter" : "one tick longer";
    }

    /** What each thing that is tried begins with. */
    private record Trial(Settings settings, Set<String> brokenAnyway, Recollection known, BooleanSupplier stop) {
        /** Explores the whole Logic, alone and with the Gate, so that nothing of it need be found out twice. */
        void learn(int workers) throws InterruptedException {
            for (boolean gated : new boolean[] {false, true}) {
                prover(settings).knowing(known).workers(workers).gated(gated).prove();
            }
        }

        Row without(Interlock row) {
            if (row.response == Response.WARN) {
                return harmless(row.id(), "", row.hazard, "only warns; Logic decides nothing by it");
            }
            Prover prover = prover(settings).without(EnumSet.of(row)).knowing(known.of(Unchanged.without(row)));
            Optional<Proof.Verdict> broken = prover.firstBroken();
            Optional<Proof.Verdict> gated = prover.gated(true).firstBroken();
            return new Row(row.id(), "", row.hazard, broken, gated, true, "");
        }

        Row weakened(Parameter wait, int ticks) {
            double tickMs = settings.get(Parameter.LOOP_TICK_MS);
            double changedMs = settings.get(wait) + ticks * tickMs;
            String change = changed(ticks);
            if (changedMs < wait.min() || changedMs > wait.max()) {
                return harmless(wait.key(), change, "", "would be outside the parameter's range");
            }
            Settings weak = settings.with(wait, changedMs);
            if (PromiseLimits.of(weak).equals(PromiseLimits.of(settings))) {
                return harmless(wait.key(), change, "", "changes nothing here: a longer wait covers it");
            }
            Optional<Proof.Verdict> broken = prover(weak)
                    .promised(settings)
                    .knowing(known.of(Unchanged.weakened(settings, weak, wait)))
                    .firstBroken();
            return new Row(wait.key(), change, "", broken, broken, true, "");
        }

        private Prover prover(Settings values) {
            return new Prover(values).ignoring(brokenAnyway).stopWhen(stop);
        }
    }

    /**
     * A wait is needed when a change in one direction breaks a promise. A change in the other direction that breaks
     * nothing is then no finding. One that was not explored stays unknown.
     */
    static List<Row> together(List<Row> rows) {
        Set<String> needed = rows.stream()
                .filter(row -> row.broken().isPresent())
                .map(Row::of)
                .collect(Collectors.toSet());
        return rows.stream()
                .map(row -> row.finding() && row.isKnown() && needed.contains(row.of())
                        ? harmless(row.of(), row.change(), row.hazard(), "only the other way matters")
                        : row)
                .toList();
    }

    List<Row> findings() {
        return rows.stream().filter(Row::finding).toList();
    }
}
