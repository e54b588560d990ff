package sprag.bench.begin;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.Wrap;
import sprag.bench.explain.KeyEntries;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.SizingParameter;
import sprag.bench.vehicle.TomlFile;

/** What a builder has answered. What was not answered is the default. */
final class Answers {
    private static final String HUB = "hub";

    private final Map<Question, Double> values = new EnumMap<>(Question.class);
    private final Set<Question> given = EnumSet.noneOf(Question.class);
    private final Map<Question, Integer> lines = new EnumMap<>(Question.class);

    /** All defaults. */
    Answers() {
        for (Question question : Question.values()) {
            values.put(question, question.byDefault());
        }
    }

    /** Takes what a file answers; what it does not answer stays. */
    void read(Path file) throws BadInput {
        Problems problems = new Problems();
        Section all = TomlFile.read(file, problems);
        take(all, problems);
        for (Question question : Question.values()) {
            lines.put(question, all.line(question.key()));
        }
    }

    /**
     * Takes answers as they were written on the command line or typed, all or none.
     *
     * @param given numbers or words by the names of their questions
     * @throws BadInput with each of them that is no question, or that is not answered in an allowed way
     */
    void set(Map<String, String> given) throws BadInput {
        StringBuilder text = new StringBuilder();
        given.forEach((name, value) -> {
            boolean isNumber = value.matches("[-+]?[0-9]+(\\.[0-9]+)?");
            String word = '"' + value.replace("\\", "").replace("\"", "") + '"';
            text.append(quoted(name))
                    .append(" = ")
                    .append(isNumber ? value : word)
                    .append('\n');
        });
        Problems problems = new Problems();
        take(TomlFile.parse(Path.of("--set"), text.toString(), problems), problems);
    }

    private static String quoted(String name) {
        return name.matches("[a-z0-9_]+") ? name : '"' + name.replace("\\", "").replace("\"", "") + '"';
    }

    private void take(Section from, Problems problems) throws BadInput {
        Map<Question, Double> read = new EnumMap<>(Question.class);
        for (Question question : Question.values()) {
            boolean isGiven = from.has(question.key());
            double value = from.value(question);
            if (question.isWhole()) {
                from.whole(question, value);
            }
            if (isGiven) {
                read.put(question, value);
            }
        }
        from.end();
        problems.throwIfAny();
        values.putAll(read);
        given.addAll(read.keySet());
    }

    /** Where the file that was read gives the answer; the first line without one. */
    int line(Question question) {
        return lines.getOrDefault(question, 1);
    }

    /** What makes the present answer of a question the answer again. */
    Runnable undo(Question question) {
        double before = values.get(question);
        boolean wasGiven = given.contains(question);
        return () -> {
            values.put(question, before);
            if (!wasGiven) {
                given.remove(question);
            }
        };
    }

    /** The answer. A hub motor turns with its wheel, whatever the usual gear is. */
    double get(Question question) {
        boolean hub = question == Question.GEAR_RATIO
                && !given.contains(question)
                && word(Question.GEARBOX).equals(HUB);
        return hub ? 1 : values.get(question);
    }

    String word(Question question) {
        return question.choices().get(values.get(question).intValue());
    }

    boolean is(Question question, String word) {
        return word(question).equals(word);
    }

    /** How fast the motor turns at a road speed. */
    double rpmAt(double kph) {
        return kph * 1000 / 60 / metresPerTurn();
    }

    private double metresPerTurn() {
        return 2 * Math.PI * get(Question.WHEEL_RADIUS_M) / get(Question.GEAR_RATIO);
    }

    /** The greatest speed at which the motor keeps its limit, the margin for downhill left (km/h). */
    double mostKph() {
        double motorRpm = get(Question.MOTOR_MAX_RPM) / (1 + SizingParameter.SENSOR_SPEED_MARGIN.byDefault());
        return Math.floor(motorRpm * metresPerTurn() * 60 / 1000);
    }

    /** The answer as it is written in a file. */
    String text(Question question) {
        return question.choices().isEmpty() ? Numbers.text(get(question)) : '"' + word(question) + '"';
    }

    /** A file that {@link #read} reads, with each question above its answer. */
    String asFile() {
        StringBuilder text = new StringBuilder("""
                # What vehicle.toml beside this file was made from. After a change here, "sprag new FOLDER --refresh" computes
                # again what follows from it, and leaves alone what you have written yourself.

                """);
        for (Question question : Question.values()) {
            String end = question.question.endsWith("?") ? " " : ". ";
            List<String> lines = Wrap.lines(
                    question.question + end + question.why.substring(0, 1).toUpperCase(java.util.Locale.ROOT)
                            + question.why.substring(1) + ". Allowed: " + KeyEntries.allowed(question) + ".",
                    110);
            lines.forEach(line -> text.append("# ").append(line).append('\n'));
            text.append(question.key()).append(" = ").append(text(question)).append("\n\n");
        }
        return text.toString();
    }
}
