package sprag.bench;

import java.io.StringWriter;

/** A test that types commands and reads what they print. */
public abstract class TypingTest {
    private final TypedCommand typed = new TypedCommand();
    /** Everything printed to the standard output so far. */
    protected final StringWriter out = typed.out;
    /** Everything printed to the standard error so far. */
    protected final StringWriter err = typed.err;

    /** Types a command.
     *
     * @param words the words behind {@code sprag}
     * @return the exit status
     */
    protected final int sprag(String... words) {
        return typed.run(words);
    }
}
