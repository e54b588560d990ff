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
                    row.put(
                            heading.get(i),
                            i < line.cells().size() ? line.cells().get(i) : "");
                }
                rows.add(row);
            }
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + file, e);
        }
    }

    List<Map<String, String>> wires() {
        return wires;
    }

    /** The wires at a terminal. */
    List<Map<String, String>> at(String terminal) {
        return wires.stream()
                .filter(w -> w.get("from").equals(terminal) || w.get("to").equals(terminal))
                .toList();
    }

    /** The parts of a kind. */
    List<String> parts(String... kinds) {
        return parts.stream()
                .filter(p -> List.of(kinds).contains(p.get("kind")))
                .map(p -> p.get("part"))
                .toList();
    }

    static String otherEnd(Map<String, String> wire, String terminal) {
        return wire.get("from").equals(terminal) ? wire.get("to") : wire.get("from");
    }

    /** Moves a wire's end from one terminal to another. */
    static void move(Map<String, String> wire, String terminal, String other) {
        wire.put(wire.get("from").equals(terminal) ? "from" : "to", other);
    }

    /** Moves all wires of a terminal to another. */
    void moveAll(String terminal, String other) {
        at(terminal).forEach(w -> move(w, terminal, other));
    }

    void swap(String one, String other) {
        moveAll(one, "nowhere.x");
        moveAll(other, one);
        moveAll("nowhere.x", other);
    }

    /** Adds a wire like another one. */
    void add(Map<String, String> like, String from, String to) {
        Map<String, String> copy = new LinkedHashMap<>(like);
        copy.put("wire", "N" + wires.size());
        copy.put("from", from);
        copy.put("to", to);
        copy.put("carries", "");
        copy.put("twisted_with", "");
        wires.add(copy);
    }

    /** Gives all wires that are joined one name, as a person would who drew the mistake on purpose. */
    Draft consistent() {
        Map<String, String> group = new LinkedHashMap<>();
        for (Map<String, String> wire : wires) {
            String a = root(group, place(wire.get("from")));
            group.put(a, root(group, place(wire.get("to"))));
        }
        wires.forEach(w -> w.put("net", "net of " + root(group, place(w.get("from")))));
        return this;
    }

    private String place(String terminal) {
        String name = terminal.substring(0, Math.max(0, terminal.indexOf('.')));
        return parts("splice", "chassis").contains(name) ? name : terminal;
    }

    private static String root(Map<String, String> group, String place) {
        String at = place;
        while (!group.getOrDefault(at, at).equals(at)) {
            at = group.get(at);
        }
        return at;
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
