package sprag.bench.drawing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
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
        CommandLine line = Sprag.commandLineFor("draft").setOut(new PrintWriter(text, true));
        assertEquals(ExitCode.WELL, line.execute("draft", home.toString(), "--out", out.toString()));
        return text.toString().replaceAll("\\s+", " ");
    }

    private String refused(Path home) {
        StringWriter text = new StringWriter();
        CommandLine line = Sprag.commandLineFor("draft").setErr(new PrintWriter(text, true));
        assertEquals(ExitCode.USAGE, line.execute("draft", home.toString()));
        return text.toString();
    }

    @Test
    void withoutOut_drafted_standsBesideTheVehiclesFile() throws Exception {
        Path home = Files.createDirectory(folder.resolve("cart"));
        Files.copy(Catalogue.installed().vehicle("yard-cart").resolve("vehicle.toml"), home.resolve("vehicle.toml"));
        StringWriter text = new StringWriter();
        CommandLine line = Sprag.commandLineFor("draft").setOut(new PrintWriter(text, true));
        assertEquals(ExitCode.WELL, line.execute("draft", home.toString()));
        assertTrue(Files.exists(home.resolve("wiring.csv")) && Files.exists(home.resolve("parts.csv")));
        assertEquals(ExitCode.WELL, line.execute("draft", home.toString()), "a draft is continued");
        assertTrue(text.toString().contains(" 0 wires added") || text.toString().contains("0 wires added"));
    }

    @Test
    void carWithoutHeaterAndInlet_drafted_isAskedForNeither() throws Exception {
        Path kinds = Path.of("src", "test", "resources", "kinds");
        String without = drafted(kinds.resolve("pack-taken-out"), folder);
        assertTrue(without.contains("choices.motors = 1 "), without);
        assertTrue(without.contains("places.pack_to_motor_m = ") && without.contains("choices.pack_boxes = "), without);
        assertFalse(without.contains("inlet_m = ") || without.contains("inlet_to"), without);
        assertFalse(without.contains("heater_w"), without);
    }

    @Test
    void carWithHeaterAndInlet_drafted_isAskedForBoth() throws Exception {
        String van = drafted(Catalogue.installed().vehicle("parcel-van"), folder);
        assertTrue(van.contains("choices.heater_w = ") && van.contains("places.pack_to_inlet_m = "), van);
    }

    @Test
    void filesWrittenByHand_withoutOut_areLeftAsTheyWere() throws Exception {
        Path home = Files.createDirectory(folder.resolve("cart"));
        Path shipped = Catalogue.installed().vehicle("yard-cart");
        Files.copy(shipped.resolve("vehicle.toml"), home.resolve("vehicle.toml"));
        Files.copy(shipped.resolve("parts.csv"), home.resolve("parts.csv"));
        assertTrue(refused(home).contains("parts.csv"), "parts alone");
        Files.copy(shipped.resolve("wiring.csv"), home.resolve("wiring.csv"));
        assertTrue(refused(home).contains("wiring.csv"), "a whole schedule");
        for (String name : new String[] {"parts.csv", "wiring.csv"}) {
            assertEquals(Files.readString(shipped.resolve(name)), Files.readString(home.resolve(name)));
        }
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
