package sprag.bench.cli;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;

/** Notices that what was printed did not arrive: Java's print streams keep that to themselves. */
public final class FullOutput {
    /** What the system says when the reader has ended, as {@code head} does; nobody misses the rest. */
    private static final String READER_LEFT = "Broken pipe";

    private FullOutput() {}

    /**
     * Tells when what was printed could not be written.
     *
     * @param printed where it was printed
     * @param below the stream below, which says why
     * @param err where it is told
     * @return whether something that somebody wanted is lost
     */
    public static boolean told(PrintStream printed, OutputStream below, PrintWriter err) {
        if (!printed.checkError()) {
            return false;
        }
        String reason = reason(below);
        if (READER_LEFT.equals(reason)) {
            return false;
        }
        err.println("sprag: the output could not be written: " + reason);
        return true;
    }

    /** The print stream has forgotten why, so another byte is tried. */
    private static String reason(OutputStream below) {
        try {
            below.write('\n');
            below.flush();
            return "it broke off";
        } catch (IOException e) {
            return e.getMessage();
        }
    }
}
