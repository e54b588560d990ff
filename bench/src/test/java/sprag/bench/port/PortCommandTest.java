package sprag.bench.port;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.SharedTranslation;

/** What a board's maker gets, and how the command ends. */
class PortCommandTest {
    private static final String PLAY = """
            [about]
            title = "A car that nobody touches"
            why = "It stays off."
            hazards = ["H01"]
            duration_s = 1

            [[expect]]
            text = "the car is %s at the end"
            state = "%s"
            at_s = 0.9
            """;

    private final StringWriter out = new StringWriter();

    private int port(Path folder, String state, String... more) throws Exception {
        assumeTrue(Tool.ARM_GCC.find().isPresent(), Tool.ARM_GCC.missing());
        assumeTrue(Tool.QEMU.find().isPresent(), Tool.QEMU.missing());
        Path scenario = Files.writeString(folder.resolve("untouched.toml"), PLAY.formatted(state, state));
        CommandLine line =
                Sprag.commandLine().setOut(new PrintWriter(out, true)).setErr(new PrintWriter(out, true));
        List<String> words = new ArrayList<>(List.of("port", "parcel-van", "--chip", scenario.toString()));
        words.addAll(List.of("--out", folder.resolve("c").toString()));
        words.addAll(List.of(more));
        return line.execute(words.toArray(String[]::new));
    }

    @Test
    void expectationHolds_onTheChip_endsWell(@TempDir Path folder) throws Exception {
        assertEquals(0, port(folder, "OFF"), out::toString);
    }

    @Test
    void expectationFails_onTheChip_isAFinding(@TempDir Path folder) throws Exception {
        assertEquals(1, port(folder, "DRIVE_ENABLE"), out::toString);
        assertTrue(out.toString().contains("FAILED: the car is DRIVE_ENABLE at the end"), out::toString);
    }

    @Test
    void singlePrecision_onTheChip_tellsSizesAndHowFarItDrifts(@TempDir Path folder) throws Exception {
        assertEquals(0, port(folder, "OFF", "--single"), out::toString);
        String told = out.toString();
        assertTrue(told.contains("stack below a step"), told);
        assertTrue(told.contains("101 ticks; in 0 of them the chip decides differently"), told);
        assertTrue(told.contains("gauge_fraction differs by less than 0.000001"), told);
    }

    /** The program of a board may be C++, whose names are not those of C. */
    @Test
    void header_inAProgramOfCPlusPlus_linksWithTheC(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        Files.writeString(folder.resolve("empty.cpp"), "#include <cmath>\n");
        assumeTrue(
                Tool.GCC.run(folder, List.of("-c", "empty.cpp")).status() == 0,
                "gcc has no C++. On Debian: apt-get install g++");
        for (Map.Entry<String, String> file : SharedTranslation.whole().code().entrySet()) {
            Files.writeString(folder.resolve(file.getKey()), file.getValue());
        }
        Files.writeString(folder.resolve("board.cpp"), """
                #include "board.h"
                void sprag_impossible(void) {}
                int main() { return sprag_self_test() ? 0 : 1; }
                """);
        Tool.Ended ended = Tool.GCC.run(folder, List.of("-Wall", "-Wextra", "-Werror", "-c", "board.cpp"));
        assertEquals("", ended.out());
        ended = Tool.GCC.run(folder, List.of("-std=c99", "-ffp-contract=off", "-fwrapv", "-c", "self_test.c"));
        assertEquals("", ended.out());
        ended = Tool.GCC.run(folder, List.of("board.o", "self_test.o", "-lm", "-o", "board"));
        assertEquals("", ended.out());
    }
}
