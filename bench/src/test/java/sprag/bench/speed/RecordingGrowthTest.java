package sprag.bench.speed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import picocli.CommandLine;

/** The memory of a recording. It is the whole program's that is measured, so nothing else may run meanwhile. */
@Isolated
class RecordingGrowthTest {
    @TempDir
    Path folder;

    @Test
    void recording_ofTwiceTheTime_isTwiceTheFile_inTheSameMemory() throws Exception {
        StringWriter out = new StringWriter();
        new CommandLine(new SpeedCommand(0.05))
                .setOut(new PrintWriter(out, true))
                .execute("--growth", "--only", "recording", "--json", "--out", folder.toString());
        JsonNode all = new ObjectMapper().readTree(out.toString()).get("growth");
        assertEquals(2, all.get(0).get("per_doubling").asDouble(), 0.2);
        assertTrue(all.get(1).get("per_doubling").asDouble() < 1.2, all.get(1).toString());
    }
}
