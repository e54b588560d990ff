package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * What a look at the sources must find, because the compiled classes do not show it. What they do show (imports, clocks, threads,
 * files, static fields) is held by the bench's test of the architecture.
 */
class PurityTest {
    private static final Path SOURCES = Path.of("src/main/java");
    /** A block that waits for a lock, and a warning that is switched off. */
    private static final List<String> FORBIDDEN = List.of("synchronized", "@SuppressWarnings");

    @Test
    void sources_mentionNoLockAndSilenceNoWarning() throws IOException {
        List<String> found = new ArrayList<>();
        try (Stream<Path> files = Files.walk(SOURCES)) {
            List<Path> java = files.filter(f -> f.toString().endsWith(".java")).toList();
            assertTrue(java.size() > 40, java.size() + " sources under " + SOURCES.toAbsolutePath());
            for (Path file : java) {
                String text = Files.readString(file);
                FORBIDDEN.stream()
                        .filter(text::contains)
                        .forEach(word -> found.add(file.getFileName() + " mentions " + word));
            }
        }
        assertEquals(List.of(), found);
    }
}
