package sprag.bench.hand.commission.steps;

import java.io.PrintWriter;
import java.util.Locale;
import sprag.bench.cli.Wrap;
import sprag.bench.hand.commission.pins.PinDriver;
import sprag.bench.hand.commission.record.StepAbandoned;

/** Questions and answers as plain lines on a terminal. {@code s}, {@code f} and {@code q} work at every question. */
public record Console(PrintWriter out, Answers answers, PinDriver driver) {
    private static final int COLUMNS = 78;

    public void say(String text) {
        say("", text);
    }

    public void say(String indent, String text) {
        Wrap.at(text, COLUMNS, indent).forEach(out::println);
        out.flush();
    }

    /** Waits for Enter. */
    void confirm(String text) throws StepAbandoned {
        ask("  > " + text + ". Then press Enter:", "");
    }

    /** A word that must be typed; anything else skips the step. */
    void typeWord(String text, String word) throws StepAbandoned {
        String typed = ask("  > " + text + " Type \"" + word + "\":", word);
        if (!typed.equalsIgnoreCase(word)) {
            throw StepAbandoned.skipped("\"" + word + "\" was not typed");
        }
    }

    /** Yes or no.
     *
     * @param simulated what the simulated person sees
     */
    boolean askYesNo(String question, boolean simulated) throws StepAbandoned {
        while (true) {
            String typed = ask("  > " + question + " y or n:", simulated ? "y" : "n");
            if (typed.equalsIgnoreCase("y") || typed.equalsIgnoreCase("yes")) {
                return true;
            }
            if (typed.equalsIgnoreCase("n") || typed.equalsIgnoreCase("no")) {
                return false;
            }
            say("  ", "\"" + typed + "\" is neither y nor n. Type one of them.");
        }
    }

    /** A few words, possibly none. */
    String askText(String question, String simulated) throws StepAbandoned {
        return ask("  > " + question, simulated);
    }

    /** A number. */
    double askNumber(String question, String unit, double simulated) throws StepAbandoned {
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
        String line = answers.next(driver, simulated);
        if (line == null) {
            out.println();
            throw StepAbandoned.sessionStopped();
        }
        String typed = line.trim();
        if (System.console() == null) {
            out.println(typed);
        }
        obeyLetter(typed);
        return typed;
    }

    /** Looks for a letter that was typed while nothing was asked. */
    void checkUnasked() throws StepAbandoned {
        String line = answers.unasked();
        if (line != null) {
            obeyLetter(line.trim());
        }
    }

    private static void obeyLetter(String typed) throws StepAbandoned {
        String rest = typed.length() > 1 ? typed.substring(1).trim() : "";
        if (typed.equalsIgnoreCase("q")) {
            throw StepAbandoned.sessionStopped();
        }
        if (typed.equalsIgnoreCase("s") || typed.startsWith("s ")) {
            throw StepAbandoned.skipped(rest);
        }
        if (typed.equalsIgnoreCase("f") || typed.startsWith("f ")) {
            throw StepAbandoned.failed(rest.isEmpty() ? "failed by hand, no reason was given" : rest);
        }
    }
}
