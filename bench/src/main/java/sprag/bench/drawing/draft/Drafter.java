package sprag.bench.drawing.draft;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.review.wiring.schedule.Csv;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Signal;

/** Drafts a schedule, and joins it with one that is there: numbers are printed on sleeves, so they are for life. */
public final class Drafter {
    /**
     * What came of it.
     *
     * @param wires the text of wiring.csv
     * @param parts the text of parts.csv
     * @param added numbers of new wires
     * @param kept how many wires stayed as they were
     * @param unneeded numbers of wires that the draft once wrote and nothing needs any more
     */
    public record Result(String wires, String parts, List<String> added, int kept, List<String> unneeded) {}

    static final List<String> WIRE_COLUMNS = List.of(
            "wire",
            "from",
            "to",
            "net",
            "class",
            "size_mm2",
            "colour",
            "length_m",
            "fuse_a",
            "from_pin_v",
            "to_pin_v",
            "current_a",
            "twisted_with",
            "carries",
            "remark");
    private static final List<String> PART_COLUMNS =
            List.of("part", "kind", "rated_v", "rated_a", "breaks_a", "release_ms", "suppression", "duty", "remark");
    /** How the remark of a drafted row begins; a row without it was written by hand. */
    private static final String DRAFTED = "drafted";

    private static final String UNNEEDED = "not needed any more: ";
    private static final int WIRE = WIRE_COLUMNS.indexOf("wire");
    private static final int FROM = WIRE_COLUMNS.indexOf("from");
    private static final int TO = WIRE_COLUMNS.indexOf("to");
    private static final int TWISTED = WIRE_COLUMNS.indexOf("twisted_with");
    private static final int REMARK = WIRE_COLUMNS.indexOf("remark");

    private final Map<String, List<String>> existing = new LinkedHashMap<>();
    private final Map<VoltageClass, Integer> last = new HashMap<>();
    private final Set<String> numbers = new HashSet<>();

    private Drafter() {}

    /** Whether a schedule was written by hand, as far as its remarks tell. */
    public static boolean isHandMade(byte[] wires) {
        return rows(wires, WIRE_COLUMNS).stream().noneMatch(r -> r.get(REMARK).contains(DRAFTED));
    }

    /** Drafts.
     *
     * @param vehicle the vehicle
     * @param answers what the builder knows
     * @param oldWires the wiring.csv that is there; empty for none
     * @param oldParts the parts.csv that is there; empty for none
     * @return both files
     */
    public static Result draft(Vehicle vehicle, Answers answers, byte[] oldWires, byte[] oldParts) {
        Builder builder = built(vehicle, answers);
        return new Drafter().join(builder, rows(oldWires, WIRE_COLUMNS), rows(oldParts, PART_COLUMNS));
    }

    /** Says that no main cable is guarded by the main fuse, and what helps; empty when one is. */
    public static String unguarded(Vehicle vehicle) {
        Sizes sizes = new Sizes(vehicle);
        double fuseA = sizes.mainFuseA();
        double sizeMm2 = sizes.mainMm2();
        double carriesA = Math.floor(sizes.carriesA(sizeMm2));
        return carriesA >= fuseA
                ? ""
                : "The main fuse of " + Sizes.text(fuseA) + " A does not guard a main cable of " + Sizes.text(sizeMm2)
                        + " mm\u00b2, which carries at most " + Sizes.text(carriesA)
                        + " A here. Give design.cable.insulation_c a higher class, or lower pack.discharge_max_a and the fuse with"
                        + " it. Two cables side by side are no way out: docs/draft.md says why.";
    }

    private static Builder built(Vehicle vehicle, Answers answers) {
        Builder builder = new Builder(vehicle, answers);
        new PowerDraft(builder).draft();
        new SupplyDraft(builder).draft();
        new SignalDraft(builder).draft();
        return builder;
    }

    /** Where each part is that a draft knows, or that the builder has placed. */
    static Map<String, Place> places(Vehicle vehicle, Answers answers) {
        Map<String, Place> places = new HashMap<>(built(vehicle, answers).places());
        places.putAll(answers.where());
        return places;
    }

    /** The open questions that make a difference to this car, with the defaults taken. */
    public static Map<String, Double> asked(Vehicle vehicle, Answers answers) {
        Set<Place> used = new HashSet<>(places(vehicle, answers).values());
        Map<String, Double> asked = new LinkedHashMap<>(answers.open());
        for (Place place : Place.values()) {
            for (Place other : Place.values()) {
                if (!used.contains(place) && place != other) {
                    asked.remove("places." + place.key(other));
                }
            }
        }
        if (!vehicle.fitted().contains(Signal.HEATER_REQUEST)) {
            asked.remove(Answers.HEATER_KEY);
        }
        return asked;
    }

