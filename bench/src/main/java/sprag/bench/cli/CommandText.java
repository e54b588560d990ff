package sprag.bench.cli;

import java.nio.file.Path;

/** Commands that are shown to a person, who copies them into a terminal. */
public final class CommandText {
    private CommandText() {}

    /** A path as one word of a command: in quotes when a shell would take it apart. */
    public static String quoted(Path path) {
        String text = path.toString();
        return text.matches("[\\w./:\\\\-]+") ? text : '"' + text + '"';
    }
}
