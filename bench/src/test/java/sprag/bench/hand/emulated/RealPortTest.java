package sprag.bench.hand.emulated;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.hand.emulated.Program.Ending;

/** The whole program on a real serial port, in real time: firmware that others made answers at the far end of a pseudo-terminal. */
@Tag("realtime")
class RealPortTest {
    /**
     * From the act to the pin: measured are 20 to 60 ms, and 110 ms where only the lost terminal shows it. Each of these programs
     * would go on driving for much longer. A machine that is busy with other things needs more: {@code -Dreleased.ms=1000}, or the
     * next try, which the Maven profile of these tests makes.
     */
    private static final long RELEASED_NS = Long.getLong("released.ms", 200) * 1_000_000;

    /** An armed board has answered; so long later its key has been seen off. */
    private static final long SEEN_OFF_MS = 500;

    /** A start takes two seconds. */
    private static final long START_MS = 4000;

    @TempDir
    Path folder;

    private EmulatedBoard board;

    @BeforeEach
    void connect() throws Exception {
        board = new EmulatedBoard(folder);
    }

    @AfterEach
    void disconnect() {
        if (board != null) {
            board.close();
        }
    }

    @ParameterizedTest
    @EnumSource(Ending.class)
    void pulse_nobodyThereAnyMore_released(Ending ending) throws Exception {
        String map = board.map().toString();
        String[] words = {
            "probe", "--board", map, "--pulse", "positive_contactor", "--ms", "5000", "--confirm", "positive_contactor"
        };
        try (Program program = Program.start(folder, ending, words)) {
            program.await("the contactor", board::isDriven);
            releasedAndEnded(program, ending);
        }
    }

    @ParameterizedTest
    @EnumSource(Ending.class)
    void panelDriving_nobodyThereAnyMore_released(Ending ending) throws Exception {
        String map = board.map().toString();
        try (Program program = Program.start(folder, ending, panel(map));
                PanelDriver driver = new PanelDriver(program)) {
            drive(program, driver);
            releasedAndEnded(program, ending);
        }
    }

    /**
     * A step of the bring-up switches the contactor on for a second. The input is a pipe here: its end means that nobody is there.
     */
    @ParameterizedTest
    @EnumSource(Ending.class)
    void commissioning_nobodyThereAnyMore_released(Ending ending) throws Exception {
        String map = board.map().toString();
        String out = folder.resolve("out").toString();
        try (Program program = Program.start(folder, ending, "commission", "yard-cart", "--board", map, "--out", out)) {
            Typist typist = new Typist(program);
            program.await("the contactor", () -> {
                typist.answer();
                return board.isDriven();
            });
            releasedAndEnded(program, ending);
        }
    }

    private void releasedAndEnded(Program program, Ending ending) throws Exception {
        ProcessHandle itself = program.itself();
        long fromNs = System.nanoTime();
        program.end(ending);
        program.await("the release after " + ending, () -> !board.isDriven());
        long tookNs = System.nanoTime() - fromNs;
        assertTrue(tookNs < RELEASED_NS, () -> "released only after " + tookNs / 1_000_000 + " ms");
        program.await("the end of the program after " + ending, () -> !itself.isAlive());
        assertFalse(board.isDriven());
    }

    /** Stopped for longer than outputs may stand without a command: it comes back, and drives nothing until it is armed again. */
    @Test
    void panelDriving_stoppedAndContinued_releasedAndNotArmed() throws Exception {
        String map = board.map().toString();
        try (Program program = Program.start(folder, Ending.TERM, panel(map));
                PanelDriver driver = new PanelDriver(program)) {
            drive(program, driver);
            program.signal("STOP");
            PanelDriver.pause(3000);
            assertTrue(board.isDriven(), "nothing can release a pin while the program stands: the watchdog relay must");
            long fromNs = System.nanoTime();
            program.signal("CONT");
            program.await("the release after the stop", () -> !board.isDriven());
            long tookNs = System.nanoTime() - fromNs;
            assertTrue(tookNs < RELEASED_NS, () -> "released only after " + tookNs / 1_000_000 + " ms");
            driver.start();
            long untilNs = System.nanoTime() + 3_000_000_000L;
            while (System.nanoTime() < untilNs) {
                assertFalse(board.isDriven(), "driven without having been armed again");
                PanelDriver.pause(1);
            }
            assertTrue(driver.isTold("armed again"), driver::lastTexts);
        }
    }

    private String[] panel(String map) {
        String out = folder.resolve("out").toString();
        return new String[] {"panel", "yard-cart", "--port", "0", "--board", map, "--out", out};
    }

    private void drive(Program program, PanelDriver driver) {
        driver.arm();
        PanelDriver.pause(SEEN_OFF_MS); // a key that was on from the beginning starts nothing
        board.chip.wire(EmulatedBoard.KEY, false);
        for (int tries = 0; tries < 12 && !board.isDriven(); tries++) {
            driver.start(); // a busy machine may need it again
            PanelDriver.pause(START_MS);
        }
        program.await("the contactor", board::isDriven);
    }

    /** The whole panel and a rehearsal, without a board and at rest: closing the terminal ends them. */
    @ParameterizedTest
    @ValueSource(
            strings = {"panel yard-cart --port 0 --out OUT", "commission yard-cart --out OUT", "run yard-cart --out OUT"
            })
    void terminalClosed_noBoard_ends(String words) throws Exception {
        String[] command =
                words.replace("OUT", folder.resolve("out").toString()).split(" ");
        try (Program program = Program.start(folder, Ending.TERMINAL_CLOSED, command)) {
            // a run of many scenarios says nothing until the first have ended, but its folder shows that it works
            boolean runs = words.startsWith("run ");
            program.await(
                    "its first words",
                    () -> !program.said().isEmpty() || runs && Files.isDirectory(folder.resolve("out")));
            ProcessHandle itself = program.itself();
            program.end(Ending.TERMINAL_CLOSED);
            program.await("the end of " + words, () -> !itself.isAlive());
        }
    }
}
