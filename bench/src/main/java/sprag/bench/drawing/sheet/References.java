package sprag.bench.drawing.sheet;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import sprag.bench.review.wiring.schedule.Wire;

/** On which sheets parts and terminals are drawn, so that each sheet can say where a thing goes on. */
final class References {
    /** Sheets are planned before they know their numbers; such numbers take the room of most. */
    private static final int UNKNOWN_SHEET = 88;

    private final Map<String, TreeSet<Integer>> sheets = new HashMap<>();
    private final Set<String> known;

    /** Notes the wires of each sheet; sheets are counted from 1. */
    References(List<? extends Collection<Wire>> bySheet) {
        known = sheets.keySet();
        for (int i = 0; i < bySheet.size(); i++) {
            for (Wire wire : bySheet.get(i)) {
                note(wire.from(), i + 1);
                note(wire.to(), i + 1);
            }
        }
    }

    private References(Set<String> known) {
        this.known = known;
    }

    /** How often the parts and terminals of some wires are named. */
    static Map<String, Integer> counts(Collection<Wire> wires) {
        Map<String, Integer> counts = new HashMap<>();
        for (Wire wire : wires) {
            for (String end : List.of(wire.from(), wire.to())) {
                counts.merge(end, 1, Integer::sum);
                counts.merge(Wire.partOf(end) + " ", 1, Integer::sum);
            }
        }
        return counts;
    }

    /** A guess for a sheet that is being planned: what has more wires than these goes on elsewhere.
     *
     * @param all how often the whole schedule names parts and terminals
     */
    static References guess(Collection<Wire> wires, Map<String, Integer> all) {
        References guess = new References(all.keySet());
        counts(wires).forEach((name, count) -> {
            if (!name.isBlank() && all.get(name) > count) {
                TreeSet<Integer> elsewhere = guess.sheets.computeIfAbsent(name.strip(), n -> new TreeSet<>());
                elsewhere.add(UNKNOWN_SHEET);
                elsewhere.add(UNKNOWN_SHEET + 1);
            }
        });
        return guess;
    }

    /** Whether the schedule has a wire at a terminal. */
    boolean isThere(String terminal) {
        return known.contains(terminal);
    }

    private void note(String terminal, int sheet) {
        if (!terminal.isEmpty()) {
            sheets.computeIfAbsent(terminal, t -> new TreeSet<>()).add(sheet);
            sheets.computeIfAbsent(Wire.partOf(terminal), t -> new TreeSet<>()).add(sheet);
        }
    }

    /** The other sheets on which a part or a terminal is drawn, such as {@code 2, 5}; empty for none. */
    String others(String partOrTerminal, int sheet) {
        return sheets.getOrDefault(partOrTerminal, new TreeSet<>()).stream()
                .filter(s -> s != sheet)
                .map(String::valueOf)
                .collect(Collectors.joining(", "));
    }

    /** All sheets on which a part is drawn. */
    String all(String part) {
        return others(part, 0);
    }
}
