package sprag.bench.hand.board;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;

/** Asks a person, or whatever stands at the other end of the standard input. */
record Prompt(BufferedReader in, PrintWriter out) {

    /** The line that was typed; empty when the input has ended, so that nobody answering is never a yes. */
    String ask(String question) {
        out.print(question);
        out.flush();
        try {
            String line = in.readLine();
            if (System.console() == null) {
                out.println();
            }
            return line == null ? "" : line.trim();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read the answer to: " + question, e);
        }
    }
}
