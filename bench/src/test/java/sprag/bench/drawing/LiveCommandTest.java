package sprag.bench.drawing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;

class LiveCommandTest {
    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void shippedVehicle_onATerminal_fitsItsWidthWithEveryCellWhole(String vehicle) {
        StringWriter out = new StringWriter();
        CommandLine line = Sprag.commandLineFor("live").setOut(new PrintWriter(out, true));
        assertEquals(ExitCode.WELL, line.execute("live", vehicle, "--out", folder.toString()));
        List<String> table = out.toString()
                .lines()
                .takeWhile(l -> !l.startsWith("P+ pack plus"))
                .toList();
        assertTrue(table.stream().anyMatch(l -> l.contains("P+/P-")), "a net between two sources is shown whole");
        table.forEach(l -> assertTrue(l.length() <= 80, l));
        table.forEach(l -> assertFalse(l.substring(Math.min(l.length(), 25)).contains("\u2026"), l));
    }
}
