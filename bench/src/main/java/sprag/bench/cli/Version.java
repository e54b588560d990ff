package sprag.bench.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import picocli.CommandLine.IVersionProvider;

/** The name and version of this program. The build writes the version of the top POM into a resource. */
public final class Version implements IVersionProvider {
    private static final String RESOURCE = "version.txt";

    /** One line, such as {@code sprag 0.1.0}. */
    public static String line() {
        try (InputStream in = Version.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException(RESOURCE + " is not on the class path: build sprag with Maven");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).strip();
        } catch (IOException e) {
            throw new IllegalStateException(RESOURCE + " cannot be read: build sprag anew", e);
        }
    }

    @Override
    public String[] getVersion() {
        return new String[] {line()};
    }
}
