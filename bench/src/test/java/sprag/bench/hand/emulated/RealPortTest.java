package sprag.bench.hand.emulated;

import static sprag.hal.board.PseudoTerminals.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.Sprag;
import sprag.hal.Clock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.board.PortChoice;
import sprag.hal.board.PseudoTerminals;
import sprag.hal.board.SerialPorts;

/** The whole program on a real serial port, in real time: firmware that others made answers at the far end of a pseudo-terminal. */
@Tag("realtime")
class RealPortTest {
    private static final int CONTACTOR = 10;
    /** Generous, because the machine may be busy: measured are 20 to 150 ms. The probe itself would release after 5 s. */
    private static final long RELEASED_NS = 4_000_000_000L;

    private static final long SOON_NS = 30_000_000_000L;
    private static final long STEP_NS = 500_000;
    /** A stall of the machine that is longer stops the board's clock too. */
    private static final long MOST_BEHIND_NS = 5_000_000;

    /** How a program loses the person in front of it. */
    private enum Ending {
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
        INPUT_ENDS
    }

    @TempDir
    Path folder;

    private final Clock clock = Clock.real();
    private PseudoTerminals cable;
    private Microcontroller chip;
    private Thread pump;
    private volatile boolean pumping = true;

    @BeforeEach
    void connect() throws Exception {
        chip = new Microcontroller(Microcontroller.Kind.SMALL_2_5);
        chip.keepRunning(); // the far end of a pseudo-terminal cannot see that the port was opened
        cable = new PseudoTerminals(folder);
        Port far = SerialPorts.of(PortChoice.path(cable.far()), new LineSettings(57600, LineSettings.Parity.NONE, 1));
        far.open();
        chip.line().open();
        pump = new Thread(() -> pump(far), "far end");
        pump.start();
    }

    @AfterEach
    void disconnect() throws InterruptedException {
        pumping = false;
        if (pump != null) {
            pump.join();
        }
        if (cable != null) {
            cable.close();
        }
        if (chip != null) {
            chip.close();
        }
    }

    @ParameterizedTest
    @EnumSource(Ending.class)
    void nobodyThereAnyMoreWhileDriving_released(Ending ending) throws Exception {
        Path file = map();
        boolean terminal = ending == Ending.TERMINAL_CLOSED || ending == Ending.TERMINAL_CLOSED_SIGNAL_IGNORED;
        Process started = terminal ? onATerminal(file, ending) : start(pulse(file));
        try {
            await("the contactor", SOON_NS, () -> chip.drivesHigh(CONTACTOR));
            ProcessHandle program = terminal ? java(started) : started.toHandle();
            end(ending, started, program);
            await("the release after " + ending, RELEASED_NS, () -> !chip.drivesHigh(CONTACTOR));
            await("the end of the program after " + ending, SOON_NS, () -> !program.isAlive());
        } finally {
            started.descendants().forEach(ProcessHandle::destroyForcibly);
            started.destroyForcibly();
        }
    }

    private static void end(Ending ending, Process started, ProcessHandle program) throws Exception {
        switch (ending) {
            case TERM, TERM_AGAIN -> program.destroy();
            case INT, HUP ->
                start(List.of("kill", "-" + ending, "" + program.pid())).waitFor();
            case INPUT_ENDS -> started.getOutputStream().close();
            default -> started.destroyForcibly();
        }
    }

    /** The whole panel and a rehearsal, without a board and at rest: closing the terminal ends them. */
    @ParameterizedTest
    @ValueSource(strings = {"panel yard-cart --port 0", "commission yard-cart --out OUT"})
    void terminalClosed_noBoard_ends(String words) throws Exception {
        List<String> command = new ArrayList<>(program());
        command.addAll(
                List.of(words.replace("OUT", folder.resolve("out").toString()).split(" ")));
        Process terminal = start(onATerminal(command));
        try {
            await("its first words", SOON_NS, () -> isSaid(terminal));
            ProcessHandle program = java(terminal);
            terminal.destroyForcibly();
            await("the end of " + words, SOON_NS, () -> !program.isAlive());
        } finally {
            terminal.descendants().forEach(ProcessHandle::destroyForcibly);
        }
    }

    private static boolean isSaid(Process terminal) {
        try {
            return terminal.getInputStream().available() > 0;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static ProcessHandle java(Process terminal) {
        return terminal.descendants()
                .filter(p -> p.info().command().orElse("").endsWith("java"))
                .findFirst()
                .orElseThrow();
    }

    private Path map() throws IOException {
        return Files.writeString(folder.resolve("board.toml"), """
                [board]
                name = "desk"
                protocol = "firmata"
                port = "%s"
                baud = 57600
                retry_ms = 100
                [[input]]
                signal = "key_on"
                pin = "D2"
                kind = "pull-up"
                invert = true
                [[output]]
                output = "positive_contactor"
                pin = "D10"
                kind = "digital"
                """.formatted(cable.near()));
    }

    private static List<String> program() throws IOException {
        return List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                "-Dsprag.home=" + Path.of("..").toRealPath(),
                Sprag.class.getName());
    }

    private static List<String> pulse(Path file) throws IOException {
        List<String> command = new ArrayList<>(program());
        String board = file.toString();
        command.addAll(List.of("probe", "--board", board, "--pulse", "positive_contactor", "--ms", "5000"));
        command.addAll(List.of("--confirm", "positive_contactor"));
        return command;
    }

    private Process onATerminal(Path file, Ending ending) throws IOException {
        List<String> command = new ArrayList<>();
        if (ending == Ending.TERMINAL_CLOSED_SIGNAL_IGNORED) {
            command.addAll(List.of("env", "--ignore-signal=HUP"));
        }
        command.addAll(pulse(file));
        return start(onATerminal(command));
    }

    /** In a file, because the words of the command are too long for the terminal's maker. */
    private List<String> onATerminal(List<String> command) throws IOException {
        Path script = Files.writeString(folder.resolve("start.sh"), "exec '" + String.join("' '", command) + "'\n");
        return List.of("socat", "-", "EXEC:sh " + script + ",pty,setsid,ctty,stderr");
    }

    private static Process start(List<String> command) throws IOException {
        return new ProcessBuilder(command).redirectErrorStream(true).start();
    }

    private void pump(Port far) {
        byte[] buffer = new byte[4096];
        long boardNs = 0;
        long seenNs = clock.nowNs();
        chip.advanceTo(boardNs);
        try {
            while (pumping) {
                clock.waitUntil(seenNs + STEP_NS);
                long nowNs = clock.nowNs();
                boardNs += Math.min(MOST_BEHIND_NS, nowNs - seenNs);
                seenNs = nowNs;
                chip.advanceTo(boardNs);
                exchange(far, chip.line(), buffer);
                exchange(chip.line(), far, buffer);
            }
        } catch (LinkLost e) {
            throw new IllegalStateException("the far end of the cable failed", e);
        } finally {
            far.close();
        }
    }

    private static void exchange(Port from, Port to, byte[] buffer) throws LinkLost {
        int count = from.read(buffer);
        if (count > 0) {
            to.write(buffer, count);
        }
    }
}
