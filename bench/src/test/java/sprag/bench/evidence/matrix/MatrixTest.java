package sprag.bench.evidence.matrix;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;

/** The pages in docs are the ones that the code prints. {@code -Ddocs.update=true} rewrites them. */
class MatrixTest {
    private static final Path DOCS = Path.of(System.getProperty("user.dir")).resolveSibling("docs");

    @Test
    void interlocksPage_isTheOneInTheCode() throws Exception {
        current("interlocks.md", Matrix.asMarkdown());
    }

    @Test
    void statesPage_isTheOneInTheCode() throws Exception {
        current("states.md", Matrix.statesAsMarkdown());
    }

    @Test
    void terminalMatrix_everyVehicle_fitsEightyColumns() throws Exception {
        for (String name : new String[] {"parcel-van", "coupe", "yard-cart"}) {
            for (String line : Matrix.forTerminal(
                    VehicleReader.read(Catalogue.installed().vehicle(name)).settings())) {
                assertTrue(line.length() <= 80, line.length() + " columns: " + line);
            }
        }
    }

    private static void current(String page, String expected) throws IOException {
        Path file = DOCS.resolve(page);
        if (Boolean.getBoolean("docs.update")) {
            Files.writeString(file, expected);
        }
        String actual = Files.exists(file) ? Files.readString(file) : "";
        assertEquals(expected, actual, file + " is stale; if the change is meant: mvn test -Ddocs.update=true");
    }
}
