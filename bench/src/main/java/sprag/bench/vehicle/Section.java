package sprag.bench.vehicle;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.tomlj.TomlArray;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;
import sprag.bench.cli.KeptLines;
import sprag.bench.cli.Nearest;
import sprag.bench.cli.NotOffered;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.Wrap;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/**
 * A part of a TOML file. Whatever is asked for counts as known; {@link #end()} reports what was written and never asked for.
 *
 * <p>Every getter notes a problem and goes on with a stand-in when the value is missing or wrong, so that all mistakes come
 * to light in one pass. Nothing read may be used before the problems have been found empty.
 */
public final class Section {
    /** So many unknown keys of one section are listed one by one; the rest is counted. */
    private static final int MOST_UNKNOWN = 20;
    /** More sections of one name than that are no file of a person, and would take long to play. */
    private static final int MOST_ENTRIES = 1000;

    private static final int LONGEST_TEXT = 60;

    private final Path file;
    private final TomlTable table;
    private final KeptLines lines;
    private final String path;
    private final Problems problems;
    private final Set<String> known = new LinkedHashSet<>();
    private final List<Section> children = new ArrayList<>();
    private int unknowns;
    private Figures figures;

    Section(Path file, TomlTable table, KeptLines lines, String path, Problems problems) {
        this.file = file;
        this.table = table;
        this.lines = lines;
        this.path = path;
        this.problems = problems;
    }

    /** Whether a key has a value; it counts as known from now on. */
    public boolean has(String key) {
        return raw(key) != null;
    }

    /** The keys written directly in this section, in the file's order. */
    public List<String> keys() {
        return List.copyOf(table.keySet());
    }

    /** The line of a key; that of the section when the key is missing. */
    public int line(String key) {
        return lines.line(position(key).line());
    }

    /**
     * The value of a row: a number, a word of its choices, or true and false for a switch.
     *
     * @param row what is asked for, its key relative to this section
     * @return the value; the default when missing; NaN when wrong or required and missing
     */
    public double value(Row row) {
        Object found = raw(row.key());
        if (found == null) {
            if (row.required()) {
                missing(row.key(), allowed(row));
            }
            return row.byDefault();
        }
        double value = asNumber(row, found);
        if (Double.isNaN(value)) {
            problem(row.key(), allowed(row), row.risk(), "Use " + allowed(row) + ".");
        } else if (!(value >= row.min() && value <= row.max())) {
            problem(row.key(), allowed(row), row.risk(), "Use " + allowed(row) + ".");
            return Double.NaN;
        }
        return value;
    }

    private static double asNumber(Row row, Object found) {
        if (row.unit() == Unit.CHOICE) {
            int index = found instanceof String ? row.choices().indexOf(found) : -1;
            return index < 0 ? Double.NaN : index;
        }
        if (row.unit() == Unit.SWITCH) {
            return found instanceof Boolean ? ((Boolean) found ? 1 : 0) : Double.NaN;
        }
        return found instanceof Number ? ((Number) found).doubleValue() : Double.NaN;
    }

    /** What a row allows, in words, e.g. {@code 0.8..0.99}. */
    static String allowed(Row row) {
        if (row.unit() == Unit.CHOICE) {
            return "\"" + String.join("\" or \"", row.choices()) + "\"";
        }
        if (row.unit() == Unit.SWITCH) {
            return "true or false";
        }
        return "a number within " + plain(row.min()) + ".." + plain(row.max());
    }

