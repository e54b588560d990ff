package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import sprag.bench.drawing.sheet.Marks.Change;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/** What became of a schedule since an older one.
 *
 * @param both the schedule of now, with the wires and parts of the older one that are gone
 * @param wires what became of wires, by number; those that stayed are left out
 * @param sentences one for each change
 */
public record ScheduleChanges(Schedule both, Map<String, Change> wires, List<String> sentences) {
    /** The columns that a correction may touch. */
    private static final Map<String, Function<Wire, Object>> COLUMNS = columns();

    private static Map<String, Function<Wire, Object>> columns() {
        Map<String, Function<Wire, Object>> columns = new LinkedHashMap<>();
        columns.put("from", Wire::from);
        columns.put("to", Wire::to);
        columns.put("net", Wire::net);
        columns.put("class", w -> w.voltageClass().word);
        columns.put("size_mm2", Wire::sizeMm2);
        columns.put("colour", Wire::colour);
        columns.put("length_m", Wire::lengthM);
        columns.put("fuse_a", Wire::fuseA);
        columns.put("from_pin_v", Wire::fromPinV);
        columns.put("to_pin_v", Wire::toPinV);
        columns.put("current_a", Wire::currentA);
        columns.put("twisted_with", Wire::twistedWith);
        columns.put("carries", w -> String.join(" ", w.carries()));
        return columns;
    }

    /** Compares two schedules, wire by wire by their numbers and part by part by their names. */
    public static ScheduleChanges between(Schedule before, Schedule now) {
        Map<String, Wire> old = byId(before);
        Map<String, Wire> current = byId(now);
        Map<String, Change> changes = new LinkedHashMap<>();
        List<String> sentences = new ArrayList<>();
        List<Wire> wires = new ArrayList<>(now.wires());
        for (Wire wire : now.wires()) {
            Wire was = old.get(wire.id());
            if (was == null) {
                changes.put(wire.id(), Change.ADDED);
                sentences.add("Wire " + wire.id() + " was added: " + ends(wire) + ".");
            } else {
                String differences = differences(was, wire);
                if (!differences.isEmpty()) {
                    changes.put(wire.id(), Change.CHANGED);
                    sentences.add("Wire " + wire.id() + " was changed: " + differences + ".");
                }
            }
        }
        for (Wire was : before.wires()) {
            if (!current.containsKey(was.id())) {
                changes.put(was.id(), Change.REMOVED);
                sentences.add("Wire " + was.id() + " was removed: " + ends(was) + ".");
                wires.add(was);
            }
        }
        Map<String, Part> parts = parts(before, now, sentences);
        return new ScheduleChanges(new Schedule(wires, parts), changes, sentences);
    }

    private static Map<String, Part> parts(Schedule before, Schedule now, List<String> sentences) {
        Map<String, Part> parts = new LinkedHashMap<>(now.parts());
        for (Part part : now.parts().values()) {
            Part was = before.parts().get(part.name());
            if (was == null) {
                sentences.add("Part " + part.name() + " was added.");
            } else if (!text(was).equals(text(part))) {
                sentences.add("Part " + part.name() + " was changed: " + text(was) + " is now " + text(part) + ".");
            }
        }
        for (Part was : before.parts().values()) {
            if (parts.putIfAbsent(was.name(), was) == null) {
                sentences.add("Part " + was.name() + " was removed.");
            }
        }
        return parts;
    }

    private static String text(Part part) {
        return part.kind().word() + " " + show(part.ratedV()) + " V, " + show(part.ratedA()) + " A, breaks "
                + show(part.breaksA()) + " A, releases in " + show(part.releaseMs()) + " ms, suppression "
                + part.suppression().word() + ", duty " + part.duty().name().toLowerCase(java.util.Locale.ROOT);
    }

    private static Map<String, Wire> byId(Schedule schedule) {
        return schedule.wires().stream().collect(Collectors.toMap(Wire::id, w -> w, (a, b) -> a, LinkedHashMap::new));
    }

    private static String differences(Wire was, Wire now) {
        List<String> differences = new ArrayList<>();
        COLUMNS.forEach((name, value) -> {
            String old = show(value.apply(was));
            String current = show(value.apply(now));
            if (!old.equals(current)) {
                differences.add(name + " " + old + " is now " + current);
            }
        });
        return String.join(", ", differences);
    }

    private static String ends(Wire wire) {
        return show(wire.from()) + " to " + show(wire.to());
    }

    private static String show(Object value) {
        if (value instanceof Double number) {
            return number.isNaN() ? "nothing" : sprag.bench.cli.Numbers.text(number);
        }
        return String.valueOf(value).isEmpty() ? "nothing" : String.valueOf(value);
    }
}
