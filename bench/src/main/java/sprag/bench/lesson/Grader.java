package sprag.bench.lesson;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import sprag.bench.cli.Numbers;
import sprag.bench.lesson.Exercise.Task;
import sprag.bench.lesson.Exercise.Wrong;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Row;

/** Checks answers. A wrong one gets an answer to that mistake, where the mistake is known. */
final class Grader {
    /** A wrong value is known within this share of it. */
    private static final double KNOWN_WITHIN = 0.03;

    private static final String ANSWER = "ANSWER";
    private static final int LONGEST = 100_000;

    private final Given given;

    Grader(Given given) {
        this.given = given;
    }

    /** What is said to an answer. */
    record Mark(boolean right, String reply) {}

    /** Checks an answer.
     *
     * @param answer what was typed; for a scenario, the text of the file
     */
    Mark mark(Exercise exercise, String answer) throws BadInput {
        String typed = answer.strip();
        if (typed.isEmpty() || typed.length() > LONGEST) {
            return new Mark(false, "Type " + exercise.kind().asks + ".");
        }
        return switch (exercise.kind()) {
            case CHOICE, ORDER -> letters(exercise, typed);
            case VALUE -> value(exercise, typed);
            case LIMIT -> limit(exercise, typed);
            case PARAMETER -> parameter(exercise, typed);
            case INTERLOCKS -> interlocks(exercise, typed);
            case SCENARIO -> scenario(exercise, typed);
        };
    }

    private Mark letters(Exercise exercise, String typed) throws BadInput {
        String letters = typed.toLowerCase(Locale.ROOT).replaceAll("[\\s,;.)>-]+", "");
        char last = (char) ('a' + exercise.answers().size() - 1);
        boolean known = letters.matches("[a-" + last + "]+");
        boolean twice = letters.chars().distinct().count() < letters.length();
        if (!known || twice) {
            return new Mark(false, "Type letters from a to " + last + ", each once.");
        }
        boolean right = exercise.kind() == Exercise.Kind.ORDER
                ? letters.equals(exercise.right())
                : sorted(letters).equals(sorted(exercise.right()));
        boolean single = letters.length() == 1 && exercise.right().length() == 1;
        String reply = single ? said(exercise, letters.charAt(0)) : right ? "" : missed(exercise, letters);
        return new Mark(right, given.text(reply));
    }

    private static Set<Integer> sorted(String letters) {
        return letters.chars().boxed().collect(java.util.stream.Collectors.toCollection(TreeSet::new));
    }

    /** What is said to one letter; nothing where the lesson has no words for it. */
    private static String said(Exercise exercise, int letter) {
        return exercise.replies().isEmpty() ? "" : exercise.replies().get(letter - 'a');
    }

    /** Which of several letters are right, and what is wrong with the first that is not, without telling those that are missing. */
    private static String missed(Exercise exercise, String letters) {
        if (exercise.kind() == Exercise.Kind.ORDER) {
            int same = 0;
            while (same < Math.min(letters.length(), exercise.right().length())
                    && letters.charAt(same) == exercise.right().charAt(same)) {
                same++;
            }
            return same == 0
                    ? "The first one already comes at another place."
                    : "The first " + same + " are in the right place.";
        }
        long good =
                letters.chars().filter(c -> exercise.right().indexOf(c) >= 0).count();
        String why = letters.chars()
                .filter(c -> exercise.right().indexOf(c) < 0)
                .mapToObj(c -> " " + (char) c + ": " + said(exercise, c))
                .findFirst()
                .orElse("");
        return good + " of your " + letters.length() + " belong there; "
                + exercise.right().length() + " in all are right." + why;
    }

    private Mark value(Exercise exercise, String typed) throws BadInput {
        TypedNumber number = TypedNumber.of(typed, exercise.unit());
        if (!number.trouble().isEmpty()) {
            return new Mark(false, number.trouble());
        }
        double value = number.value();
        double right = given.number(exercise.right());
        if (Math.abs(value - right) <= exercise.tolerance() * Math.abs(right)) {
            return new Mark(true, "The program finds " + Numbers.text(right, exercise.unit()) + ".");
        }
        String known = knownMistake(exercise, value);
        if (!known.isEmpty()) {
            return new Mark(false, known);
        }
        for (double factor : new double[] {1000, 0.001, 1e6, 1e-6}) {
            if (Math.abs(value * factor - right) <= exercise.tolerance() * Math.abs(right)) {
                return new Mark(
                        false, "The digits are right, the unit is not: it is asked for in " + exercise.unit() + ".");
            }
        }
        return new Mark(false, value < right ? "It is more than that." : "It is less than that.");
    }

    private String knownMistake(Exercise exercise, double value) throws BadInput {
        for (Wrong wrong : exercise.wrongs()) {
            double is = given.number(wrong.is());
            if (Math.abs(value - is) <= KNOWN_WITHIN * Math.abs(is)) {
                return given.text(wrong.reply());
            }
        }
        return "";
    }

