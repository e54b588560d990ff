package sprag.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;

/** Where results go. */
public final class OutFolder {
    private static final DateTimeFormatter STAMP = DateTimeFormatter.ofPattern("yyyyMMdd-HHmmss");

    /** What POSIX keeps in a file's mode: the bits of its kind, and the kind of a named pipe. */
    private static final int FILE_KIND = 0170000;

    private static final int PIPE = 0010000;

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

    /**
     * Refuses a named pipe as a file to write: opening it waits until somebody reads, perhaps for ever. The streams of the program
     * itself, as {@code /dev/stdout}, have been opened already.
     */
    public static void refusePipe(Path file) {
        Path folder = file.toAbsolutePath().normalize();
        if (folder.startsWith("/dev") || folder.startsWith("/proc") || !isPipe(file)) {
            return;
        }
        throw new Trouble(
                "cannot write " + file + ": it is a pipe, which waits for a reader. Name a file, or /dev/stdout");
    }

    private static boolean isPipe(Path file) {
        try {
            return ((int) Files.getAttribute(file, "unix:mode") & FILE_KIND) == PIPE;
        } catch (IOException | UnsupportedOperationException | IllegalArgumentException e) {
            return false; // not there yet, or a system without such pipes: writing tells what is wrong
        }
    }

    /** Writes a whole file that is no text. */
    public static void write(Path file, byte[] bytes) {
        refusePipe(file);
        try {
            Files.write(file, bytes);
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }

    /** Writes a whole file. */
    public static void write(Path file, String text) {
        refusePipe(file);
        try {
            Files.writeString(file, text);
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }
}
