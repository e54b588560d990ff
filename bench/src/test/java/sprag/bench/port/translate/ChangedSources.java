package sprag.bench.port.translate;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import sprag.bench.vehicle.Catalogue;

/** A copy of the sources of the supervisor with some changes. */
public final class ChangedSources {
    private ChangedSources() {}

    /** One change of a source.
     *
     * @param file below the package of the supervisor
     * @param before what stands there
     * @param after what shall stand there instead
     */
    public record Change(String file, String before, String after) {}

    /** Writes the copy.
     *
     * @param home the folder to give to {@link Translation}
     * @return the folder of the sources in it
     */
    public static Path write(Path home, Change... changes) throws IOException {
        Path from = Catalogue.installed().home().resolve(Sources.PLACE);
        Path to = home.resolve(Sources.PLACE);
        try (Stream<Path> all = Files.walk(from)) {
            for (Path path : all.toList()) {
                Path copy = to.resolve(from.relativize(path).toString());
                if (Files.isDirectory(path)) {
                    Files.createDirectories(copy);
                } else {
                    Files.copy(path, copy);
                }
            }
        }
        for (Change change : changes) {
            Path changed = file(to, change);
            String text = Files.readString(changed);
            assertTrue(text.contains(change.before), change.file + " has no " + change.before);
            Files.writeString(changed, text.replace(change.before, change.after));
        }
        return to;
    }

    /** Where a changed source stands. */
    public static Path file(Path sources, Change change) {
        return sources.resolve("sprag/supervisor").resolve(change.file);
    }
}
