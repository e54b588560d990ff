package sprag.bench.fuzz;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** What the fuzzer calls, over and over. {@code -Dfuzz.target} names the row of {@link FuzzTarget}. */
public final class Fuzz {
    private static final FuzzTarget TARGET =
            FuzzTarget.valueOf(System.getProperty("fuzz.target", "vehicle").toUpperCase(Locale.ROOT));

    private static final Path FOLDER = folder();

    private Fuzz() {}

    private static Path folder() {
        try {
            Path folder = Files.createTempDirectory("fuzz");
            folder.toFile().deleteOnExit();
            folder.resolve(TARGET.fileName).toFile().deleteOnExit();
            return folder;
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Tries one input. The name is the fuzzer's. */
    public static void fuzzerTestOneInput(byte[] bytes) throws IOException {
        TARGET.take(FOLDER, bytes);
    }
}
