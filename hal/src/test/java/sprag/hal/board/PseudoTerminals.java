package sprag.hal.board;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;

/** A cable between two serial ports of this machine, made by socat; it can be pulled and plugged again. */
public final class PseudoTerminals implements AutoCloseable {
    /** A watchdog against a hang for tests that wait for an event; how long the event takes decides nothing. */
    public static final long WATCHDOG_NS = 300_000_000_000L;

    private final Path near;
    private final Path far;
    private Process socat;

    public PseudoTerminals(Path folder) throws IOException {
        assumeTrue(installed("socat"), "socat is not installed: nothing is tried on pseudo-terminals");
        near = folder.resolve("near");
        far = folder.resolve("far");
        plug();
    }

    public String near() {
        return near.toString();
    }

    public String far() {
        return far.toString();
    }

    public void plug() throws IOException {
        Files.deleteIfExists(near);
        Files.deleteIfExists(far);
        socat = new ProcessBuilder("socat", "pty,raw,echo=0,link=" + near, "pty,raw,echo=0,link=" + far)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        await("both ends of the cable", WATCHDOG_NS, () -> Files.exists(near) && Files.exists(far));
    }

    public void pull() {
        socat.destroy();
        try {
            socat.waitFor();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        pull();
    }

    /** Whether a program is on the path. */
    public static boolean installed(String program) {
        for (String folder : System.getenv("PATH").split(File.pathSeparator)) {
            if (Files.isExecutable(Path.of(folder, program))) {
                return true;
            }
        }
        return false;
    }

    /** Waits for something that happens on another thread. */
    public static void await(String what, long withinNs, BooleanSupplier done) {
        long untilNs = System.nanoTime() + withinNs;
        while (!done.getAsBoolean()) {
            if (System.nanoTime() > untilNs) {
                throw new AssertionError(what + " did not come within " + withinNs / 1_000_000 + " ms");
            }
            LockSupport.parkNanos(1_000_000);
        }
    }
}
