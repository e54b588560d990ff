package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import sprag.bench.vehicle.Catalogue;

/** What the program says, line by line, as it was read and found right; {@code -Ddocs.update=true} writes it anew, to be read again. */
public final class Golden {
    private Golden() {}

    /** Compares with a file in the test resources of this package. */
    public static void assertSame(String name, List<String> now) throws IOException {
        Path file = Catalogue.installed()
                .home()
                .resolve("bench/src/test/resources/sprag/bench")
                .resolve(name);
        if (Boolean.getBoolean("docs.update")) {
            Files.write(file, now);
        }
        List<String> then = Files.readAllLines(file);
        String differs = IntStream.range(0, Math.min(now.size(), then.size()))
                .filter(i -> !now.get(i).equals(then.get(i)))
                .mapToObj(i -> "line " + (i + 1) + " was\n" + then.get(i) + "\nis\n" + now.get(i))
                .findFirst()
                .orElse("");
        assertEquals(
                "", differs, name + " is stale: if this is meant, run with -Ddocs.update=true and read what changed");
        assertEquals(then.size(), now.size(), "lines of " + name);
    }
}
