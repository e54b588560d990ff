package sprag.bench.speed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** The table of figures. How fast this machine is decides nothing here. */
class SpeedTest {
    private static final Path VAN =
            Path.of("..", "config", "vehicles", "parcel-van").toAbsolutePath().normalize();

    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int speed(String... words) {
        String[] all = new String[words.length + 1];
        all[0] = "speed";
        System.arraycopy(words, 0, all, 1, words.length);
        return Sprag.commandLineFor("speed")
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(err, true))
                .execute(all);
    }

    @ParameterizedTest(name = "{0} {2} with the aim {1}: {3}")
    @CsvSource(delimiter = '|', textBlock = """
            0.2  | 0.2 | s            | true  | a time may be as long as its aim
            0.21 | 0.2 | s            | false | a longer time misses it
            50   | 50  | M/s          | true  | a rate must be as high as its aim
            49   | 50  | M/s          | false | a lower rate misses it
            49   | 50  | ns           | true  | nanoseconds are a time
            NaN  | 50  | ns           | false | what was not measured reaches nothing
            NaN  | 50  | M/s          | false | what was not measured reaches nothing
            """)
    void figure_reachesItsAim_asATimeOrAsARate(double value, double aim, String unit, boolean reached, String because) {
        assertEquals(reached, new Figure("x", value, aim, unit, 1, "y").isReached(), because);
    }

    @Test
    void line_ofLargeFigures_fitsATerminal() {
        List<Figure> wide = List.of(
                new Figure("run parcel-van charge-night", 1234.5, 2.2, "s", 12.34, "java -version"),
                new Figure("closed loop", 123_456, 25_000, "s/s", 1_234_567, "seven equations"),
                new Figure("step of the supervisor", 12_345, 100, "ns", 1_234, "plain machine"));
        for (Figure figure : wide) {
            assertTrue(figure.line().length() <= 80, figure.line());
        }
        assertEquals("closed loop", wide.get(1).line().split(" {2,}")[0]);
    }

    @Test
    void figures_ofTheCore_haveTheirBaselinesBesideThem() throws Exception {
        Vehicle van = VehicleReader.read(VAN);
        Core little = new Core(van, 1, 0.001);
        for (Figure figure : List.of(little.step(), little.loop())) {
            assertTrue(figure.value() > 0 && Double.isFinite(figure.value()), figure.toString());
            assertTrue(figure.baseline() > 0 && Double.isFinite(figure.baseline()), figure.toString());
        }
    }

    @Test
    void commandThatFails_hasNoFigure_andSaysSo() {
        Assumptions.assumeTrue(Path.of("/bin/sh").toFile().canExecute(), "no shell: NOT tried");
        Felt felt = new Felt(List.of("/bin/sh", "-c", "exit 3"), folder);
        Figure figure = felt.of(new Felt.Wait("demo", 1, true), 1, 0.1);
        assertTrue(Double.isNaN(figure.value()) && !figure.isReached(), figure.toString());
        assertTrue(figure.line().contains("failed with 3"), figure.line());
        Figure well = new Felt(List.of("/bin/sh", "-c", "exit 1"), folder).of(new Felt.Wait("demo", 1, true), 2, 0.1);
        assertTrue(well.value() > 0, "a finding is no failure: " + well);
    }

    @Test
    void onlyOneMeasure_asJson_namesMachineAndFigure() throws Exception {
        assertEquals(ExitCode.WELL, speed("--only", "Logic", "--rounds", "1", "--json"), err.toString());
        JsonNode root = new ObjectMapper().readTree(out.toString());
        assertTrue(root.at("/machine").asText().contains("Java"), out.toString());
        assertEquals(2, root.at("/figures").size(), out.toString());
        assertTrue(root.at("/figures/1/baseline").asDouble() > 0, out.toString());
    }

    @Test
    void unknownMeasure_isWrongUsage_andListsThoseThatAre() {
        assertEquals(ExitCode.USAGE, speed("--only", "warp"));
        assertTrue(err.toString().contains("closed loop"), err.toString());
        assertFalse(err.toString().contains("xception"), err.toString());
        assertEquals(ExitCode.USAGE, speed("--rounds", "0"));
    }
}
