package sprag.bench.begin;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.Wrap;
import sprag.bench.vehicle.BadInput;

/** The questions on a terminal, one after the other. */
final class Interview {
    private static final int COLUMNS = 79;
    private static final String BACK = "back";

    private final BufferedReader in;
    private final PrintWriter out;

    /** The questions that were asked before the present one, the latest first. */
    private final Deque<Integer> asked = new ArrayDeque<>();

    Interview(BufferedReader in, PrintWriter out) {
        this.in = in;
        this.out = out;
    }

    /**
     * Asks all that concerns the car. An empty line takes the answer in brackets.
     *
     * @return whether all was asked; false when the input ended before
     */
    boolean ask(Answers answers) throws IOException {
        Question[] all = Question.values();
        out.println("An empty line takes the answer in brackets; " + BACK + " returns to the question before.");
        out.println("At most " + all.length + " questions; nothing is written before the last one.");
        int next = 0;
        while (next < all.length) {
            if (!all[next].applies(answers)) {
                next++;
                continue;
            }
            explain(all[next]);
            String typed = answer(answers, all[next]);
            if (typed == null) {
                out.println();
                out.println("The input ended before the last question: nothing was written.");
                out.flush();
                return false;
            }
            if (typed.equals(BACK)) {
                next = asked.isEmpty() ? next : asked.pop();
            } else {
                asked.push(next++);
            }
        }
        out.println();
        return true;
    }

    private void explain(Question question) {
        List<String> lines = new ArrayList<>(Wrap.lines(question.question, COLUMNS));
        lines.addAll(Wrap.hanging("  ", "  ", "why: " + question.why, COLUMNS));
        out.println();
        lines.forEach(out::println);
    }

    /** What was typed once it is an answer, or the word that goes back; null when the input has ended. */
    private String answer(Answers answers, Question question) throws IOException {
        String before = answers.text(question).replace("\"", "");
        while (true) {
            Runnable undo = answers.undo(question);
            out.print("  " + allowed(question) + " [" + before + "]: ");
            out.flush();
            String line = in.readLine();
            String typed = line == null ? null : line.strip();
            if (typed == null || typed.equals(BACK)) {
                return typed;
            }
            if ((typed.isEmpty() || taken(answers, question, typed)) && isSound(answers, question)) {
                return typed;
            }
            undo.run();
        }
    }

    /** What contradicts an answer is told at once, while it can be asked again. */
    private boolean isSound(Answers answers, Question question) {
        List<Contradiction> wrong = Contradiction.of(answers).stream()
                .filter(c -> c.at() == question)
                .toList();
        wrong.forEach(c -> Wrap.at("This cannot be: " + c.what() + ". " + c.remedy(), COLUMNS, "  ")
                .forEach(out::println));
        return wrong.isEmpty();
    }

    private boolean taken(Answers answers, Question question, String typed) {
        try {
            answers.set(Map.of(question.key(), typed.replace(',', '.')));
            return true;
        } catch (BadInput e) {
            String asked = question.choices().isEmpty() ? "write a number alone, " : "write ";
            Wrap.at("\"" + typed + "\" is no answer: " + asked + allowed(question) + ".", COLUMNS, "  ")
                    .forEach(out::println);
            return false;
        }
    }

    private static String allowed(Question question) {
        return question.choices().isEmpty()
                ? Numbers.text(question.min()) + " to " + Numbers.text(question.max(), Numbers.symbol(question.unit()))
                : String.join(" or ", question.choices());
    }
}
