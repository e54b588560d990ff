package sprag.bench.hand.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.hand.emulated.Program.Ending;
import sprag.bench.loop.record.Recording;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;

/**
 * The panel and the bring-up as processes, with outputs driven by message on an armed data bus: whatever ends or stops them, released
 * frames come last, and then nothing. Only where a process is killed at once there is nothing but silence.
 */
@Tag("manual")
class ArmedBusTest {
    private static final long RELEASED_MS = Long.getLong("released.ms", 200);
    /** The van's pair sends at least every 100 ms: silence of so long is no pause between two frames. */
    private static final long SILENT_MS = 500;

    /** What is commanded with the pack absent, and a node whose messages show that the link is alive. */
    private static final String MESSAGES = "dash_switches|dash_lamps|charger_1_command|dcdc_command";

    @TempDir
    Path folder;

    private RealPair pair;
    private long fromMs;

    @AfterEach
    void disconnect() {
        if (pair != null) {
            pair.close();
        }
    }

    @ParameterizedTest
    @EnumSource(Ending.class)
    void panelDriving_nobodyThereAnyMore_releasedThenSilence(Ending ending) throws Exception {
        pair = new RealPair(folder, MESSAGES);
        try (Program program = Program.start(folder, ending, panel());
                PanelDriver driver = new PanelDriver(program)) {
            drive(program, driver);
            releasedAndEnded(program, ending);
        }
        framesStandInTheRecording();
    }

    private void framesStandInTheRecording() throws Exception {
        int[] counts = {0, 0};
        try (Recording recording = new Recording(folder.resolve("out/panel.sprag"))) {
            recording.listen((frame, sent, timeNs) -> counts[sent ? 1 : 0]++);
            Readings in = new Readings();
            Commands out = new Commands();
            boolean more = true;
            while (more) {
                more = recording.next(in, out);
            }
            assertEquals("", recording.missing());
        }
        assertTrue(counts[0] > 0, "frames of others were heard");
        assertEquals(pair.sent(), counts[1], "every frame that was sent stands in the recording, also the last ones");
    }

    @ParameterizedTest
    @EnumSource(Ending.class)
    void bringUpDriving_nobodyThereAnyMore_releasedThenSilence(Ending ending) throws Exception {
        pair = new RealPair(folder, MESSAGES);
        String out = folder.resolve("out").toString();
        try (Program program =
                Program.start(folder, ending, "commission", "parcel-van", "--bus", pair.file(), "--out", out)) {
            Typist typist = new Typist(program);
            program.await("a driven output", () -> {
                typist.answer();
                return pair.lastDrivenMs() >= 0;
            });
            releasedAndEnded(program, ending);
        }
    }

    private void releasedAndEnded(Program program, Ending ending) throws Exception {
        ProcessHandle itself = program.itself();
        fromMs = pair.nowMs();
        program.end(ending);
        program.await("the end of the program after " + ending, () -> !itself.isAlive());
        program.await("silence after " + ending, this::isSilent);
        assertEquals(List.of(), pair.notReleased(), "not released by their last frames");
        quickly("the last frame came", pair.lastSentMs() - fromMs);
    }

    private boolean isSilent() {
        return pair.nowMs() - Math.max(pair.lastSentMs(), fromMs) > SILENT_MS;
    }

    private static void quickly(String what, long tookMs) {
        assertTrue(tookMs < RELEASED_MS, () -> what + " only after " + tookMs + " ms");
    }

    /** Nothing can be sent any more: what hears the bus switches itself off by its own time-out. */
    @Test
    void panelDriving_killed_silence() throws Exception {
        pair = new RealPair(folder, MESSAGES);
        try (Program program = Program.start(folder, Ending.TERM, panel());
                PanelDriver driver = new PanelDriver(program)) {
            drive(program, driver);
            fromMs = pair.nowMs();
            program.signal("KILL");
            program.await("silence", this::isSilent);
            quickly("silence came", pair.lastSentMs() - fromMs);
        }
    }

    /** Stopped for longer than outputs may stand without a command: it comes back, releases, and drives nothing until armed again. */
    @Test
    void panelDriving_stoppedAndContinued_releasedAndNotArmed() throws Exception {
        pair = new RealPair(folder, MESSAGES);
        try (Program program = Program.start(folder, Ending.TERM, panel());
                PanelDriver driver = new PanelDriver(program)) {
            drive(program, driver);
            fromMs = pair.nowMs();
            program.signal("STOP");
            program.await("silence while it stands", this::isSilent);
            quickly("silence came", pair.lastSentMs() - fromMs);
            PanelDriver.pause(2000);
            fromMs = pair.nowMs();
            program.signal("CONT");
            program.await("the release", () -> pair.lastSentMs() >= fromMs && isSilent());
            quickly("the last frame came", pair.lastSentMs() - fromMs);
            assertEquals(List.of(), pair.notReleased(), "not released by their last frames");
            assertTrue(pair.lastDrivenMs() < fromMs, "it drove after the stop");
            driver.lever("key", 0);
            driver.lever("key", 1);
            fromMs = pair.nowMs();
            PanelDriver.pause(3000);
            assertTrue(pair.lastSentMs() < fromMs, "it sent without having been armed again");
        }
    }

    private String[] panel() {
        String out = folder.resolve("out").toString();
        return new String[] {"panel", "parcel-van", "--port", "0", "--bus", pair.file(), "--out", out};
    }

    private void drive(Program program, PanelDriver driver) {
        driver.arm();
        driver.lever("key", 1);
        program.await("a driven output", () -> pair.lastDrivenMs() >= 0);
        assertFalse(pair.notReleased().isEmpty());
    }
}
