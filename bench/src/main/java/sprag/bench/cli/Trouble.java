package sprag.bench.cli;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;

/** Trouble outside the program: a full disk, a folder that cannot be written, a board that is gone. Exit status 3. */
public final class Trouble extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** Trouble with something that is not a file.
     *
     * @param message what happened and what to do
     */
    public Trouble(String message) {
        super(message);
    }

    /** Trouble with a file or a folder.
     *
     * @param doing what was attempted, e.g. {@code cannot write}
     */
    public Trouble(String doing, Path path, IOException cause) {
        super(doing + " " + path + ": " + reason(path, cause), cause);
    }

    /** What the system said, without the path again. */
    private static String reason(Path path, IOException cause) {
        boolean missing = cause instanceof NoSuchFileException;
        boolean inTheWay = cause instanceof FileAlreadyExistsException || cause instanceof NotDirectoryException;
        String spoken = cause instanceof AccessDeniedException
                ? "no permission"
                : missing ? "it does not exist" : inTheWay ? "it is in the way: not a folder" : spoken(path, cause);
        return spoken + (missing ? ". Name one that exists" : ". Choose another place, or make room there");
    }

    private static String spoken(Path path, IOException cause) {
        return cause.getMessage() == null
                ? cause.getClass().getSimpleName().replace("Exception", "")
                : cause.getMessage().replace(path + ": ", "");
    }
}
