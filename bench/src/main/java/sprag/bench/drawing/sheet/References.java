package sprag.bench.drawing.sheet;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;
import sprag.bench.review.wiring.schedule.Wire;

/** On which sheets parts and terminals are drawn, so that each sheet can say where a thing goes on. */
final class References {
    private final Map<String, TreeSet<Integer>> sheets = new HashMap<>();

    /** Notes the wires of each sheet; sheets are counted from 1. */
    References(List<? extends Collection<Wire>> bySheet) {
        for (int i = 0; i < bySheet.size(); i++) {
            for (Wire wire : bySheet.get(i)) {
                note(wire.from(), i + 1);
                note(wire.to(), i + 1);
            }
        }
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
