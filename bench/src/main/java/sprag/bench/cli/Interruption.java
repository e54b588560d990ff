package sprag.bench.cli;

import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;

/**
 * Lets a run that is interrupted from the keyboard finish its files before the program ends.
 *
 * <p>What it may take is counted in time of the processor, so that a busy machine loses no file. A run that waits for
 * something else uses no processor: for that the clock counts too.
 */
public final class Interruption implements BooleanSupplier, AutoCloseable {
    private static final Duration MOST_WORK = Duration.ofSeconds(10);
    private static final Duration LONGEST = Duration.ofSeconds(60);
    private static final long LOOK_MS = 50;

    private final CountDownLatch finished = new CountDownLatch(1);
    private final Thread hook = new Thread(this::finish, "finish-files");
    private final Supplier<Duration> worked;
    private volatile boolean asked;

    /** Begins to listen. */
    public Interruption() {
        this(Interruption::ofTheProcessor);
    }

    Interruption(Supplier<Duration> worked) {
        this.worked = worked;
        Runtime.getRuntime().addShutdownHook(hook);
    }

    /** Asks the run to end. */
    public void ask() {
        asked = true;
    }

    /** Asks the run to end and waits until it has, but not for long. */
    public void finish() {
        ask();
        try {
            if (!hasFinished()) {
                System.err.println("sprag: the files were not finished within " + MOST_WORK.toSeconds()
                        + " s of the processor or " + LONGEST.toSeconds() + " s on the clock");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Waits. Returns false when it has taken too long. */
    boolean hasFinished() throws InterruptedException {
        Duration before = worked.get();
        for (long waitedMs = 0; waitedMs < LONGEST.toMillis(); waitedMs += LOOK_MS) {
            if (finished.await(LOOK_MS, TimeUnit.MILLISECONDS)) {
                return true;
            }
            if (worked.get().minus(before).compareTo(MOST_WORK) > 0) {
                return false;
            }
        }
        return false;
    }

    /** What this process has had of the processor; nothing where the system does not tell it. */
    private static Duration ofTheProcessor() {
        return ProcessHandle.current().info().totalCpuDuration().orElse(Duration.ZERO);
    }

    @Override
    public boolean getAsBoolean() {
        return asked;
    }

    @Override
    public void close() {
        finished.countDown();
        if (!asked) {
            Runtime.getRuntime().removeShutdownHook(hook);
        }
    }
}
