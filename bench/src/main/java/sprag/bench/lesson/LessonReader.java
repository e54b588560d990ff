package sprag.bench.lesson;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.lesson.Exercise.Kind;
import sprag.bench.lesson.Exercise.Task;
import sprag.bench.lesson.Exercise.Wrong;
import sprag.bench.lesson.Lesson.Figure;
import sprag.bench.lesson.Lesson.Play;
import sprag.bench.lesson.Lesson.Teacher;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;

/** Reads a lesson from its file. */
final class LessonReader {
    private static final List<String> KINDS =
            List.of("value", "choice", "order", "limit", "parameter", "interlocks", "scenario");

    private LessonReader() {}

    /** The lesson of a name, which stands beside this class. */
    static Lesson read(int number, String name) {
        String file = name + ".toml";
        try (InputStream in = LessonReader.class.getResourceAsStream(file)) {
            if (in == null) {
                throw new IllegalStateException(file + " is missing beside " + LessonReader.class.getName());
            }
            Problems problems = new Problems();
            String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            Section root = TomlFile.parse(Path.of(file), text, problems);
            Lesson lesson = lesson(number, name, root);
            root.end();
            problems.throwIfAny();
            return lesson;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + file, e);
        } catch (BadInput bad) {
            throw new IllegalStateException(bad.getMessage(), bad);
        }
    }

    private static Lesson lesson(int number, String name, Section root) {
        Section teacher = root.section("teacher");
        return new Lesson(
                number,
                name,
                root.text("title", null),
                root.text("aim", null),
                (int) root.number("minutes", Double.NaN, 5, 60, "be no lesson"),
                root.text("caution", null),
                exercise(root.section("predict")),
                plays(root.list("run")),
                root.list("figure").stream().map(LessonReader::figure).toList(),
                root.text("explain", null),
                root.list("exercise").stream().map(LessonReader::exercise).toList(),
                new Teacher(teacher.texts("next"), teacher.texts("traps")));
    }

    /** The runs. One with {@code like} has the story of an earlier one. */
    private static List<Play> plays(List<Section> sections) {
        List<Play> plays = new ArrayList<>();
        for (Section at : sections) {
            String like = at.text("like", "");
            String story = plays.stream()
                    .filter(each -> each.name().equals(like))
                    .map(Play::story)
                    .findFirst()
                    .orElse("");
            plays.add(play(at, story));
        }
        return plays;
    }

    private static Play play(Section at, String story) {
        return new Play(
                at.text("name", null),
                at.text("vehicle", null),
                at.text("scenario", ""),
                at.text("story", story),
                set(at),
                at.texts("without"));
    }

    /** Values of the vehicle's file that differ, one {@code key = value} each. */
    private static Map<String, Object> set(Section at) {
        Map<String, Object> set = new LinkedHashMap<>();
        for (String each : at.texts("set")) {
            String[] parts = each.split(" = ", 2);
            set.put(parts[0], parts[1].matches("-?[0-9.]+") ? Double.valueOf(parts[1]) : parts[1]);
        }
        return set;
    }

    private static Figure figure(Section at) {
        String play = at.text("run", "");
        return new Figure(
                at.text("name", null), play, at.text("vehicle", ""), at.text("ask", null), at.text("unit", ""));
    }

    private static Exercise exercise(Section at) {
        int kind = at.choice("kind", -1, KINDS);
        List<Wrong> wrongs = new ArrayList<>();
        at.list("wrong").forEach(each -> wrongs.add(new Wrong(each.text("is", null), each.text("reply", null))));
        return new Exercise(
                Kind.valueOf(KINDS.get(Math.max(0, kind)).toUpperCase(Locale.ROOT)),
                at.text("question", null),
                at.texts("answers"),
                at.texts("replies"),
                at.text("right", ""),
                at.number("tolerance", 0.02, 0, 1, "accept everything"),
                at.text("unit", ""),
                wrongs,
                at.texts("hints"),
                at.has("task") ? task(at.section("task")) : null,
                at.text("solution", ""));
    }

    private static Task task(Section at) {
        return new Task(
                at.text("vehicle", null),
                set(at),
                at.text("story", ""),
                at.text("key", ""),
                at.number("step", 0, -1e6, 1e6, "be no step"),
                at.texts("without"),
                (int) at.number("most", 1, 1, 20, "put everything back"));
    }
}
