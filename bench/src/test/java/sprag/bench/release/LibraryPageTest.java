package sprag.bench.release;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.vehicle.Catalogue;
import sprag.supervisor.Supervisor;

/** The example in {@code docs/library.md}, compiled and run as it stands in the page. */
class LibraryPageTest {
    @TempDir
    Path temp;

    private static String block(String page, String language) {
        Matcher found = Pattern.compile("(?s)```" + language + "\n(.*?)```").matcher(page);
        assertTrue(found.find(), "the page has a block of " + language);
        return found.group(1);
    }

    @Test
    void exampleInThePage_compiledAndRun_printsWhatThePageSays() throws Exception {
        String page = Files.readString(Catalogue.installed().home().resolve("docs/library.md"));
        Path source = Files.writeString(temp.resolve("OwnLoop.java"), block(page, "java"));
        // only the supervisor is on the class path: the example needs nothing else
        String library = Path.of(Supervisor.class
                        .getProtectionDomain()
                        .getCodeSource()
                        .getLocation()
                        .toURI())
                .toString();
        int status = ToolProvider.getSystemJavaCompiler()
                .run(null, null, null, "-d", temp.toString(), "-cp", library, source.toString());
        assertEquals(0, status, "the example compiles");
        Path out = temp.resolve("out.txt");
        Process process = new ProcessBuilder(List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        temp + System.getProperty("path.separator") + library,
                        "OwnLoop"))
                .redirectErrorStream(true)
                .redirectOutput(out.toFile())
                .start();
        assertEquals(0, process.waitFor(), () -> "it ends well; see " + out);
        assertEquals(block(page, "text").lines().toList(), Files.readAllLines(out));
    }
}