    /**
     * A number.
     *
     * @param fallback what a missing one means; NaN makes it required
     * @param min the least allowed
     * @param max the greatest allowed
     * @param risk what a value outside would do, to finish "it would ..."
     * @return the number, NaN when wrong
     */
    public double number(String key, double fallback, double min, double max, String risk) {
        Object found = raw(key);
        String allowed = "a number within " + plain(min) + ".." + plain(max);
        if (found == null) {
            if (Double.isNaN(fallback)) {
                missing(key, allowed);
            }
            return fallback;
        }
        double value = found instanceof String text && figures != null ? worked(key, text) : plainNumber(found);
        if (!(value >= min && value <= max)) {
            if (found instanceof String && Double.isFinite(value)) {
                String outside = "= " + show(found) + " is " + Numbers.text(value) + ", not " + allowed;
                note(key, outside, allowed, risk, "Use " + allowed + ".");
            } else if (!(found instanceof String && figures != null)) {
                problem(key, allowed, risk, "Use " + allowed + ".");
            }
            return Double.NaN;
        }
        return value;
    }

    /** Notes a value that counts things and is no whole number. */
    public void whole(Row row, double value) {
        if (value != Math.rint(value) && !Double.isNaN(value)) {
            String allowed = "a whole number";
            problem(row.key(), allowed, "", "Use " + allowed + ".");
        }
    }

    private static double plainNumber(Object found) {
        return found instanceof Number number ? number.doubleValue() : Double.NaN;
    }

    /** The value of an expression; NaN, and a problem, when it has none. */
    private double worked(String key, String text) {
        try {
            return figures.value(text);
        } catch (IllegalArgumentException e) {
            String allowed = "a number or an expression over vehicle.toml";
            note(key, "= " + show(text) + " is not " + allowed, allowed, "", e.getMessage());
            return Double.NaN;
        }
    }

    /** Lets every number from here on be an expression in quotes, too. Returns this section. */
    public Section with(Figures known) {
        figures = known;
        return this;
    }

    /** A text; {@code null} as the fallback makes it required, and a wrong one comes back empty. */
    public String text(String key, String fallback) {
        Object found = raw(key);
        if (found == null && fallback == null) {
            missing(key, "a text in quotes");
        } else if (found != null && !(found instanceof String)) {
            problem(key, "a text in quotes", "", "Put it in quotes.");
            return "";
        }
        return found != null ? (String) found : fallback == null ? "" : fallback;
    }

    /** True or false. */
    public boolean flag(String key, boolean fallback) {
        Object found = raw(key);
        if (found != null && !(found instanceof Boolean)) {
            problem(key, "true or false", "", "Use true or false, without quotes.");
            return fallback;
        }
        return found == null ? fallback : (Boolean) found;
    }

    /** The word at a key, as its index in a list; a missing one is the fallback, a wrong one -1. */
    public int choice(String key, int fallback, List<String> words) {
        Object found = raw(key);
        if (found == null) {
            if (fallback < 0) {
                missing(key, "one of " + String.join(", ", words));
            }
            return fallback;
        }
        int index = found instanceof String ? words.indexOf(found) : -1;
        if (index < 0) {
            problem(key, "one of " + String.join(", ", words), "", Nearest.hint(found.toString(), words));
        }
        return index;
    }

    /** A list of texts, empty when missing. */
    public List<String> texts(String key) {
        Object found = raw(key);
        List<String> all = new ArrayList<>();
        if (found instanceof TomlArray) {
            TomlArray array = (TomlArray) found;
            for (int i = 0; i < array.size(); i++) {
                if (!(array.get(i) instanceof String)) {
                    problem(key, "a list of texts", "", "Put every entry in quotes.");
                    return List.of();
                }
                all.add(array.getString(i));
            }
        } else if (found != null) {
            problem(key, "a list of texts", "", "Write it as [\"first\", \"second\"].");
        }
        return all;
    }

    /** A list of whole numbers, empty when missing. */
    public List<Long> wholeNumbers(String key) {
        Object found = raw(key);
        List<Long> all = new ArrayList<>();
        if (found instanceof TomlArray array) {
            for (int i = 0; i < array.size(); i++) {
                if (!(array.get(i) instanceof Long)) {
                    problem(key, "a list of whole numbers", "", "Write it as [1, 2].");
                    return List.of();
                }
                all.add(array.getLong(i));
            }
        } else if (found != null) {
            problem(key, "a list of whole numbers", "", "Write it as [1, 2].");
        }
        return all;
    }

