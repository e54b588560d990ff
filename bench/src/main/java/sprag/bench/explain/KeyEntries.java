package sprag.bench.explain;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import sprag.bench.cli.Numbers;
import sprag.bench.explain.Entry.Fact;
import sprag.bench.explain.Entry.Kind;
import sprag.bench.explain.KeyTexts.KeyText;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.SizingParameter;
import sprag.bench.vehicle.Tolerance;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** The keys of a vehicle file. */
public final class KeyEntries {
    private KeyEntries() {}

    /** Every row of the tables, in the order of the tables. */
    public static List<Row> rows() {
        return Stream.<Row[]>of(Parameter.values(), CarParameter.values(), SizingParameter.values(), Tolerance.values())
                .flatMap(Arrays::stream)
                .toList();
    }

    /** The section of a key as it stands in the file, e.g. {@code car.body}. */
    public static String section(Row row) {
        return row.key().substring(0, row.key().lastIndexOf('.'));
    }

    /** What a file may give for a key: a range with its unit, or words. */
    public static String allowed(Row row) {
        if (!row.choices().isEmpty()) {
            return String.join(
                    " or ", row.choices().stream().map(word -> '"' + word + '"').toList());
        }
        if (row.unit() == Unit.SWITCH) {
            return "true or false";
        }
        return Numbers.text(row.min()) + " to " + Numbers.text(row.max(), Numbers.symbol(row.unit()));
    }

    /** What holds when the file does not give the key. */
    public static String without(Row row) {
        if (row.required()) {
            return "none: every vehicle file must give it";
        }
        if (row instanceof CarParameter car && car.sameAs().isPresent()) {
            return "the value of " + car.sameAs().get().key();
        }
        if (Double.isNaN(row.byDefault())) {
            return "none: what needs it is then not judged";
        }
        if (row.unit() == Unit.SWITCH) {
            return row.byDefault() == 1 ? "true" : "false";
        }
        return row.choices().isEmpty()
                ? Numbers.show(row.byDefault(), row.unit())
                : '"' + row.choices().get((int) row.byDefault()) + '"';
    }

    static List<Entry> all() {
        Map<String, KeyText> texts = KeyTexts.all();
        return rows().stream().map(row -> entry(row, texts.get(row.key()))).toList();
    }

    private static Entry entry(Row row, KeyText text) {
        List<Fact> facts = new ArrayList<>();
        facts.add(new Fact("section", "[" + section(row) + "]"));
        facts.add(new Fact("allowed", allowed(row)));
        facts.add(new Fact("without it", without(row)));
        facts.add(new Fact("how to find it", text.howToFind()));
        facts.add(new Fact("why these limits", "a value outside would " + row.risk()));
        List<String> users = interlocks(row);
        if (!users.isEmpty()) {
            facts.add(new Fact("interlocks", String.join(", ", users)));
        }
        return new Entry(Kind.KEY, row.key(), text.meaning(), facts);
    }

    /** The interlocks that are timed by a key. */
    private static List<String> interlocks(Row row) {
        return Arrays.stream(Interlock.values())
                .filter(interlock -> interlock.budget == row || interlock.cause.detection() == row)
                .map(Interlock::id)
                .toList();
    }
}
