package sprag.bench.review.wiring.schedule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import sprag.bench.cli.Nearest;

/** Reads {@code wiring.csv} and {@code parts.csv}. All flaws of both files come at once; nothing is half read. */
public final class ScheduleReader {
    /** The columns of {@code wiring.csv}. */
    enum WireColumn implements Table.Column {
        // @formatter:off
        WIRE       (true),  FROM       (true),  TO         (true),  NET        (true),  CLASS      (true),
        SIZE_MM2   (true),  COLOUR     (true),  LENGTH_M   (true),  FUSE_A     (true),  FROM_PIN_V (true),
        TO_PIN_V   (true),  CURRENT_A  (false), TWISTED_WITH(false), CARRIES   (false), REMARK     (false);
        // @formatter:on

        private final boolean required;

        WireColumn(boolean required) {
            this.required = required;
        }

        @Override
        public String heading() {
            return name().toLowerCase(Locale.ROOT);
        }

        @Override
        public boolean required() {
            return required;
        }
    }

    /** The columns of {@code parts.csv}. */
    enum PartColumn implements Table.Column {
        PART,
        KIND,
        RATED_V,
        RATED_A,
        BREAKS_A,
        RELEASE_MS,
        SUPPRESSION,
        DUTY,
        REMARK;

        @Override
        public String heading() {
            return name().toLowerCase(Locale.ROOT);
        }

        @Override
        public boolean required() {
            return this == PART || this == KIND;
        }
    }

    /**
     * What came of reading.
     *
     * @param schedule the schedule; only to be used when there are no flaws
     */
    public record Result(Schedule schedule, List<Flaw> wireFlaws, List<Flaw> partFlaws) {
        /** Whether the schedule can be used. Returns true without flaws. */
        public boolean isGood() {
            return wireFlaws.isEmpty() && partFlaws.isEmpty();
        }
    }

    private static final Pattern TERMINAL = Pattern.compile("[\\p{L}\\d_-]+\\.[\\p{L}\\d_+-]+");

    private final Map<String, Part> parts = new LinkedHashMap<>();
    private final List<Wire> wires = new ArrayList<>();

    private ScheduleReader() {}

    /** Reads both files.
     *
     * @param partList the bytes of the list of parts; null when there is none
     */
    public static Result read(byte[] wiring, byte[] partList) {
        ScheduleReader reader = new ScheduleReader();
        List<Flaw> partFlaws = List.of();
        if (partList != null) {
            Table table = Table.read(partList, Arrays.asList(PartColumn.values()));
            table.forEachRow(reader::readPart);
            partFlaws = table.flaws();
        }
        Table table = Table.read(wiring, Arrays.asList(WireColumn.values()));
        table.forEachRow(reader::readWire);
        reader.refuseEmpty(table);
        reader.refuseUnknownPartners(table);
        return new Result(new Schedule(reader.wires, reader.parts), table.flaws(), partFlaws);
    }

    private void refuseEmpty(Table table) {
        if (wires.isEmpty() && table.flaws().isEmpty()) {
            table.flaw(new Flaw(1, "", "", "has a heading but no wire below it", "Write a row for each wire."));
        }
    }

    private void refuseUnknownPartners(Table table) {
        Set<String> ids = wires.stream().map(Wire::id).collect(Collectors.toSet());
        for (Wire wire : wires) {
            String partner = wire.twistedWith();
            if (!partner.isEmpty() && !ids.contains(partner)) {
                table.flaw(partner(wire, "is no wire of this schedule"));
            } else if (partner.equals(wire.id())) {
                table.flaw(partner(wire, "is the wire itself"));
            }
        }
    }

    private static Flaw partner(Wire wire, String wrong) {
        String remedy = "Write the number of the other wire of the pair.";
        return new Flaw(wire.line(), WireColumn.TWISTED_WITH.heading(), wire.twistedWith(), wrong, remedy);
    }

