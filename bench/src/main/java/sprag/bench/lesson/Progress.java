package sprag.bench.lesson;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.OutFolder;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;

/**
 * What a pupil has answered, in a file that is also what is handed in. Its check sum shows that the file was changed by hand. It
 * is no secret: a teacher's check marks every answer again.
 */
final class Progress {
    /** Where it is kept unless somebody says otherwise. */
    static final String FILE = "sprag-lessons.toml";

    private static final int MOST_EXERCISES = 20;
    private static final String SALT = "sprag lessons 1";

    /**
     * What was done about one exercise.
     *
     * @param number of the exercise, from 1; 0 for the prediction
     * @param answer the last one
     * @param right whether it was right
     * @param tries how many answers were given
     * @param hints how many hints were shown
     */
    record Entry(String lesson, int number, String answer, boolean right, int tries, int hints) {}

    private final String name;
    private final List<Entry> entries;
    private final boolean sound;

    private Progress(String name, List<Entry> entries, boolean sound) {
        this.name = name;
        this.entries = new ArrayList<>(entries);
        this.sound = sound;
    }

    /** What a file holds; nothing done yet when there is no file.
     *
     * @param name of the pupil, null to keep the name in the file
     */
    static Progress of(Path file, String name) throws BadInput {
        if (!InputFile.isThere(file)) {
            return new Progress(name == null ? "" : name, List.of(), true);
        }
        return read(file, name);
    }

    /** What a pupil has handed in; a file that is not there is refused. */
    static Progress handedIn(Path file) throws BadInput {
        return read(file, null);
    }

    private static Progress read(Path file, String name) throws BadInput {
        Problems problems = new Problems();
        Section root = TomlFile.read(file, problems);
        String written = root.text("name", "");
        String sum = root.text("sum", null);
        List<Entry> entries = new ArrayList<>();
        for (Section at : root.list("done")) {
            int lesson = at.choice("lesson", -1, Lessons.NAMES);
            entries.add(new Entry(
                    lesson < 0 ? "" : Lessons.NAMES.get(lesson),
                    (int) at.number("exercise", Double.NaN, 0, MOST_EXERCISES, "be no exercise"),
                    at.text("answer", null),
                    at.flag("right", false),
                    (int) at.number("tries", Double.NaN, 0, 1e6, "be no count"),
                    (int) at.number("hints", Double.NaN, 0, 1e6, "be no count")));
        }
        root.end();
        problems.throwIfAny();
        boolean sound = sum.equals(sum(body(written, entries)));
        return new Progress(name == null ? written : name, entries, sound);
    }

    /** The pupil, empty when no name was given. */
    String name() {
        return name;
    }

    /** Whether the check sum fits. */
    boolean isSound() {
        return sound;
    }

    List<Entry> entries() {
        return List.copyOf(entries);
    }

    Optional<Entry> of(String lesson, int number) {
        return entries.stream()
                .filter(each -> each.lesson().equals(lesson) && each.number() == number)
                .findFirst();
    }

    /** How many exercises of a lesson were answered rightly. */
    long done(String lesson) {
        return entries.stream()
                .filter(each -> each.lesson().equals(lesson) && each.number() > 0 && each.right())
                .count();
    }

    /** Notes an answer. An exercise that was done rightly once stays done, with that answer. */
    void answered(String lesson, int number, String answer, boolean right, int hints) {
        Entry before = of(lesson, number).orElse(new Entry(lesson, number, "", false, 0, 0));
        boolean keep = before.right() && !right;
        replace(new Entry(
                lesson,
                number,
                keep ? before.answer() : answer,
                before.right() || right,
                before.tries() + 1,
                Math.max(hints, before.hints())));
    }

    /** Notes how many hints were shown; an answer that was shown counts as one hint more than there are. */
    void helped(String lesson, int number, int hints) {
        Entry before = of(lesson, number).orElse(new Entry(lesson, number, "", false, 0, 0));
        replace(new Entry(
                lesson, number, before.answer(), before.right(), before.tries(), Math.max(hints, before.hints())));
    }

    private void replace(Entry entry) {
        entries.removeIf(each -> each.lesson().equals(entry.lesson()) && each.number() == entry.number());
        entries.add(entry);
        entries.sort(java.util.Comparator.comparingInt((Entry each) -> Lessons.NAMES.indexOf(each.lesson()))
                .thenComparingInt(Entry::number));
    }

    /** Writes the file. */
    void write(Path file) {
        String body = body(name, entries);
        OutFolder.write(
                file,
                "# What was done in the lessons of Sprag. This file is what is handed in; do not change it by hand.\n"
                        + "sum = \"" + sum(body) + "\"\n" + body);
    }

    private static String body(String name, List<Entry> entries) {
        StringBuilder text = new StringBuilder("name = " + quoted(name) + "\n");
        for (Entry entry : entries) {
            text.append("\n[[done]]\nlesson = ")
                    .append(quoted(entry.lesson()))
                    .append("\nexercise = ")
                    .append(entry.number())
                    .append("\nanswer = ")
                    .append(quoted(entry.answer()))
                    .append("\nright = ")
                    .append(entry.right())
                    .append("\ntries = ")
                    .append(entry.tries())
                    .append("\nhints = ")
                    .append(entry.hints())
                    .append('\n');
        }
        return text.toString();
    }

    private static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        for (char c : text.toCharArray()) {
            switch (c) {
                case '"', '\\' -> quoted.append('\\').append(c);
                case '\n' -> quoted.append("\\n");
                case '\t' -> quoted.append("\\t");
                default -> quoted.append(c < ' ' || c == 127 ? ' ' : c);
            }
        }
        return quoted.append('"').toString();
    }

    private static String sum(String body) {
        try {
            byte[] bytes = (SALT + body).getBytes(StandardCharsets.UTF_8);
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes), 0, 8);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
