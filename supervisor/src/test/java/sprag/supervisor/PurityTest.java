package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The decisions know only what is handed to step(): no library, no clock, no thread, no I/O, no randomness. */
class PurityTest {
    private static final Path SOURCES = Path.of("src/main/java");
    private static final Pattern IMPORT = Pattern.compile("(?m)^import (?:static )?([\\w.]+);");
    private static final List<String> FORBIDDEN = List.of(
            "java.io",
            "java.net",
            "java.nio",
            "java.time",
            "java.util.concurrent",
            "java.lang.reflect",
            "nanoTime",
            "currentTimeMillis",
            "Thread",
            "Random",
            "System.out",
            "System.err",
            "System.get",
            "synchronized",
            "volatile",
            "sprag.hal",
            "sprag.bench");
    private static final Pattern MUTABLE_STATIC =
            Pattern.compile("(?m)^    (?:public |private )?static (?!final|class)[\\w<>\\[\\]]+ \\w+( =|;)");

    @Test
    void imports_areOfJavaAndOfItselfOnly() {
        assertEquals(List.of(), find((file, text) -> {
            List<String> found = new ArrayList<>();
            Matcher m = IMPORT.matcher(text);
            while (m.find()) {
                if (!m.group(1).startsWith("java.") && !m.group(1).startsWith("sprag.supervisor.")) {
                    found.add(file + " imports " + m.group(1));
                }
            }
            return found;
        }));
    }

    @Test
    void sources_mentionNothingImpure() {
        assertEquals(List.of(), find((file, text) -> {
            List<String> found = new ArrayList<>();
            for (String word : FORBIDDEN) {
                if (text.contains(word)) {
                    found.add(file + " mentions " + word);
                }
            }
            return found;
        }));
    }

    @Test
    void sources_keepNoMutableStatics() {
        assertEquals(List.of(), find((file, text) -> {
            Matcher m = MUTABLE_STATIC.matcher(text);
            return m.find() ? List.of(file + ": " + m.group().strip()) : List.of();
        }));
    }

    private interface Finder {
        List<String> find(String file, String text);
    }

    private static List<String> find(Finder finder) {
        List<String> found = new ArrayList<>();
        try (Stream<Path> files = Files.walk(SOURCES)) {
            List<Path> java = files.filter(f -> f.toString().endsWith(".java")).toList();
            assertTrue(java.size() > 40, java.size() + " sources under " + SOURCES.toAbsolutePath());
            for (Path file : java) {
                found.addAll(finder.find(file.getFileName().toString(), Files.readString(file)));
            }
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + SOURCES.toAbsolutePath(), e);
        }
        return found;
    }
}