    private Result join(Builder builder, List<List<String>> oldWires, List<List<String>> oldParts) {
        for (List<String> row : oldWires) {
            existing.put(row.get(FROM) + " to " + row.get(TO), row);
            numbers.add(row.get(WIRE));
        }
        Map<String, String> numberOf = new HashMap<>();
        existing.forEach((ends, row) -> numberOf.put(ends, row.get(WIRE)));
        List<String> added = new ArrayList<>();
        for (DraftRow row : builder.rows) {
            if (!existing.containsKey(row.ends())) {
                numberOf.put(row.ends(), nextNumber(row.voltageClass()));
                added.add(numberOf.get(row.ends()));
            }
        }
        Set<String> drafted = new HashSet<>();
        List<List<String>> lines = new ArrayList<>();
        for (DraftRow row : builder.rows) {
            drafted.add(row.ends());
            List<String> old = existing.get(row.ends());
            lines.add(old == null ? cells(row, numberOf) : needed(old));
        }
        List<String> unneeded = new ArrayList<>();
        existing.forEach((ends, row) -> {
            if (!drafted.contains(ends)) {
                lines.add(mark(row, unneeded));
            }
        });
        String parts = parts(builder, oldParts);
        return new Result(csv(WIRE_COLUMNS, lines), parts, added, builder.rows.size() - added.size(), unneeded);
    }

    private static List<String> needed(List<String> old) {
        List<String> row = new ArrayList<>(old);
        row.set(REMARK, row.get(REMARK).replace(UNNEEDED, ""));
        return row;
    }

    private static List<String> mark(List<String> old, List<String> unneeded) {
        if (!old.get(REMARK).contains(DRAFTED)) {
            return old;
        }
        unneeded.add(old.get(WIRE));
        List<String> row = new ArrayList<>(old);
        row.set(REMARK, UNNEEDED + row.get(REMARK).replace(UNNEEDED, ""));
        return row;
    }

    private String nextNumber(VoltageClass voltageClass) {
        String letter = switch (voltageClass) {
            case TRACTION -> "T";
            case LOW_VOLTAGE -> "L";
            case SIGNAL -> "S";
            case MAINS -> "M";
            case EARTH -> "E";
        };
        String number;
        do {
            number = String.format("%s%03d", letter, last.merge(voltageClass, 1, Integer::sum));
        } while (!numbers.add(number));
        return number;
    }

    private static List<String> cells(DraftRow row, Map<String, String> numberOf) {
        DraftRow.Cells c = row.cells();
        String partner = c.twistedWith().isEmpty() ? "" : numberOf.get(c.twistedWith());
        String remark = DRAFTED + (c.remark().isEmpty() ? "" : ": " + c.remark());
        List<String> cells = new ArrayList<>(
                List.of(numberOf.get(row.ends()), row.from(), row.to(), row.net(), row.voltageClass().word));
        cells.addAll(List.of(
                c.sizeMm2(),
                c.colour(),
                c.lengthM(),
                c.fuseA(),
                c.pinV(),
                c.pinV(),
                c.currentA(),
                partner,
                c.carries(),
                remark));
        return cells;
    }

    private static String parts(Builder builder, List<List<String>> old) {
        Map<String, List<String>> lines = new LinkedHashMap<>();
        old.forEach(row -> lines.put(row.get(0), row));
        builder.parts.forEach((name, row) -> lines.computeIfAbsent(name, n -> padded(name, row)));
        return csv(PART_COLUMNS, new ArrayList<>(lines.values()));
    }

    private static List<String> padded(String name, String row) {
        List<String> cells = new ArrayList<>();
        cells.add(name);
        cells.addAll(Arrays.asList(row.split(",", -1)));
        while (cells.size() < PART_COLUMNS.size()) {
            cells.add("");
        }
        return cells;
    }

    /** The rows of a file in the order of the columns, whatever order the file has. */
    private static List<List<String>> rows(byte[] bytes, List<String> columns) {
        List<List<String>> rows = new ArrayList<>();
        List<Csv.Line> lines = Csv.parse(bytes).lines();
        for (int i = 1; i < lines.size(); i++) {
            List<String> cells = lines.get(i).cells();
            List<String> row = new ArrayList<>();
            for (String column : columns) {
                int at = lines.get(0).cells().indexOf(column);
                row.add(at < 0 || at >= cells.size() ? "" : cells.get(at));
            }
            rows.add(row);
        }
        return rows;
    }

    private static String csv(List<String> columns, List<List<String>> rows) {
        StringWriter text = new StringWriter();
        try (CsvWriter writer = CsvWriter.builder().build(text)) {
            writer.writeRecord(columns);
            rows.forEach(writer::writeRecord);
        } catch (IOException e) {
            throw new UncheckedIOException("a text in memory was not written", e);
        }
        return text.toString().replace("\r\n", "\n");
    }
}
