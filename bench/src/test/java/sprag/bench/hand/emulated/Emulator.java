package sprag.bench.hand.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import sprag.hal.board.PseudoTerminals;

/** The functions of {@code emulator.c}, which is compiled once in each run of the tests. Handles are those of {@link #create}. */
final class Emulator {
    private static final Path HEADER = Path.of("/usr/include/simavr/sim_avr.h");
    private static final Path JAVA_HEADER = Path.of(System.getProperty("java.home"), "include", "jni.h");

    private static boolean loaded;

    private Emulator() {}

    /** Compiles and loads the emulator; skips the test where a tool is missing. */
    static synchronized void load() {
        if (loaded) {
            return;
        }
        assumeTrue(PseudoTerminals.installed("gcc"), "gcc is not installed: no emulated board is tried");
        assumeTrue(Files.exists(HEADER), "libsimavr-dev is not installed: no emulated board is tried");
        assumeTrue(Files.exists(JAVA_HEADER), JAVA_HEADER + " is not there: no emulated board is tried");
        try {
            System.load(compiled().toString());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        loaded = true;
    }

    private static Path compiled() throws IOException {
        Path folder = Files.createTempDirectory("emulator");
        Path source = folder.resolve("emulator.c");
        Path library = folder.resolve("emulator.so");
        try (InputStream text = Emulator.class.getResourceAsStream("/firmata/emulator.c")) {
            Files.copy(text, source);
        }
        List<String> command = List.of(
                "gcc",
                "-O2",
                "-Wall",
                "-Werror",
                "-shared",
                "-fPIC",
                "-I" + JAVA_HEADER.getParent(),
                "-I" + JAVA_HEADER.resolveSibling("linux"),
                "-I" + HEADER.getParent(),
                source.toString(),
                "-lsimavr",
                "-lelf",
                "-o",
                library.toString());
        try {
            Process gcc = new ProcessBuilder(command).redirectErrorStream(true).start();
            String printed = new String(gcc.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertEquals(0, gcc.waitFor(), printed);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted while gcc was running", e);
        }
        List.of(source, library, folder).forEach(file -> file.toFile().deleteOnExit());
        return library;
    }

    static synchronized native long create(String chip, String firmware);

    static native void destroy(long handle);

    static native void restart(long handle, long bootUs);

    static native boolean advance(long handle, long us);

    static native int give(long handle, byte[] bytes, int count);

    static native int take(long handle, byte[] into);

    static native void wire(long handle, int port, int bit, int level);

    static native void volts(long handle, int channel, int millivolts);

    static native boolean isOutput(long handle, int port, int bit);

    static native boolean isHigh(long handle, int port, int bit);

    static native long sinceUs(long handle, int port, int bit);
}
