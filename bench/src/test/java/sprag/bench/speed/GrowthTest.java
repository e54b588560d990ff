package sprag.bench.speed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;
import sprag.bench.cli.ExitCode;

/** How costs grow. How fast this machine is decides nothing here. */
class GrowthTest {
    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();

    private int speed(String... words) {
        return new CommandLine(new SpeedCommand(0.02))
                .setOut(new PrintWriter(out, true))
                .execute(words);
    }

    private static Growth power(double exponent) {
        List<Growth.Point> points = DoubleStream.of(1, 2, 4, 8)
                .mapToObj(cause -> new Growth.Point(cause, 3 * Math.pow(cause, exponent)))
                .toList();
        return new Growth("x", "wires", "s", points);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            EXPONENT | PER_DOUBLING | BECAUSE
            1        | 2            | twice as much
            0        | 1            | constant
            2        | 4            | every one against every other
            -1       | 0.5          | the larger the cheaper
            """)
    void growth_byAPower_saysWhatADoublingCosts(double exponent, double perDoubling, String because) {
        assertEquals(perDoubling, power(exponent).perDoubling(), 1e-9, because);
    }

    @Test
    void points_offTheLine_giveTheSlopeOfLeastSquares() {
        // by hand: x = 0, 1, 2 and y = 0, 2, 1 doublings; the slope is ((-1)(-1) + 0 + 1 * 0) / 2 = 0.5
        Growth bent = new Growth(
                "x", "wires", "s", List.of(new Growth.Point(1, 1), new Growth.Point(2, 4), new Growth.Point(4, 2)));
        assertEquals(Math.sqrt(2), bent.perDoubling(), 1e-9);
    }

    @Test
    void growthCommand_measuresEveryCost_andDrawsIt() throws Exception {
        assertEquals(ExitCode.WELL, speed("--growth", "--json", "--out", folder.toString()));
        JsonNode all = new ObjectMapper().readTree(out.toString()).get("growth");
        List<String> whats = all.findValuesAsText("what");
        assertEquals(
                List.of(
                        "states of the proof",
                        "states of the proof",
                        "campaign",
                        "check of a schedule",
                        "recording, its file",
                        "recording, memory meanwhile"),
                whats);
        for (JsonNode each : all) {
            assertEquals(4, each.get("points").size(), each.get("cause").asText());
            assertTrue(each.get("points").get(0).get("cost").asDouble() > 0, each.toString());
        }
        String page = Files.readString(folder.resolve("growth.html"));
        assertEquals(6, page.split("<h2>", -1).length - 1);
        assertTrue(page.contains("data-name=\"processor time (ms)\""), "a curve to hover over");
    }

    @Test
    void statesOfTheProof_growWithTheWait_andFallWithTheTick() throws Exception {
        speed("--growth", "--only", "states", "--json", "--out", folder.toString());
        JsonNode all = new ObjectMapper().readTree(out.toString()).get("growth");
        JsonNode overWait = all.get(0).get("points");
        JsonNode overTick = all.get(1).get("points");
        assertEquals(400, overWait.get(1).get("cause").asDouble(), "the van's own wait");
        assertEquals(10, overTick.get(1).get("cause").asDouble(), "its own tick");
        assertEquals(
                overWait.get(1).get("cost").asDouble(),
                overTick.get(1).get("cost").asDouble(),
                "the same machine is explored");
        for (int i = 1; i < 4; i++) {
            assertTrue(overWait.get(i).get("cost").asDouble()
                    > overWait.get(i - 1).get("cost").asDouble());
            assertTrue(overTick.get(i).get("cost").asDouble()
                    < overTick.get(i - 1).get("cost").asDouble());
        }
    }
}
