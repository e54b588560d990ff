package sprag.bench.hand.commission;

import java.io.PrintWriter;
import java.util.Locale;
import sprag.bench.cli.Wrap;

/** Plain lines on a terminal: what is said, and what is asked. The same letters everywhere. */
final class Console {
    private static final int COLUMNS = 78;

    private final PrintWriter out;
    private final Answers answers;
    private final PinDriver bed;

    Console(PrintWriter out, Answers answers, PinDriver bed) {
        this.out = out;
        this.answers = answers;
        this.bed = bed;
    }

    void say(String text) {
        say("", text);
    }

    void say(String indent, String text) {
        Wrap.at(text, COLUMNS, indent).forEach(out::println);
        out.flush();
    }

    /** Enter goes on. */
    void go(String text) throws StepAbandoned {
        ask("  > " + text + ". Then Enter:", "");
    }

    /** A word that must be typed; anything else skips the step. */
    void word(String text, String word) throws StepAbandoned {
        String typed = ask("  > " + text + " Type \"" + word + "\":", word);
        if (!typed.equalsIgnoreCase(word)) {
            throw StepAbandoned.skipped("\"" + word + "\" was not typed");
        }
    }

    /** Yes or no.
     *
     * @param simulated what the simulated person sees
     */
    boolean yes(String question, boolean simulated) throws StepAbandoned {
        while (true) {
            String typed = ask("  > " + question + " y or n:", simulated ? "y" : "n");
            if (typed.equalsIgnoreCase("y") || typed.equalsIgnoreCase("yes")) {
                return true;
            }
            if (typed.equalsIgnoreCase("n") || typed.equalsIgnoreCase("no")) {
                return false;
            }
            say("  ", "\"" + typed + "\" is neither y nor n.");
        }
    }

    /** A few words, possibly none. */
    String words(String question, String simulated) throws StepAbandoned {
        return ask("  > " + question, simulated);
    }

    /** A number. */
    double number(String question, String unit, double simulated) throws StepAbandoned {
        while (true) {
            String typed = ask(
                    "  > " + question + (unit.isEmpty() ? ":" : " (" + unit + "):"),
                    String.format(Locale.ROOT, "%.4f", simulated));
            try {
                double value = Double.parseDouble(typed.replace(',', '.'));
                if (Double.isFinite(value)) {
                    return value;
                }
            } catch (NumberFormatException e) {
                // told below
            }
            say("  ", "\"" + typed + "\" is not a number. Type what the meter shows, or s to skip.");
        }
    }

    private String ask(String question, String simulated) throws StepAbandoned {
        Wrap.at(question, COLUMNS - 2, "").forEach(out::println);
        out.print("    ");
        out.flush();
        String line = answers.next(bed, simulated);
        if (line == null) {
            out.println();
            throw StepAbandoned.stopped();
        }
        String typed = line.trim();
        if (System.console() == null) {
            out.println(typed);
        }
        heed(typed);
        return typed;
    }

    /** Looks whether somebody wants to leave while something is watched. */
    void heedUnasked() throws StepAbandoned {
        String line = answers.unasked();
        if (line != null) {
            heed(line.trim());
        }
    }

    private static void heed(String typed) throws StepAbandoned {
        String rest = typed.length() > 1 ? typed.substring(1).trim() : "";
        if (typed.equalsIgnoreCase("q")) {
            throw StepAbandoned.stopped();
        }
        if (typed.equalsIgnoreCase("s") || typed.startsWith("s ")) {
            throw StepAbandoned.skipped(rest);
        }
        if (typed.equalsIgnoreCase("f") || typed.startsWith("f ")) {
            throw StepAbandoned.failed(rest.isEmpty() ? "whoever did it said so, without a word" : rest);
        }
    }
}
