package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import sprag.bench.vehicle.Catalogue;

/** Pages whose end is made from the code. {@code -Ddocs.update=true} rewrites that end. */
public final class MadePages {
    /** What stands on a page where the part that is made begins. */
    private static final String BEGINS = "Made from the code.\n\n";

    private MadePages() {}

    /** The folder of the pages. */
    static Path docs() {
        return Catalogue.installed().home().resolve("docs");
    }

    /** Compares the end of a page with what the code says. */
    public static void endsWith(String page, String made) throws IOException {
        Path file = docs().resolve(page);
        String text = Files.readString(file);
        int at = text.indexOf(BEGINS);
        assertTrue(at > 0, file + " lacks the line \"" + BEGINS.strip() + "\"");
        String expected = text.substring(0, at + BEGINS.length()) + made;
        if (Boolean.getBoolean("docs.update")) {
            Files.writeString(file, expected);
        }
        assertEquals(
                expected,
                Files.readString(file),
                file + " is stale; if the change is meant: mvn test -Ddocs.update=true");
    }
}
