package sprag.bench.hand.commission;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.ResourceLock;
import picocli.CommandLine;
import sprag.bench.cli.ExitCode;
import sprag.bench.hand.board.NoPort;
import sprag.bench.hand.board.WireDriver;
import sprag.bench.hand.emulated.LockstepClock;
import sprag.bench.loop.record.Recorder;
import sprag.hal.board.Board;

/** A board with its own thread, in virtual time: one output wired straight to its auxiliary contact, and no cut-off in between. */
@ResourceLock(WireDriver.LOCK)
class OnABoardTest {
    private static final List<String> SAFETY_AND_SUPPLIES =
            List.of("understood", "y", "0", "2000", "0.02", "12.6", "12.6", "12.6", "12.6", "12.6", "12.6");

    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();
    private Path file;

    @BeforeEach
    void wire() throws Exception {
        file = Files.writeString(folder.resolve("wire.toml"), """
                [board]
                name = "piece of wire"
                protocol = "wire"
                port = "none"
                baud = 9600
                [[input]]
                signal = "positive_aux_closed"
                pin = "3"
                kind = "digital"
                [[output]]
                output = "positive_contactor"
                pin = "3"
                kind = "digital"
                """);
    }

    private int commission(String... then) {
        return commission(true, then);
    }

    /** The answers all stand in the input; its end is that of a file, or of a line that nobody holds any more. */
    private int commission(boolean fromFile, String... then) {
        List<String> typed = new ArrayList<>(SAFETY_AND_SUPPLIES);
        typed.addAll(Arrays.asList(then));
        byte[] keys = (String.join("\n", typed) + "\n").getBytes(StandardCharsets.UTF_8);
        LockstepClock clock = new LockstepClock();
        CommandLine line = new CommandLine(new CommissionCommand(
                (spec, time) -> {
                    clock.announceThread();
                    return new Board(spec, new NoPort(), time);
                },
                new ByteArrayInputStream(keys),
                fromFile,
                clock,
                Recorder.Pace.SIMULATED));
        line.setOut(new PrintWriter(out, true)).setErr(new PrintWriter(err, true));
        return line.execute(
                "parcel-van",
                "--board",
                file.toString(),
                "--out",
                folder.resolve("record").toString());
    }

    private String seen(String id) throws Exception {
        JsonNode record = new ObjectMapper()
                .readTree(folder.resolve("record/commission.json").toFile());
        for (JsonNode step : record.path("steps")) {
            if (id.equals(step.path("id").asText())) {
                return step.path("verdict").asText() + ": " + step.path("seen").asText();
            }
        }
        return "there is no step " + id;
    }

    @Test
    void armed_contactAnswers_andACutOffThatCutsNothingFails() throws Exception {
        assertEquals(ExitCode.FINDING, commission("arm", "", "", ""), err.toString());
        assertTrue(seen("output.positive_contactor").startsWith("passed"), seen("output.positive_contactor"));
        assertTrue(
                seen("cut_off.hardware").contains("still closed 3000 ms after the loop opened: positive_aux_closed"),
                seen("cut_off.hardware"));
        assertTrue(seen("sequence.start_stop").startsWith("not done: refused"), seen("sequence.start_stop"));
        String page = Files.readString(folder.resolve("record/commission.html"));
        assertTrue(
                page.contains("from the arrival of a changed switch to the next changed output"), "latency is noted");
        assertTrue(page.contains("delay of a tick"), "jitter is noted");
        assertTrue(!page.contains(">REHEARSAL<"), "this was no rehearsal");
    }

    @Test
    void inputEndsBeforeArming_stopsWithNothingDriven() throws Exception {
        assertEquals(ExitCode.FINDING, commission());
        assertEquals("not done: nobody got to it", seen("output.positive_contactor"));
        assertTrue(out.toString().contains("Stopped before arming.deliberate"), out.toString());
    }

    @Test
    void lineEndsWhileArmed_nothingIsDrivenAnyMore() throws Exception {
        commission(false, "arm", "", "", "");
        assertEquals("not done: nobody got to it", seen("cut_off.hardware"));
        String record = Files.readString(folder.resolve("record/commission.json"));
        assertTrue(record.contains("ended early: the input has ended while outputs were driven"), record);
    }
}