    /**
     * A list of pairs of numbers, such as {@code [[0, 27326], [25, 10000]]}.
     *
     * @param allowed what is allowed, in words
     * @param most how many pairs at most
     * @return the pairs; empty when the key is missing or anything in it is wrong
     */
    public List<double[]> pairs(String key, String allowed, int most) {
        Object found = raw(key);
        if (found == null) {
            return List.of();
        }
        if (!(found instanceof TomlArray array) || array.isEmpty() || array.size() > most) {
            String what = found instanceof TomlArray list ? "has " + list.size() + " rows" : "is no list of pairs";
            note(key, what, allowed, "", "Write it as [[1, 2], [3, 4]].");
            return List.of();
        }
        List<double[]> all = new ArrayList<>();
        for (int i = 0; i < array.size(); i++) {
            boolean isPair = array.get(i) instanceof TomlArray pair
                    && pair.size() == 2
                    && pair.get(0) instanceof Number
                    && pair.get(1) instanceof Number;
            if (!isPair) {
                noteAt(key, i, "row " + (i + 1) + " is no pair of numbers", allowed, "", "Write each row as [1, 2].");
                return List.of();
            }
            TomlArray pair = array.getArray(i);
            all.add(new double[] {plainNumber(pair.get(0)), plainNumber(pair.get(1))});
        }
        return all;
    }

    /** Notes a problem at one entry of a list. */
    public void noteAt(String key, int index, String found, String allowed, String effect, String remedy) {
        TomlPosition at = raw(key) instanceof TomlArray array ? array.inputPositionOf(index) : position(key);
        problems.add(new Problem(file, lines.line(at.line()), at.column(), full(key), found, allowed, effect, remedy));
    }

    /** The raw value of a key: String, Long, Double, Boolean, or a date of TOML; null when missing or a table. */
    public Object plainValue(String key) {
        Object found = raw(key);
        return found instanceof TomlTable || found instanceof TomlArray ? null : found;
    }

    /** A section within this one; an empty one when it is not written. Its own unknown keys are found by {@link #end()}. */
    public Section section(String key) {
        Object found = raw(key);
        if (found != null && !(found instanceof TomlTable)) {
            problem(key, "a section", "", "Write it as [" + full(key) + "].");
        }
        TomlTable inner = found instanceof TomlTable ? (TomlTable) found : org.tomlj.Toml.parse("");
        return child(inner, full(key));
    }

    /** The tables of an array, {@code [[key]]}, in order; empty when there is none. */
    public List<Section> list(String key) {
        Object found = raw(key);
        List<Section> all = new ArrayList<>();
        if (found == null) {
            return all;
        }
        if (!(found instanceof TomlArray)) {
            problem(key, "a list of sections", "", "Write each as [[" + full(key) + "]].");
            return all;
        }
        TomlArray array = (TomlArray) found;
        if (array.size() > MOST_ENTRIES) {
            String allowed = "at most " + MOST_ENTRIES;
            note(key, "stands there " + array.size() + " times", allowed, "", "Write " + allowed + ".");
        }
        for (int i = 0; i < Math.min(array.size(), MOST_ENTRIES); i++) {
            if (!(array.get(i) instanceof TomlTable)) {
                problem(key, "a list of sections", "", "Write each as [[" + full(key) + "]].");
                return all;
            }
            all.add(child(array.getTable(i), full(key) + "[" + i + "]"));
        }
        return all;
    }

    private Section child(TomlTable inner, String innerPath) {
        Section section = new Section(file, inner, lines, innerPath, problems).with(figures);
        children.add(section);
        return section;
    }

    /** Notes a problem at a key of this section. */
    public void problem(String key, String allowed, String effect, String remedy) {
        Object found = raw(key);
        String what = found == null ? "is not given" : "= " + show(found) + " is not " + allowed;
        note(key, what, allowed, effect, remedy);
    }

