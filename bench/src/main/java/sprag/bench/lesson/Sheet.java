package sprag.bench.lesson;

import sprag.bench.cli.Numbers;
import sprag.bench.vehicle.BadInput;

/** A lesson printed in one piece. */
final class Sheet {
    private final Given given;
    private final Lesson lesson;
    private final Dialogue to;

    Sheet(Given given, Dialogue to) {
        this.given = given;
        this.lesson = given.lesson();
        this.to = to;
    }

    /** Prints it.
     *
     * @param teacher whether answers and traps are printed too
     */
    void print(boolean teacher) throws BadInput {
        to.heading(lesson.number() + ". " + lesson.title());
        to.say(lesson.aim());
        to.say("CAUTION. " + lesson.caution());
        to.say("About " + lesson.minutes() + " minutes.");
        to.heading("What will happen?");
        exercise(lesson.predict(), teacher);
        to.heading("What happened, and why");
        to.say(given.text(lesson.explain()));
        int number = 1;
        for (Exercise exercise : lesson.exercises()) {
            to.heading("Exercise " + number++);
            exercise(exercise, teacher);
        }
        if (teacher) {
            to.heading("For the teacher");
            to.say("What usually goes wrong:\n- "
                    + String.join("\n- ", given.texts(lesson.teacher().traps())));
            to.say("Ask next:\n- "
                    + String.join("\n- ", given.texts(lesson.teacher().next())));
        }
    }

    private void exercise(Exercise exercise, boolean teacher) throws BadInput {
        to.say(given.text(exercise.question()));
        to.choices(given.texts(exercise.answers()));
        if (!teacher) {
            return;
        }
        to.say(given.solution(exercise));
        StringBuilder points = new StringBuilder();
        for (int i = 0; i < exercise.replies().size(); i++) {
            points.append("- ")
                    .append((char) ('a' + i))
                    .append(": ")
                    .append(exercise.replies().get(i))
                    .append('\n');
        }
        for (Exercise.Wrong wrong : exercise.wrongs()) {
            points.append("- ")
                    .append(Numbers.text(given.number(wrong.is()), exercise.unit()))
                    .append(": ")
                    .append(wrong.reply())
                    .append('\n');
        }
        to.say(given.text(points.toString()));
    }
}