    private void readPart(Table.Row row) {
        String name = row.needed(PartColumn.PART).toLowerCase(Locale.ROOT);
        String kindWord = row.needed(PartColumn.KIND);
        PartKind kind = PartKind.of(kindWord);
        if (kind == null && !kindWord.isEmpty()) {
            row.flaw(
                    PartColumn.KIND,
                    "is no known kind of part",
                    Nearest.hint(kindWord, PartKind.WORDS) + " All kinds: " + String.join(", ", PartKind.WORDS) + ".");
        }
        Part part = new Part(
                row.number(),
                name,
                kind == null ? PartKind.OTHER : kind,
                row.number(PartColumn.RATED_V, 1, 20000, "a rated voltage in volts"),
                row.number(PartColumn.RATED_A, 0.001, 20000, "a rated current in amperes"),
                row.number(PartColumn.BREAKS_A, 0.001, 500000, "a breaking capacity in amperes"),
                row.number(PartColumn.RELEASE_MS, 0.1, 10000, "a release time in milliseconds"),
                Part.Suppression.of(oneOf(row, PartColumn.SUPPRESSION, Part.Suppression.WORDS)),
                Part.Duty.of(oneOf(row, PartColumn.DUTY, Part.Duty.WORDS)),
                row.text(PartColumn.REMARK));
        Part before = parts.putIfAbsent(name, part);
        if (before != null) {
            row.flaw(PartColumn.PART, "is listed twice, first on line " + before.line(), "Keep one row.");
        }
    }

    private static String oneOf(Table.Row row, Table.Column column, List<String> words) {
        String word = row.text(column).toLowerCase(Locale.ROOT).replace('_', '-');
        if (!word.isEmpty() && !words.contains(word)) {
            row.flaw(column, "is none of the words of this column", "Use " + String.join(", ", words) + ".");
            return "";
        }
        return word;
    }

    private void readWire(Table.Row row) {
        String id = row.needed(WireColumn.WIRE);
        String net = row.needed(WireColumn.NET);
        String classWord = row.needed(WireColumn.CLASS);
        VoltageClass voltageClass = VoltageClass.of(classWord);
        if (voltageClass == null && !classWord.isEmpty()) {
            row.flaw(
                    WireColumn.CLASS,
                    "is none of the words of this column",
                    "Use " + String.join(", ", VoltageClass.WORDS) + ".");
        }
        String from = terminal(row, WireColumn.FROM);
        String to = terminal(row, WireColumn.TO);
        if (from.isEmpty() && to.isEmpty()) {
            row.flaw(
                    WireColumn.FROM,
                    "and the column to are both empty",
                    "Give the wire at least one end. " + Table.UNMERGE);
        }
        String carried = row.text(WireColumn.CARRIES).toLowerCase(Locale.ROOT);
        wires.add(new Wire(
                row.number(),
                id,
                from,
                to,
                net,
                voltageClass,
                row.number(
                        WireColumn.SIZE_MM2,
                        0.05,
                        400,
                        "a conductor of a car; leave the cell empty when nobody knows it"),
                row.text(WireColumn.COLOUR).toLowerCase(Locale.ROOT),
                row.number(WireColumn.LENGTH_M, 0.01, 100, "a length in a car, in metres"),
                row.number(
                        WireColumn.FUSE_A,
                        0.05,
                        5000,
                        "a fuse rating; leave the cell empty when no fuse lies before the wire"),
                row.number(WireColumn.FROM_PIN_V, 1, 5000, "the rated voltage of a terminal, in volts"),
                row.number(WireColumn.TO_PIN_V, 1, 5000, "the rated voltage of a terminal, in volts"),
                row.number(WireColumn.CURRENT_A, 0, 5000, "a current in amperes"),
                row.text(WireColumn.TWISTED_WITH),
                carried.isEmpty() ? List.of() : List.of(carried.split("[ ;,]+"))));
    }

    private String terminal(Table.Row row, WireColumn column) {
        String text = row.text(column).toLowerCase(Locale.ROOT);
        if (text.isEmpty()) {
            return text;
        }
        if (!TERMINAL.matcher(text).matches()) {
            row.flaw(column, "is no terminal", "Write part.terminal, as in fuse_main.in, without blanks.");
            return "";
        }
        parts.computeIfAbsent(Wire.partOf(text), Part::guessed);
        return text;
    }
}
