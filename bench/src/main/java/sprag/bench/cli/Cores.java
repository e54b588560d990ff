package sprag.bench.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.BooleanSupplier;
import java.util.function.IntConsumer;
import java.util.function.IntFunction;

/** Does independent pieces of work on every core. The results come in the order of the pieces, whoever is first. */
public final class Cores {
    /** So many pieces wait for a core at most: a long list costs no memory. */
    private static final int AHEAD = 64;

    private Cores() {}

    /** Does the pieces 0 to count - 1.
     *
     * @param work makes the result of a piece; called in any thread
     * @param done told, in the caller's thread, how many pieces are done
     * @param stop asked before each piece; the pieces after a stop are left out
     * @return the results up to the first piece that was left out
     */
    public static <T> List<T> each(int count, IntFunction<T> work, IntConsumer done, BooleanSupplier stop) {
        ExecutorService pool = Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        List<T> results = new ArrayList<>();
        List<Future<Optional<T>>> begun = new ArrayList<>();
        try {
            for (int i = 0; i < count; i++) {
                while (begun.size() < Math.min(count, i + AHEAD)) {
                    int piece = begun.size();
                    begun.add(pool.submit(
                            () -> stop.getAsBoolean() ? Optional.<T>empty() : Optional.of(work.apply(piece))));
                }
                Optional<T> result = begun.get(i).get();
                begun.set(i, null);
                if (result.isEmpty()) {
                    return results;
                }
                results.add(result.get());
                done.accept(i + 1);
            }
            return results;
        } catch (ExecutionException e) {
            throw e.getCause() instanceof RuntimeException broken
                    ? broken
                    : new IllegalStateException(e.getCause().toString(), e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return results;
        } finally {
            pool.shutdownNow();
        }
    }
}
