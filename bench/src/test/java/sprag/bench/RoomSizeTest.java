package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** A package that a person cannot read in an afternoon is two packages. */
class RoomSizeTest {
    private static final int MOST_LINES = 2500;

    /** Larger ones, how large they may become, and why they stay one. */
    private static final Map<String, Integer> LARGER = Map.of(
            "sprag.bench.port.translate", 3700, // one compiler: statements, expressions and types ask each other
            "sprag.bench.port.equal", 3700, // one comparison with what it plays, step by step
            "sprag.bench.drawing.live", 3400, // one circuit with what may happen to it
            "sprag.supervisor.input", 2700, // one class an input, each as long as its cautions
            "sprag.supervisor.vocabulary", 2600); // rows: a line each, and a line why

    @Test
    void everyPackage_staysSmall_orIsNamedWithItsReason() throws IOException {
        Map<String, Integer> tooLarge = new TreeMap<>();
        Map<String, Integer> all = linesByPackage();
        assertTrue(all.size() > 60, all.keySet() + " seen");
        all.forEach((room, lines) -> {
            if (lines > LARGER.getOrDefault(room, MOST_LINES)) {
                tooLarge.put(room, lines);
            }
        });
        assertEquals(Map.of(), tooLarge, "lines of packages; split the package, or name it here with the reason");
    }

    @Test
    void namedExceptions_areStillLarge() throws IOException {
        Map<String, Integer> all = linesByPackage();
        List<String> needless = LARGER.keySet().stream()
                .filter(room -> all.getOrDefault(room, 0) <= MOST_LINES)
                .sorted()
                .toList();
        assertEquals(List.of(), needless, "packages that need no exception any more");
    }

    private static Map<String, Integer> linesByPackage() throws IOException {
        Map<String, Integer> lines = new TreeMap<>();
        for (String module : List.of("supervisor", "hal", "bench")) {
            Path root = Path.of("..", module, "src", "main", "java");
            try (Stream<Path> files = Files.walk(root)) {
                for (Path file :
                        files.filter(f -> f.toString().endsWith(".java")).collect(Collectors.toList())) {
                    String room = root.relativize(file.getParent())
                            .toString()
                            .replace('\\', '/')
                            .replace('/', '.');
                    lines.merge(room, Files.readAllLines(file).size(), Integer::sum);
                }
            }
        }
        return lines;
    }
}