    /** Notes a problem at a key with words of one's own behind the key, e.g. {@code = 3 is not less than ...}. */
    public void note(String key, String found, String allowed, String effect, String remedy) {
        TomlPosition at = position(key);
        problems.add(new Problem(file, lines.line(at.line()), at.column(), full(key), found, allowed, effect, remedy));
    }

    private void missing(String key, String allowed) {
        note(key, Problem.MISSING, allowed, "", "Add it: " + allowed + ".");
    }

    /** Reports every key that was written and never asked for, here and in the sections taken from here. */
    public void end() {
        unknownIn(table, "");
        if (unknowns > MOST_UNKNOWN) {
            String more = "has " + (unknowns - MOST_UNKNOWN) + " more unknown keys";
            note("", more, "known keys", "", "Mend those that are listed first.");
        }
        for (Section section : children) {
            section.end();
        }
    }

    private void unknownIn(TomlTable where, String prefix) {
        for (String name : where.keySet()) {
            String key = prefix + name;
            Object found = where.get(List.of(name));
            if (known.contains(key)) {
                continue;
            }
            if (found instanceof TomlTable && known.stream().anyMatch(k -> k.startsWith(key + "."))) {
                unknownIn((TomlTable) found, key + ".");
            } else {
                unknown(key, found instanceof TomlTable);
            }
        }
    }

    private void unknown(String key, boolean isSection) {
        unknowns++;
        if (unknowns > MOST_UNKNOWN) {
            return;
        }
        Set<String> candidates = new TreeSet<>();
        for (String name : known) {
            candidates.add(isSection && name.contains(".") ? name.substring(0, name.lastIndexOf('.')) : name);
        }
        String kind = isSection ? "is not a known section" : "is not a known key";
        String remedy = NotOffered.reason(key).orElseGet(() -> Nearest.hint(key, candidates));
        note(key, kind, "a known key", "have no effect", remedy);
    }

    private Object raw(String key) {
        known.add(key);
        TomlTable inner = table;
        String[] names = key.split("\\.");
        for (int i = 0; i < names.length - 1; i++) {
            Object next = inner.get(List.of(names[i]));
            if (!(next instanceof TomlTable)) {
                return null;
            }
            inner = (TomlTable) next;
        }
        return inner.get(List.of(names[names.length - 1]));
    }

    private TomlPosition position(String key) {
        List<String> names = List.of(key.split("\\."));
        for (int n = names.size(); n > 0; n--) {
            TomlPosition at = positionOf(names.subList(0, n));
            if (at != null) {
                return at;
            }
        }
        TomlPosition start = table.inputPositionOf(List.of());
        return start != null ? start : TomlPosition.positionAt(1, 1);
    }

    private TomlPosition positionOf(List<String> names) {
        TomlTable inner = table;
        for (int i = 0; i < names.size() - 1; i++) {
            Object next = inner.get(List.of(names.get(i)));
            if (!(next instanceof TomlTable)) {
                return null;
            }
            inner = (TomlTable) next;
        }
        return inner.inputPositionOf(names.subList(names.size() - 1, names.size()));
    }

    private String full(String key) {
        return path.isEmpty() || key.isEmpty() ? path + key : path + "." + key;
    }

    private static String show(Object found) {
        if (found instanceof String text) {
            return "\"" + Wrap.brief(text, LONGEST_TEXT) + "\"";
        }
        if (found instanceof TomlTable || found instanceof TomlArray) {
            return found instanceof TomlTable ? "a section" : "a list";
        }
        // As the file writes it, not as Java does.
        return found.toString().replace("NaN", "nan").replace("Infinity", "inf");
    }

    /** A number as a person would write it. */
    static String plain(double number) {
        return number == Math.rint(number) && Math.abs(number) < 1e15
                ? Long.toString((long) number)
                : Double.toString(number);
    }
}
