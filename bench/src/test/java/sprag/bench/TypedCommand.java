package sprag.bench;

import java.io.PrintWriter;
import java.io.StringWriter;

/** A command as a person types it, with what it prints kept apart by stream. */
public final class TypedCommand {
    /** Everything printed to the standard output so far. */
    public final StringWriter out = new StringWriter();

    /** Everything printed to the standard error so far. */
    public final StringWriter err = new StringWriter();

    /** Runs a command.
     *
     * @param words the words behind {@code sprag}
     * @return the exit status
     */
    public int run(String... words) {
        return Sprag.commandLineFor(words)
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(err, true))
                .execute(words);
    }
}
