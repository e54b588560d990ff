package sprag.bench.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** Lets a run that is interrupted from the keyboard finish its files before the program ends. */
public final class Interruption implements BooleanSupplier, AutoCloseable {
    private static final long GRACE_S = 5;

    private final CountDownLatch finished = new CountDownLatch(1);
    private final Thread hook = new Thread(this::finish, "finish-files");
    private volatile boolean asked;

    /** Begins to listen. */
    public Interruption() {
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
            if (!finished.await(GRACE_S, TimeUnit.SECONDS)) {
                System.err.println("sprag: the files were not finished within " + GRACE_S + " s");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
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
