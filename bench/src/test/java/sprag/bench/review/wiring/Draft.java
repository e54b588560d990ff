package sprag.bench.review.wiring;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import sprag.bench.review.wiring.schedule.Csv;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleReader;

/** A shipped schedule as text that a test may spoil, cell by cell. */
final class Draft {
    private final List<Map<String, String>> wires;
    private final List<Map<String, String>> parts;

    private Draft(List<Map<String, String>> wires, List<Map<String, String>> parts) {
        this.wires = wires;
        this.parts = parts;
    }

    static Draft of(Path folder) {
        return new Draft(rows(folder.resolve(Schedule.WIRES_FILE)), rows(folder.resolve(Schedule.PARTS_FILE)));
    }

    private static List<Map<String, String>> rows(Path file) {
        try {
            Csv csv = Csv.parse(Files.readAllBytes(file));
            List<String> heading = csv.lines().get(0).cells();
            List<Map<String, String>> rows = new ArrayList<>();
            for (Csv.Line line : csv.lines().subList(1, csv.lines().size())) {
                Map<String, String> row = new LinkedHashMap<>();
                for (int i = 0; i < heading.size(); i++) {
                    row.put(heading.get(i), line.cells().get(i));
                }
                rows.add(row);
            }
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + file, e);
        }
    }

    /** The one wire between two terminals. */
    Map<String, String> wire(String from, String to) {
        return only(
                wires.stream()
                        .filter(w -> w.get("from").equals(from) && w.get("to").equals(to))
                        .toList(),
                from + " to " + to);
    }

    Map<String, String> part(String name) {
        return only(parts.stream().filter(p -> p.get("part").equals(name)).toList(), name);
    }

    private static Map<String, String> only(List<Map<String, String>> found, String what) {
        if (found.size() != 1) {
            throw new IllegalArgumentException(found.size() + " rows for " + what);
        }
        return found.get(0);
    }

    Draft set(String from, String to, String column, String value) {
        wire(from, to).put(column, value);
        return this;
    }

    Draft setPart(String name, String column, String value) {
        part(name).put(column, value);
        return this;
    }

    Draft remove(String from, String to) {
        wires.remove(wire(from, to));
        return this;
    }

    /** Adds a copy of a wire with other ends and another net. */
    Draft addLike(String from, String to, String newFrom, String newTo, String net) {
        Map<String, String> copy = new LinkedHashMap<>(wire(from, to));
        copy.put("wire", "N" + wires.size());
        copy.put("from", newFrom);
        copy.put("to", newTo);
        copy.put("net", net);
        copy.put("carries", "");
        copy.put("twisted_with", "");
        wires.add(copy);
        return this;
    }

    Draft addPart(String name, String kind, String ratedV, String ratedA) {
        Map<String, String> row = new LinkedHashMap<>(parts.get(0));
        row.replaceAll((column, value) -> "");
        row.put("part", name);
        row.put("kind", kind);
        row.put("rated_v", ratedV);
        row.put("rated_a", ratedA);
        parts.add(row);
        return this;
    }

    Draft removePart(String name) {
        parts.remove(part(name));
        return this;
    }

    Draft repeat(String from, String to) {
        wires.add(new LinkedHashMap<>(wire(from, to)));
        return this;
    }

    Schedule schedule() {
        ScheduleReader.Result result = ScheduleReader.read(bytes(wires), bytes(parts));
        if (!result.isGood()) {
            throw new IllegalStateException(result.wireFlaws() + " " + result.partFlaws());
        }
        return result.schedule();
    }

    private static byte[] bytes(List<Map<String, String>> rows) {
        StringBuilder text = new StringBuilder(String.join(",", rows.get(0).keySet())).append('\n');
        for (Map<String, String> row : rows) {
            text.append(row.values().stream()
                            .map(cell -> '"' + cell.replace("\"", "\"\"") + '"')
                            .collect(Collectors.joining(",")))
                    .append('\n');
        }
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }
}
