package sprag.bench.cli;

import java.io.IOException;
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
        String kind = cause.getClass().getSimpleName().replace("Exception", "");
        String spoken = switch (kind) {
            case "AccessDenied" -> "no permission";
            case "NoSuchFile" -> "it does not exist";
            case "FileAlreadyExists", "NotDirectory" -> "it is in the way: not a folder";
            default -> cause.getMessage() == null ? kind : cause.getMessage().replace(path + ": ", "");
        };
        return spoken
                + (kind.equals("NoSuchFile") ? ". Name one that exists" : ". Choose another place, or make room there");
    }
}
