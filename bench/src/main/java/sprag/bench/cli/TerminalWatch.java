package sprag.bench.cli;

import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;

/**
 * Ends the program when the terminal that it was started from is gone: a window was closed, a remote line was lost.
 *
 * <p>The system sends SIGHUP then, which ends a Java program. That signal does not always come: a shell may not pass it
 * on, and a program can be started so that it is ignored. So this watch checks two things itself: whether the terminal
 * can still be opened and, for a program that is started through a pipe, whether the pipe has ended.
 */
public final class TerminalWatch {
    /** What a shell reports for a program that SIGHUP has ended: 128 and the number of the signal. */
    public static final int STATUS = 129;

    private static final Path TERMINAL = Path.of("/dev/tty");
    private static final Path INPUT = Path.of("/proc/self/fd/0");
    private static final Path OWN_STATUS = Path.of("/proc/self/status");
    private static final long LOOK_EVERY_NS = 50_000_000;

    private static boolean isProgram;

    private TerminalWatch() {}

    /** Says that this is the program itself: only then may a watch end it. A test that calls a command is not the program. */
    public static void isProgram() {
        isProgram = true;
    }

    /** Begins to watch, on threads of its own.
     *
     * @param boardAttached with a board the terminal is watched in any case, without one only when the program was not
     *     started to survive a hang-up
     * @param input the standard input when nothing else reads it, else null
     */
    public static void start(boolean boardAttached, InputStream input) {
        if (!isProgram || !boardAttached && isHangUpIgnored()) {
            return;
        }
        if (isTerminalThere()) {
            daemon("terminal watch", () -> {
                await(TerminalWatch::isTerminalThere, LOOK_EVERY_NS);
                end("the terminal is gone");
            });
        }
        if (boardAttached && input != null && isPipe()) {
            daemon("input watch", () -> {
                readToTheEnd(input);
                end("the standard input has ended");
            });
        }
    }

    /** Waits until a condition no longer holds. */
    static void await(BooleanSupplier stillSo, long lookEveryNs) {
        while (stillSo.getAsBoolean()) {
            LockSupport.parkNanos(lookEveryNs);
        }
    }

    /** Returns when an input has ended or cannot be read any more: both mean that nobody is at its other end. */
    static void readToTheEnd(InputStream input) {
        try {
            input.transferTo(java.io.OutputStream.nullOutputStream());
        } catch (IOException e) {
            System.err.println("sprag: the standard input cannot be read: " + e.getMessage());
        }
    }

    private static void daemon(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    /** What releases the outputs and finishes the files runs in the hooks of this exit. */
    private static void end(String why) {
        // On a thread of its own: where nobody reads the words, they may wait for ever, and the release must not.
        daemon("last words", () -> System.err.println("sprag: " + why + "; every output is released"));
        System.exit(STATUS);
    }

    /** Whether the terminal of this program can be opened. It cannot when there is none, or when it was hung up. */
    private static boolean isTerminalThere() {
        try (FileInputStream terminal = new FileInputStream(TERMINAL.toFile())) {
            return terminal.getFD().valid();
        } catch (IOException e) {
            return false;
        }
    }

    /** Whether the standard input is a file. Its end says nothing about the person; the end of anything else does. */
    public static boolean isInputFile() {
        return Files.isRegularFile(INPUT);
    }

    private static boolean isPipe() {
        try {
            String kind = Files.readSymbolicLink(INPUT).toString();
            return kind.startsWith("pipe:") || kind.startsWith("socket:");
        } catch (IOException | UnsupportedOperationException e) {
            return false; // no such folder on this system: the signal and the terminal remain
        }
    }

    private static boolean isHangUpIgnored() {
        try {
            return Files.readAllLines(OWN_STATUS).stream()
                    .filter(line -> line.startsWith("SigIgn:"))
                    .anyMatch(line -> (Long.parseUnsignedLong(line.substring(7).trim(), 16) & 1) != 0);
        } catch (IOException e) {
            return false; // not Linux
        }
    }
}
