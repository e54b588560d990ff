package sprag.bench.drawing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;
import sprag.bench.vehicle.Catalogue;

class DraftCommandTest {
    @TempDir
    Path folder;

    private String drafted(Path home, Path out) {
        StringWriter text = new StringWriter();
        CommandLine line = Sprag.commandLine().setOut(new PrintWriter(text, true));
        assertEquals(ExitCode.WELL, line.execute("draft", home.toString(), "--out", out.toString()));
        return text.toString().replaceAll("\\s+", " ");
    }

    @Test
    void outElsewhere_drafted_saysWhereTheOtherCommandsLook() throws Exception {
        Path shipped = Catalogue.installed().vehicle("yard-cart").resolve("vehicle.toml");
        Path home = Files.createDirectory(folder.resolve("cart"));
        Files.copy(shipped, home.resolve("vehicle.toml"));
        String elsewhere = drafted(home, folder.resolve("draft"));
        assertTrue(elsewhere.contains("where the other commands look for them, then: sprag check"), elsewhere);
        String inPlace = drafted(home, home);
        assertTrue(inPlace.contains("Then: sprag check"), inPlace);
    }
}