    /** The story must go well with the answer, and not with one step less. */
    private Mark limit(Exercise exercise, String typed) throws BadInput {
        Task task = exercise.task();
        TypedNumber number = TypedNumber.of(typed, exercise.unit());
        if (!number.trouble().isEmpty()) {
            return new Mark(false, number.trouble());
        }
        double value = number.value();
        if (Math.abs(value / task.step() - Math.rint(value / task.step())) > 1e-6) {
            return new Mark(
                    false, "It is asked for in steps of " + Numbers.text(Math.abs(task.step()), exercise.unit()) + ".");
        }
        double beyond = Math.round((value + task.step()) * 1e6) / 1e6;
        boolean does = goesWell(task, Map.of(), value);
        boolean lessDoes = does && goesWell(task, Map.of(), beyond);
        boolean right = does && !lessDoes;
        String known = right ? "" : knownMistake(exercise, value);
        String shown = Numbers.text(value, exercise.unit());
        String other = Numbers.text(beyond, exercise.unit());
        String tried = !does
                ? "It was tried with " + shown + ": it does not go as asked."
                : lessDoes
                        ? "It was tried with " + shown + " and goes as asked, but so it does with " + other + "."
                        : "It was tried: with " + shown + " it goes as asked, with " + other + " it does not.";
        return new Mark(right, known.isEmpty() ? tried : tried + " " + known);
    }

    private boolean goesWell(Task task, Map<String, Object> changed, double answer) throws BadInput {
        Map<String, Object> set = new HashMap<>(task.set());
        set.putAll(changed);
        String story = task.story().replace(ANSWER, String.format(Locale.ROOT, "%.6f", answer));
        try {
            Scenario scenario = Sandbox.story("exercise.toml", story);
            Vehicle vehicle = given.sandbox().vehicle(task.vehicle(), set);
            return Sandbox.play(vehicle, scenario, Sandbox.rows(task.without()))
                    .result()
                    .passed();
        } catch (BadInput outside) {
            return false; // a value that no lever and no time can have
        }
    }

    private Mark parameter(Exercise exercise, String typed) throws BadInput {
        TypedNumber number = TypedNumber.of(typed, exercise.unit());
        if (!number.trouble().isEmpty()) {
            return new Mark(false, number.trouble());
        }
        double value = number.value();
        Row row = Sandbox.row(exercise.task().key()).orElseThrow();
        if (!(value >= row.min() && value <= row.max())) {
            return new Mark(
                    false,
                    row.key() + " goes from " + Numbers.text(row.min()) + " to " + Numbers.text(row.max()) + ".");
        }
        boolean right = goesWell(exercise.task(), Map.of(row.key(), value), value);
        String known = right ? "" : knownMistake(exercise, value);
        String tried = "It was tried with " + row.key() + " = " + Numbers.text(value)
                + (right ? ": it goes as asked." : ": it does not go as asked.");
        return new Mark(right, known.isEmpty() ? tried : tried + " " + known);
    }

    private Mark interlocks(Exercise exercise, String typed) throws BadInput {
        Task task = exercise.task();
        Set<Interlock> back;
        try {
            back = Sandbox.rows(List.of(typed.toLowerCase(Locale.ROOT).split("[\\s,;]+")));
        } catch (IllegalArgumentException e) {
            return new Mark(false, e.getMessage());
        }
        Set<Interlock> out = Sandbox.rows(task.without());
        if (!out.containsAll(back)) {
            return new Mark(
                    false, "Put back one of those that are missing: " + String.join(", ", task.without()) + ".");
        }
        if (back.size() > task.most()) {
            return new Mark(false, "That goes with fewer: " + task.most() + " at most.");
        }
        out.removeAll(back);
        Vehicle vehicle = given.sandbox().vehicle(task.vehicle(), task.set());
        RunResult result = Sandbox.play(vehicle, Sandbox.story("exercise.toml", task.story()), out)
                .result();
        return new Mark(
                result.passed(),
                result.passed()
                        ? "It was tried: with it back, the run goes as asked."
                        : "It was tried: the run still ends badly. " + firstFailure(result));
    }

    private static String firstFailure(RunResult result) {
        return result.judged().stream()
                .filter(each -> !each.verdict().passed())
                .findFirst()
                .map(each -> "Not met: " + each.expectation().text() + " ("
                        + each.verdict().detail() + ").")
                .orElse("A step of it was never done.");
    }

    /** The scenario must pass as it is, and fail when each of the named interlocks is taken out. */
    private Mark scenario(Exercise exercise, String text) throws BadInput {
        Task task = exercise.task();
        Scenario scenario;
        try {
            scenario = Sandbox.written("your-scenario.toml", text);
        } catch (BadInput bad) {
            return new Mark(
                    false, "The file cannot be played. " + bad.problems().get(0).message());
        }
        if (scenario.durationMs() > 120_000) {
            return new Mark(false, "It lasts " + scenario.durationMs() / 1000 + " s; 120 s are enough here.");
        }
        Vehicle vehicle = given.sandbox().vehicle(task.vehicle(), task.set());
        try {
            RunResult sound = Sandbox.play(vehicle, scenario, Set.of()).result();
            if (!sound.passed()) {
                return new Mark(false, "It fails on the sound " + vehicle.name() + ". " + firstFailure(sound));
            }
            for (String id : task.without()) {
                if (Sandbox.play(vehicle, scenario, Sandbox.rows(List.of(id)))
                        .result()
                        .passed()) {
                    return new Mark(
                            false,
                            "It passes, but it also passes without " + id
                                    + ": it would not notice that this interlock is gone.");
                }
            }
        } catch (IllegalArgumentException e) {
            return new Mark(false, "It cannot be played on the " + vehicle.name() + ": " + e.getMessage());
        }
        return new Mark(
                true,
                "It passes on the sound " + vehicle.name() + " and fails without "
                        + String.join(", and without ", task.without()) + ".");
    }
}
