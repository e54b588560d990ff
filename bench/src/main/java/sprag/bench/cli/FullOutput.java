package sprag.bench.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;

/** Notices that what was printed did not arrive: Java's print streams keep that to themselves. */
public final class FullOutput {
    /** What the system says when the reader has ended, as {@code head} does; nobody misses the rest. */
    private static final String READER_LEFT = "Broken pipe";

    private FullOutput() {}

    /**
     * Tells on the error stream when standard output could not be written.
     *
     * @return whether something that somebody wanted is lost
     */
    public static boolean told() {
        if (!System.out.checkError()) {
            return false;
        }
        String reason = reason();
        if (READER_LEFT.equals(reason)) {
            return false;
        }
        System.err.println("sprag: the output could not be written: " + reason);
        return true;
    }

    /** The print stream has forgotten why, so another byte is tried. */
    private static String reason() {
        try (FileOutputStream out = new FileOutputStream(FileDescriptor.out)) {
            out.write('\n');
            return "it broke off";
        } catch (IOException e) {
            return e.getMessage();
        }
    }
}
