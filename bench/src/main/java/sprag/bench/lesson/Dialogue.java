package sprag.bench.lesson;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.util.List;
import sprag.bench.cli.Wrap;

/** The terminal as a lesson uses it: text out, lines in. The end of the input is a pupil who goes away. */
final class Dialogue {
    private static final int COLUMNS = 79;
    private static final int LONGEST_LINE = 4_000;

    private final BufferedReader in;
    private final PrintWriter out;
    private final boolean echoes;

    /** Talks.
     *
     * @param echoes whether a line that was read is printed, because no terminal has shown it
     */
    Dialogue(InputStream in, PrintWriter out, boolean echoes) {
        this.in = new BufferedReader(new InputStreamReader(in, Charset.defaultCharset()));
        this.out = out;
        this.echoes = echoes;
    }

    /** A paragraph or more, with an empty line behind. */
    void say(String text) {
        if (!text.isBlank()) {
            Prose.lines(text).forEach(out::println);
            out.println();
        }
    }

    /** What can be chosen, a letter before each. */
    void choices(List<String> answers) {
        for (int i = 0; i < answers.size(); i++) {
            String letter = "  " + (char) ('a' + i) + ") ";
            Wrap.hanging(letter, "     ", answers.get(i), COLUMNS).forEach(out::println);
        }
        if (!answers.isEmpty()) {
            out.println();
        }
    }

    void heading(String text) {
        out.println(text);
        out.println("-".repeat(Math.min(79, text.length())));
        out.println();
    }

    /** One line as it is. */
    void line(String text) {
        out.println(text);
    }

    /** Asks for a line. Returns what was typed without blanks around it, null at the end of the input. */
    String ask(String prompt) {
        out.print(prompt + " > ");
        out.flush();
        try {
            String line = in.readLine();
            if (line == null || echoes) {
                out.println(line == null ? "" : line);
            }
            out.println();
            return line == null
                    ? null
                    : line.strip()
                            .substring(0, Math.min(LONGEST_LINE, line.strip().length()));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read what is typed", e);
        }
    }
}
