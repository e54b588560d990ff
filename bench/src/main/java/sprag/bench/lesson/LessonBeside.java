package sprag.bench.lesson;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Json;
import sprag.bench.cli.Trouble;
import sprag.bench.lesson.Grader.Mark;
import sprag.bench.panel.web.Beside;
import sprag.bench.vehicle.BadInput;

/** A lesson beside the car on the panel. The explanation comes after the guess, and every answer is kept. */
final class LessonBeside implements Beside {
    private final Given given;
    private final Lesson lesson;
    private final Progress progress;
    private final Path kept;

    LessonBeside(Given given, Progress progress, Path kept) {
        this.given = given;
        this.lesson = given.lesson();
        this.progress = progress;
        this.kept = kept;
    }

    @Override
    public synchronized String text() {
        ObjectNode all = Json.object();
        all.put("number", lesson.number()).put("title", lesson.title());
        all.set("aim", blocks(lesson.aim()));
        all.set("caution", blocks(lesson.caution()));
        all.set("predict", question(lesson.predict()));
        ArrayNode exercises = all.putArray("exercises");
        lesson.exercises().forEach(each -> exercises.add(question(each)));
        return all.toString();
    }

    private ObjectNode question(Exercise exercise) {
        ObjectNode node = Json.object();
        node.put("kind", exercise.kind().name().toLowerCase(Locale.ROOT));
        node.put("asks", exercise.kind() == Exercise.Kind.SCENARIO ? "your scenario" : exercise.kind().asks);
        node.put("unit", exercise.unit());
        node.set("question", blocks(filled(exercise.question())));
        ArrayNode answers = node.putArray("answers");
        exercise.answers().forEach(each -> answers.add(filled(each)));
        return node;
    }

    @Override
    public synchronized String answer(int place, String typed) {
        String words = typed.strip();
        if (place > lesson.exercises().size()) {
            return reply(false, "There is no such question.").toString();
        }
        Exercise exercise = place == 0 ? lesson.predict() : lesson.exercises().get(place - 1);
        ObjectNode node;
        if (place > 0 && words.matches("hint \\d{1,3}")) {
            int number = Math.min(
                    Integer.parseInt(words.substring(5)), exercise.hints().size() + 1);
            node = reply(
                    false,
                    hint(exercise, number)
                            + kept(place, Math.min(number, exercise.hints().size())));
        } else if (place > 0 && words.equals("skip")) {
            node = reply(
                    false, solution(exercise) + kept(place, exercise.hints().size() + 1));
        } else if (place == 0 && words.isEmpty()) {
            node = reply(false, "");
        } else {
            node = marked(exercise, place, words);
        }
        if (place == 0) {
            node.set("explain", blocks(filled(lesson.explain())));
        }
        return node.toString();
    }

    private String hint(Exercise exercise, int number) {
        List<String> hints = exercise.hints();
        return number > hints.size()
                ? "There is no further hint."
                : "Hint " + number + " of " + hints.size() + ". " + filled(hints.get(number - 1));
    }

    /** Keeps what was shown; returns what to add when that cannot be kept. */
    private String kept(int place, int hints) {
        progress.helped(lesson.name(), place, hints);
        try {
            progress.write(kept);
            return "";
        } catch (Trouble trouble) {
            return "\n\nThis is not kept: " + trouble.getMessage();
        }
    }

    private String solution(Exercise exercise) {
        try {
            return given.solution(exercise);
        } catch (BadInput bad) {
            throw new IllegalStateException(bad);
        }
    }

    private ObjectNode marked(Exercise exercise, int place, String words) {
        Mark mark = mark(exercise, words);
        progress.answered(lesson.name(), place, words, mark.right(), 0);
        try {
            progress.write(kept);
        } catch (Trouble trouble) {
            return reply(mark.right(), mark.reply() + "\n\nThe answer is not kept: " + trouble.getMessage());
        }
        String before = place == 0 ? "" : mark.right() ? "Right. " : "No. ";
        String after = place > 0 && mark.right() ? "\n\n" + filled(exercise.solution()) : "";
        return reply(mark.right(), before + mark.reply() + after);
    }

    private Mark mark(Exercise exercise, String words) {
        try {
            return new Grader(given).mark(exercise, words);
        } catch (BadInput bad) {
            throw new IllegalStateException(bad);
        }
    }

    private String filled(String template) {
        try {
            return given.text(template);
        } catch (BadInput bad) {
            throw new IllegalStateException(bad);
        }
    }

    private static ObjectNode reply(boolean right, String text) {
        ObjectNode node = Json.object().put("right", right);
        node.set("reply", blocks(text));
        return node;
    }

    private static ArrayNode blocks(String text) {
        ArrayNode all = Json.array();
        for (Prose.Block block : Prose.blocks(text)) {
            all.addObject()
                    .put("kind", block.kind().name().toLowerCase(Locale.ROOT))
                    .put("text", block.text());
        }
        return all;
    }
}
