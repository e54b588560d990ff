package sprag.bench.begin;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import sprag.bench.cli.Wrap;
import sprag.bench.explain.KeyEntries;
import sprag.bench.explain.KeyTexts;
import sprag.bench.explain.KeyTexts.KeyText;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** The text of a vehicle file in which every key stands with its meaning. */
final class VehicleText {
    private static final int COLUMNS = 110;
    private static final int VALUE_COLUMNS = 32;
    /** Begins each line that tells what kind of car it is. */
    static final String KIND_MARK = "#: ";

    private static final String ABOUT = "[about]";
    private static final String COMPUTED = "# computed ";
    private static final String FITTED = "fitted = ";
    private static final String DEFAULT = "# default";
    private static final Pattern SECTION = Pattern.compile("^\\[([a-z0-9_.]+)]\\s*$");
    private static final Pattern LINE =
            Pattern.compile("^([a-z0-9_]+) = (\\S+)\\s+# (?:yours; )?computed (\\S+): (.*)$");
    private static final Pattern BARE = Pattern.compile("^([a-z0-9_]+)\\s*=\\s*([^#\\s]+)\\s*(#.*)?$");
    private static final Pattern LEFT_OUT = Pattern.compile("^# ([a-z0-9_]+) = \\S+\\s+" + DEFAULT + "$");

    /**
     * What a refresh did.
     *
     * @param text the new text
     * @param changed keys that were computed again and differ, with both values
     * @param kept keys that a person has written and that would be computed otherwise
     */
    record Refreshed(String text, List<String> changed, List<String> kept) {}

    private VehicleText() {}

    /** A whole file. */
    static String of(String name, Answers answers, Map<Row, Suggestion> values) {
        StringBuilder text = new StringBuilder();
        text.append("""
                # A first draft. Every key that a vehicle may have stands here with its meaning, its range, what a value outside
                # would do, and how its value is found. A line that says "computed" follows from answers.toml; change its value
                # and it is yours. A line that begins with # is at its default.
                #
                # Nothing here has been measured. Data sheets and measurements are better than anything computed. Traction voltage
                # kills: measure with contactors open, service switch out and kept, absence of voltage verified, a second person
                # present. Local codes decide.
                """);
        text.append('\n').append(Kind.comment(answers, COLUMNS)).append(ABOUT).append('\n');
        text.append("name = \"").append(name).append("\"\n\n[signals]\n");
        text.append(
                "# Optional signals that are sampled. \"sprag key NAME\" tells what each is; docs/signals.md lists all.\n");
        text.append(fitted(answers)).append("\n\n");
        String section = "";
        Map<String, KeyText> texts = KeyTexts.all();
        for (Row row : KeyEntries.rows()) {
            if (!section.equals(KeyEntries.section(row))) {
                section = KeyEntries.section(row);
                text.append("[").append(section).append("]\n");
            }
            explain(row, texts.get(row.key()), text);
            text.append(line(row, values.get(row))).append("\n\n");
        }
        return text.toString();
    }

    private static String fitted(Answers answers) {
        return FirstVehicle.signals(answers).stream()
                .map(signal -> '"' + signal.key() + '"')
                .collect(Collectors.joining(", ", FITTED + "[", "]"));
    }

    private static void explain(Row row, KeyText known, StringBuilder text) {
        Wrap.hanging("# ", "# ", known.meaning(), COLUMNS)
                .forEach(l -> text.append(l).append('\n'));
        String range = "range: " + KeyEntries.allowed(row) + "; outside it would " + row.risk();
        Wrap.hanging("#   ", "#     ", range, COLUMNS)
                .forEach(l -> text.append(l).append('\n'));
        Wrap.hanging("#   ", "#     ", "value: " + known.howToFind(), COLUMNS)
                .forEach(l -> text.append(l).append('\n'));
    }

