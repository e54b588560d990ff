package sprag.bench.evidence.prove.explore;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.concurrent.BrokenBarrierException;
import java.util.concurrent.CyclicBarrier;
import java.util.function.BooleanSupplier;
import java.util.function.IntPredicate;
import java.util.function.Supplier;
import java.util.function.ToLongFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Visits every reachable state of a machine, breadth first.
 *
 * <p>States, transitions, depth and the first occurrence of each event are the same however many workers share the work.
 */
public final class Explorer {
    private static final int BATCH_ALONE = 1 << 11;
    private static final int BATCH_SHARED = 1 << 16;
    private static final int MOST_WORKERS = 64;
    private static final long NOT_SEEN = -1;

    private final Supplier<? extends Machine> machines;
    private final BitSet stopAt = new BitSet();
    private final BitSet impatientAt = new BitSet();
    private long patience = Long.MAX_VALUE;
    private int workers = 1;
    private long maxStates = Long.MAX_VALUE;
    private long maxTransitions = Long.MAX_VALUE;
    private int maxDepth = Integer.MAX_VALUE;
    private Progress progress = (depth, states, transitions, seen) -> {};
    private BooleanSupplier interrupted = () -> false;

    /** Told after each depth. */
    public interface Progress {
        /** A depth has been worked off; {@code seen} tells whether an event has been seen. */
        void after(int depth, long states, long transitions, IntPredicate seen);
    }

    private Explorer(Supplier<? extends Machine> machines) {
        this.machines = machines;
    }

    /**
     * An explorer with one worker and no limits.
     *
     * @param machines makes the machine; called once for each worker and once for traces
     */
    public static Explorer of(Supplier<? extends Machine> machines) {
        return new Explorer(machines);
    }

    /** Shares the work.
     *
     * @param count how many threads, 1 to 64
     */
    public Explorer workers(int count) {
        if (count < 1 || count > MOST_WORKERS) {
            throw new IllegalArgumentException(count + " workers is outside 1.." + MOST_WORKERS);
        }
        workers = count;
        return this;
    }

    /** Gives up soon after this many states have been found, if more are waiting. */
    public Explorer maxStates(long count) {
        maxStates = count;
        return this;
    }

    /** Gives up soon after this many transitions have been tried, if more states are waiting. */
    public Explorer maxTransitions(long count) {
        maxTransitions = count;
        return this;
    }

    /** Does not expand states of this depth or beyond.
     *
     * @param depth steps from the first state
     */
    public Explorer maxDepth(int depth) {
        maxDepth = depth;
        return this;
    }

    /** Stops at the end of the depth at which an event is first seen. */
    public Explorer stopAt(int event) {
        stopAt.set(event);
        return this;
    }

    /** Gives up soon after this many transitions since one of the events was seen, if more states are waiting. */
    public Explorer giveUpAfter(long transitions, IntStream events) {
        patience = transitions;
        events.forEach(impatientAt::set);
        return this;
    }

    /** Reports on the way.
     *
     * @param listener told after each depth
     */
    public Explorer progress(Progress listener) {
        progress = listener;
        return this;
    }

    /** Gives up when asked to from outside. */
    public Explorer stopWhen(BooleanSupplier asked) {
        interrupted = asked;
        return this;
    }

    /** Explores until nothing new is reachable or a limit is met. */
    public Exploration explore() {
        long startNs = System.nanoTime();
        Run run = new Run();
        if (workers == 1) {
            run.alone();
        } else {
            run.shared();
        }
        return run.result(System.nanoTime() - startNs);
    }

    /** One exploration under way. The round ends in {@link #conduct}, which one thread runs while the others wait. */
    private final class Run {
        private final Worker[] team = new Worker[workers];
        private final List<long[]> levelEnds = new ArrayList<>();
        private volatile boolean over;
        private String stoppedBy;
        private int depth;
        private long transitionsBefore = NOT_SEEN;

        Run() {
            int batch = workers == 1 ? BATCH_ALONE : BATCH_SHARED;
            for (int i = 0; i < workers; i++) {
                team[i] = new Worker(machines.get(), i, workers, batch);
            }
            long first = machines.get().initial();
            team[Worker.owner(first, workers)].start(first);
            startLevel();
        }

        void alone() {
            while (!over) {
                team[0].expandRound(depth);
                team[0].takeIn(team);
                conduct();
            }
        }

        void shared() {
            CyclicBarrier expanded = new CyclicBarrier(workers);
            CyclicBarrier takenIn = new CyclicBarrier(workers, this::conduct);
            Throwable[] failure = new Throwable[workers];
            Thread[] threads = new Thread[workers];
            for (int i = 0; i < workers; i++) {
                int id = i;
                threads[i] =
                        new Thread(() -> failure[id] = work(team[id], expanded, takenIn, threads), "explorer-" + i);
                threads[i].setDaemon(true);
                threads[i].start();
            }
            join(threads);
            rethrow(failure);
        }

