package sprag.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;

/** Where results go. */
public final class OutFolder {
    private static final DateTimeFormatter STAMP = DateTimeFormatter.ofPattern("yyyyMMdd-HHmmss");

    private OutFolder() {}

    /** The folder a person named, or a new one under the current folder whose name version control ignores. */
    public static Path open(Path named) {
        Path folder = named;
        if (folder == null) {
            String name = "sprag-out-" + LocalDateTime.now().format(STAMP);
            folder = Path.of(name);
            for (int n = 2; Files.exists(folder); n++) {
                folder = Path.of(name + "-" + n);
            }
        }
        make(folder);
        return folder;
    }

    /** Makes a folder and those above it. */
    public static void make(Path folder) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new Trouble("cannot make the folder", folder, e);
        }
    }

    /** Writes a whole file that is no text. */
    public static void write(Path file, byte[] bytes) {
        try {
            Files.write(file, bytes);
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }

    /** Writes a whole file. */
    public static void write(Path file, String text) {
        try {
            Files.writeString(file, text);
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }
}