    private static String line(Row row, Suggestion suggestion) {
        String name = row.key().substring(row.key().lastIndexOf('.') + 1);
        if (suggestion != null) {
            String value = value(row, suggestion.value());
            return padded(name + " = " + value) + COMPUTED + value + ": " + suggestion.because();
        }
        if (Double.isNaN(row.byDefault())) {
            return padded("# " + name + " =") + (row.required() ? "# must be given" : "# not given");
        }
        return padded("# " + name + " = " + value(row, row.byDefault())) + DEFAULT;
    }

    private static String padded(String start) {
        return start.length() < VALUE_COLUMNS ? start + " ".repeat(VALUE_COLUMNS - start.length()) : start + "  ";
    }

    /** A value as TOML writes it. */
    private static String value(Row row, double value) {
        if (row.unit() == Unit.SWITCH) {
            return value == 1 ? "true" : "false";
        }
        if (!row.choices().isEmpty()) {
            return '"' + row.choices().get((int) value) + '"';
        }
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    /** Computes again what was computed before and not changed by a person since. */
    static Refreshed refresh(String before, Answers answers, Map<Row, Suggestion> values) {
        Map<String, Row> rows = new LinkedHashMap<>();
        KeyEntries.rows().forEach(row -> rows.put(row.key(), row));
        List<String> changed = new ArrayList<>();
        List<String> kept = new ArrayList<>();
        StringBuilder text = new StringBuilder();
        String section = "";
        for (String line : before.lines().toList()) {
            if (line.startsWith(KIND_MARK)) {
                continue;
            }
            if (line.equals(ABOUT)) {
                text.append(Kind.comment(answers, COLUMNS));
            }
            if (line.startsWith(FITTED) && !line.equals(fitted(answers))) {
                kept.add("signals." + line + " (by the answers: " + fitted(answers) + ")");
            }
            Matcher heading = SECTION.matcher(line);
            if (heading.matches()) {
                section = heading.group(1);
            }
            text.append(again(line, section, rows, values, changed, kept)).append('\n');
        }
        return new Refreshed(text.toString(), changed, kept);
    }

    private static String again(
            String line,
            String section,
            Map<String, Row> rows,
            Map<Row, Suggestion> values,
            List<String> changed,
            List<String> kept) {
        Matcher computed = LINE.matcher(line);
        Matcher leftOut = LEFT_OUT.matcher(line);
        boolean isComputed = computed.matches();
        if (!isComputed && !leftOut.matches()) {
            bare(line, section, rows, values, kept);
            return line;
        }
        Row row = rows.get(section + "." + (isComputed ? computed : leftOut).group(1));
        Suggestion suggestion = row == null ? null : values.get(row);
        if (suggestion == null) {
            return line;
        }
        String now = value(row, suggestion.value());
        String added = isComputed ? added(computed.group(4), suggestion.because()) : "";
        if (isComputed && !computed.group(2).equals(computed.group(3))) {
            if (!computed.group(2).equals(now)) {
                kept.add(row.key() + " = " + computed.group(2) + " (yours; computed: " + now + ")");
            }
            String name = computed.group(1) + " = " + computed.group(2);
            return padded(name) + "# yours; computed " + now + ": " + suggestion.because() + added;
        }
        String was = isComputed ? computed.group(2) : value(row, row.byDefault());
        if (!was.equals(now)) {
            changed.add(row.key() + " = " + now + " (was " + was + ")");
        }
        return line(row, suggestion) + added;
    }

    /** What a person wrote behind the formula. */
    private static String added(String comment, String because) {
        return comment.startsWith(because) ? comment.substring(because.length()) : "";
    }

    /** A line without a word about computing is a person's own; what would be computed is told when it differs. */
    private static void bare(
            String line, String section, Map<String, Row> rows, Map<Row, Suggestion> values, List<String> kept) {
        Matcher own = BARE.matcher(line);
        Row row = own.matches() ? rows.get(section + "." + own.group(1)) : null;
        Suggestion suggestion = row == null ? null : values.get(row);
        if (suggestion != null && !own.group(2).equals(value(row, suggestion.value()))) {
            kept.add(row.key() + " = " + own.group(2) + " (yours; computed: " + value(row, suggestion.value()) + ")");
        }
    }
}
