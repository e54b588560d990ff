package sprag.bench.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;

/**
 * Reads a file that a person edits: a regular file of limited size. A device may never end and a pipe may never begin, so
 * both are refused before they are opened.
 */
public final class InputFile {
    /** Why a file was not read. The message says what it is; {@link #remedy} what to do. */
    public static final class Refused extends IOException {
        private static final long serialVersionUID = 1L;

        private final String remedy;

        Refused(String message, String remedy) {
            super(message);
            this.remedy = remedy;
        }

        /** What to do, a whole sentence. */
        public String remedy() {
            return remedy;
        }
    }

    private InputFile() {}

    /** Whether something stands under that name, also a link that leads nowhere: such a link must not look like no file. */
    public static boolean isThere(Path file) {
        return Files.exists(file, LinkOption.NOFOLLOW_LINKS);
    }

    /**
     * Refuses what is no regular file, without opening it.
     *
     * @param file where it stands
     * @throws Refused when it is a folder, a device, a pipe or not there
     */
    public static void requireRegular(Path file) throws Refused {
        try {
            attributes(file);
        } catch (Refused refused) {
            throw refused;
        } catch (IOException e) {
            throw refusal(file, e);
        }
    }

    private static BasicFileAttributes attributes(Path file) throws IOException {
        BasicFileAttributes attributes = Files.readAttributes(file, BasicFileAttributes.class);
        if (attributes.isDirectory()) {
            throw new Refused("is a folder, not a file", "Give a file under this name.");
        }
        if (!attributes.isRegularFile()) {
            throw new Refused("is a device or a pipe, not a file", "Save its content in a file.");
        }
        return attributes;
    }

    /**
     * Reads the whole file.
     *
     * @param mostBytes the largest size that is read
     * @throws Refused when it is no regular file, too large or not readable
     */
    public static byte[] bytes(Path file, int mostBytes) throws Refused {
        try {
            BasicFileAttributes attributes = attributes(file);
            try (InputStream in = Files.newInputStream(file)) {
                byte[] bytes = in.readNBytes(mostBytes + 1);
                if (bytes.length > mostBytes) {
                    throw new Refused(
                            "has " + Math.max(attributes.size(), bytes.length) + " bytes; at most " + mostBytes
                                    + " are read",
                            "Give a smaller file; this is probably another kind of file.");
                }
                return bytes;
            }
        } catch (Refused refused) {
            throw refused;
        } catch (IOException e) {
            throw refusal(file, e);
        }
    }

    private static Refused refusal(Path file, IOException e) {
        if (Files.isSymbolicLink(file) && !Files.exists(file)) {
            return new Refused("is a link that leads to no file", "Let the link lead to the file, or remove it.");
        }
        if (e instanceof NoSuchFileException) {
            return new Refused("does not exist", "Write it, or name another folder.");
        }
        if (e instanceof AccessDeniedException) {
            return new Refused("may not be read by you", "Give yourself the permission to read it.");
        }
        return new Refused("cannot be read: " + e.getMessage(), "Give a readable file.");
    }
}
