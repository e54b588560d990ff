package sprag.bench.hand.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.OutputStream;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.BooleanSupplier;
import sprag.bench.Sprag;
import sprag.hal.board.PseudoTerminals;

/** The whole program as a process of its own, at a pipe or on a terminal, and the ways in which it loses the person before it. */
final class Program implements AutoCloseable {
    /** How a program loses the person in front of it. */
    enum Ending {
        /** Asked to end. The library closes its ports in a hook of its own, in no order with others: twice. */
        TERM,
        TERM_AGAIN,
        /** Ctrl-C. */
        INT,
        /** A hang-up sent by hand. */
        HUP,
        /** The terminal's other end is closed: a window, a remote line. */
        TERMINAL_CLOSED,
        /** The same for a program that was started to survive the signal. */
        TERMINAL_CLOSED_SIGNAL_IGNORED,
        /** A remote line without a terminal: only the input ends. */
        INPUT_ENDS;

        private boolean needsTerminal() {
            return this == TERMINAL_CLOSED || this == TERMINAL_CLOSED_SIGNAL_IGNORED;
        }
    }

    /** A watchdog against a hang: a bring-up of many questions takes its time on a busy machine. */
    private static final long SOON_NS = 120_000_000_000L;

    private final Process started;
    /** Sends signals. It is there beforehand, because a new process takes its time on a busy machine. */
    private final Process shell;

    private final StringBuffer said = new StringBuffer();
    private ProcessHandle itself;

    private Program(List<String> command) throws IOException {
        started = new ProcessBuilder(command).redirectErrorStream(true).start();
        shell = new ProcessBuilder("sh").start();
        Thread reader = new Thread(this::read, "what it says");
        reader.setDaemon(true);
        reader.start();
    }

    /**
     * Starts the program so that it can end in a certain way.
     *
     * @param folder for files that the start needs
     */
    static Program start(Path folder, Ending ending, String... words) throws IOException {
        List<String> command = new ArrayList<>();
        if (ending == Ending.TERMINAL_CLOSED_SIGNAL_IGNORED) {
            command.addAll(List.of("env", "--ignore-signal=HUP"));
        }
        command.addAll(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                "-Dsprag.home=" + Path.of("..").toRealPath(),
                Sprag.class.getName()));
        command.addAll(Arrays.asList(words));
        if (!ending.needsTerminal()) {
            return new Program(command);
        }
        // In a file, because the words of the command are too long for the terminal's maker.
        Path script = Files.writeString(folder.resolve("start.sh"), "exec '" + String.join("' '", command) + "'\n");
        return new Program(List.of("socat", "-", "EXEC:sh " + script + ",pty,setsid,ctty,stderr"));
    }

    private void read() {
        try (Reader reader = started.inputReader(StandardCharsets.UTF_8)) {
            char[] part = new char[1024];
            for (int count = reader.read(part); count >= 0; count = reader.read(part)) {
                said.append(part, 0, count);
            }
        } catch (IOException e) {
            said.append("\n(its output ended: ").append(e.getMessage()).append(")\n");
        }
    }

    /** Waits for something; when it does not come, the error shows what the program has said. */
    void await(String what, BooleanSupplier done) {
        try {
            PseudoTerminals.await(what, SOON_NS, done);
        } catch (AssertionError e) {
            throw new AssertionError(e.getMessage() + "; the program said:\n" + said(), e);
        }
    }

    /** Everything that it has said so far. */
    String said() {
        return said.toString().replace("\r", "");
    }

    void type(String line) {
        try {
            OutputStream keys = started.getOutputStream();
            keys.write((line + "\n").getBytes(StandardCharsets.UTF_8));
            keys.flush();
        } catch (IOException e) {
            said.append("\n(nothing more can be typed: ").append(e.getMessage()).append(")\n");
        }
    }

    /** The program itself, below the terminal where it has one. */
    ProcessHandle itself() {
        if (itself == null) {
            itself = started.descendants()
                    .filter(p -> p.info().command().orElse("").endsWith("java"))
                    .findFirst()
                    .orElse(started.toHandle());
        }
        return itself;
    }

    void end(Ending ending) throws IOException {
        switch (ending) {
            case TERM, TERM_AGAIN -> itself().destroy();
            case INT, HUP -> signal(ending.name());
            case INPUT_ENDS -> started.getOutputStream().close();
            default -> started.destroyForcibly();
        }
    }

    void signal(String name) throws IOException {
        shell.getOutputStream()
                .write(("kill -" + name + " " + itself().pid() + " && echo\n").getBytes(StandardCharsets.US_ASCII));
        shell.getOutputStream().flush();
        assertEquals('\n', shell.getInputStream().read(), "the signal was sent");
    }

    @Override
    public void close() {
        started.descendants().forEach(ProcessHandle::destroyForcibly);
        started.destroyForcibly();
        shell.destroyForcibly();
    }
}