        private Throwable work(Worker worker, CyclicBarrier expanded, CyclicBarrier takenIn, Thread[] threads) {
            try {
                while (!over) {
                    worker.expandRound(depth);
                    expanded.await();
                    worker.takeIn(team);
                    takenIn.await();
                }
                return null;
            } catch (BrokenBarrierException | InterruptedException e) {
                return e;
            } catch (RuntimeException | Error e) {
                sendHome(threads);
                return e;
            }
        }

        /** Ends the wait of all workers: of those at a barrier, and of those that come to one later. */
        private void sendHome(Thread[] threads) {
            over = true;
            for (Thread thread : threads) {
                thread.interrupt();
            }
        }

        private void join(Thread[] threads) {
            try {
                for (Thread thread : threads) {
                    thread.join();
                }
            } catch (InterruptedException e) {
                sendHome(threads);
                Thread.currentThread().interrupt();
                throw new IllegalStateException("interrupted at depth " + depth, e);
            }
        }

        private void conduct() {
            if (totalOf(Worker::states) > maxStates) {
                stop("the limit of " + maxStates + " states was reached at depth " + depth);
                return;
            }
            if (interrupted.getAsBoolean()) {
                stop("it was interrupted at depth " + depth);
                return;
            }
            for (Worker worker : team) {
                if (worker.events().mostBranches() > 0) {
                    stop("a state at depth " + depth + " has more than "
                            + worker.events().mostBranches() + " successors");
                    return;
                }
                if (worker.hasMore()) {
                    stopWhenTooMuch();
                    return;
                }
            }
            settleEvents();
            progress.after(depth, totalOf(Worker::states), totalOf(Worker::transitions), team[0].events()::happened);
            depth++;
            startLevel();
        }

        /** Only called while states are waiting: what ended by itself is complete, however long it took. */
        private void stopWhenTooMuch() {
            long now = totalOf(Worker::transitions);
            if (now > maxTransitions) {
                stop("the limit of " + maxTransitions + " transitions was reached at depth " + depth);
            }
            if (transitionsBefore == NOT_SEEN && team[0].events().firstOf(impatientAt) >= 0) {
                transitionsBefore = now;
            }
            if (transitionsBefore != NOT_SEEN && now - transitionsBefore > patience) {
                stop("more than " + patience + " transitions were tried after the first finding, up to depth " + depth);
            }
        }

        private void startLevel() {
            long waiting = 0;
            long[] ends = new long[workers];
            for (int i = 0; i < workers; i++) {
                waiting += team[i].nextLevel();
                ends[i] = team[i].levelEnd();
            }
            if (waiting == 0) {
                over = true;
                return;
            }
            levelEnds.add(ends);
            stopWhenTooMuch();
            if (depth >= maxDepth) {
                stop("the limit of " + maxDepth + " steps was reached");
            } else if (team[0].events().firstOf(stopAt) >= 0) {
                stop("event " + team[0].events().firstOf(stopAt) + " was seen at depth " + depth);
            }
        }

        private void stop(String reason) {
            stoppedBy = reason;
            over = true;
        }

        /** All workers agree on the first occurrence of each event. */
        private void settleEvents() {
            Successors agreed = team[0].events();
            for (int i = 1; i < workers; i++) {
                agreed.learnFrom(team[i].events());
            }
            agreed.settle();
            for (int i = 1; i < workers; i++) {
                team[i].events().learnFrom(agreed);
                team[i].events().settle();
            }
        }

        Exploration result(long tookNs) {
            settleEvents();
            long states = totalOf(Worker::states);
            Levels levels = new Levels(Stream.of(team).map(Worker::queue).toArray(LongQueue[]::new), levelEnds);
            Exploration.Size size = new Exploration.Size(
                    states, totalOf(Worker::transitions), levelEnds.size(), totalOf(Worker::bytes), tookNs);
            return new Exploration(size, stoppedBy, team[0].events(), levels, machines);
        }

        private long totalOf(ToLongFunction<Worker> figure) {
            long total = 0;
            for (Worker worker : team) {
                total += figure.applyAsLong(worker);
            }
            return total;
        }
    }

    private static void rethrow(Throwable[] failure) {
        Throwable cause = null;
        for (Throwable each : failure) {
            boolean consequence = each instanceof BrokenBarrierException || each instanceof InterruptedException;
            if (each != null && (cause == null || !consequence)) {
                cause = each;
            }
        }
        if (cause instanceof RuntimeException) {
            throw (RuntimeException) cause;
        }
        if (cause instanceof Error) {
            throw (Error) cause;
        }
        if (cause != null) {
            throw new IllegalStateException("a worker was stopped: " + cause, cause);
        }
    }
}
