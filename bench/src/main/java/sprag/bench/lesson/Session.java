package sprag.bench.lesson;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.InputFile;
import sprag.bench.lesson.Exercise.Kind;
import sprag.bench.lesson.Grader.Mark;
import sprag.bench.lesson.Lesson.Play;
import sprag.bench.vehicle.BadInput;

/** One pupil in one lesson at the terminal. */
final class Session {
    private static final int MOST_BYTES = 100_000;

    private final Given given;
    private final Lesson lesson;
    private final Grader grader;
    private final Dialogue dialogue;
    private final Progress progress;
    private final Path kept;

    /** Begins.
     *
     * @param kept where the progress is written after every answer
     */
    Session(Given given, Dialogue dialogue, Progress progress, Path kept) {
        this.given = given;
        this.lesson = given.lesson();
        this.grader = new Grader(given);
        this.dialogue = dialogue;
        this.progress = progress;
        this.kept = kept;
    }

    /** Gives the lesson. Returns whether every exercise has a right answer now. */
    boolean give() throws BadInput {
        opening();
        if (!predict()) {
            return left();
        }
        explain();
        int number = 1;
        for (Exercise exercise : lesson.exercises()) {
            if (!exercise(exercise, number++)) {
                return left();
            }
        }
        dialogue.say(
                complete()
                        ? "The lesson is done."
                        : "The lesson is over, and not every exercise is done: sprag lesson " + lesson.number()
                                + " asks those again.");
        return complete();
    }

    private boolean complete() {
        return progress.done(lesson.name()) == lesson.exercises().size();
    }

    private boolean left() {
        dialogue.say("Left here. What was answered is kept in " + kept + ".");
        return complete();
    }

    private void opening() {
        dialogue.heading(lesson.number() + ". " + lesson.title());
        dialogue.say(lesson.aim());
        dialogue.say("CAUTION. " + lesson.caution());
        dialogue.say("About " + lesson.minutes() + " minutes. At each prompt: an answer, or hint, skip, quit.");
    }

    private boolean predict() throws BadInput {
        Exercise predict = lesson.predict();
        dialogue.heading("First: what will happen?");
        ask(predict);
        String typed = dialogue.ask("your guess (" + predict.kind().asks + ")");
        if (typed == null || isQuit(typed)) {
            return false;
        }
        if (!typed.isEmpty() && !typed.equalsIgnoreCase("skip")) {
            Mark mark = grader.mark(predict, typed);
            progress.answered(lesson.name(), 0, typed, mark.right(), 0);
            progress.write(kept);
            dialogue.say((mark.right() ? "So it is. " : "Let us see. ") + mark.reply());
        }
        return true;
    }

    private void explain() throws BadInput {
        dialogue.heading("The run");
        for (Play play : lesson.plays()) {
            if (given.isExplained(play)) {
                dialogue.line("    " + command(play));
            }
        }
        dialogue.line("");
        dialogue.heading("What happened, and why");
        dialogue.say(given.text(lesson.explain()));
    }

    /** How the same can be played by hand. */
    static String command(Play play) {
        String without = play.without().isEmpty() ? "" : " --without " + String.join(" --without ", play.without());
        String set = play.set().isEmpty() ? "" : "   with " + String.join(", ", play.settings());
        return play.scenario().isEmpty()
                ? "(a run that this lesson makes by itself: " + play.name() + ", " + play.vehicle() + without + set
                        + ")"
                : "sprag run " + play.vehicle() + " " + play.scenario() + without + set;
    }

    private void ask(Exercise exercise) throws BadInput {
        dialogue.say(given.text(exercise.question()));
        dialogue.choices(given.texts(exercise.answers()));
    }

    /** Asks until the answer is right, or the pupil goes on. Returns false when they go away. */
    private boolean exercise(Exercise exercise, int number) throws BadInput {
        dialogue.heading("Exercise " + number + " of " + lesson.exercises().size());
        ask(exercise);
        int hints = 0;
        while (true) {
            String typed =
                    dialogue.ask(exercise.kind().asks + (exercise.unit().isEmpty() ? "" : " in " + exercise.unit()));
            if (typed == null || isQuit(typed)) {
                return false;
            }
            if (typed.equalsIgnoreCase("skip")) {
                dialogue.say(given.solution(exercise));
                progress.helped(lesson.name(), number, exercise.hints().size() + 1);
                progress.write(kept);
                return true;
            }
            if (typed.isEmpty() || typed.equalsIgnoreCase("hint")) {
                hints = hint(exercise.hints(), hints);
                progress.helped(lesson.name(), number, hints);
                progress.write(kept);
            } else if (answered(exercise, number, typed, hints)) {
                return true;
            }
        }
    }

    private static boolean isQuit(String typed) {
        return List.of("quit", "q").contains(typed.toLowerCase(Locale.ROOT));
    }

    private int hint(List<String> hints, int shown) throws BadInput {
        if (shown == hints.size()) {
            dialogue.say("There is no further hint. Type skip to read the answer.");
            return shown;
        }
        dialogue.say("Hint " + (shown + 1) + " of " + hints.size() + ". " + given.text(hints.get(shown)));
        return shown + 1;
    }

    /** Marks an answer and keeps it. Returns whether it was right. */
    boolean answered(Exercise exercise, int number, String typed, int hints) throws BadInput {
        String answer = typed;
        if (exercise.kind() == Kind.SCENARIO) {
            try {
                answer = new String(InputFile.bytes(Path.of(typed), MOST_BYTES), StandardCharsets.UTF_8);
            } catch (InputFile.Refused e) {
                dialogue.say(typed + " " + e.getMessage() + ". " + e.remedy());
                return false;
            } catch (java.nio.file.InvalidPathException e) {
                dialogue.say("That is no name of a file. Type the path to your scenario.");
                return false;
            }
        }
        Mark mark = grader.mark(exercise, answer);
        dialogue.say((mark.right() ? "Right. " : "No. ") + mark.reply());
        if (mark.right()) {
            dialogue.say(given.text(exercise.solution()));
        }
        // After the reply: a full disk must not keep it from the pupil.
        progress.answered(lesson.name(), number, answer, mark.right(), hints);
        progress.write(kept);
        return mark.right();
    }
}
