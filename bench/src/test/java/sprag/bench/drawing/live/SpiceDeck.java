package sprag.bench.drawing.live;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * Schedules as the input of a general-purpose circuit simulator. Contacts are switches that the voltage at their coil closes, so that
 * the simulator finds out by itself which coil pulls. Several combinations stand in one deck side by side.
 */
final class SpiceDeck {
    private static final String WIRE_OHM = "1m";
    private static final String LOAD_OHM = "100";
    private static final double PACK_V = 96;

    private final StringBuilder deck = new StringBuilder("a wiring schedule\n");
    private final Schedule schedule;
    private final Map<String, Integer> node = new HashMap<>();
    private Set<String> known = Set.of();
    private Set<String> set = Set.of();
    private int copy;
    private int elements;

    SpiceDeck(Schedule schedule) {
        this.schedule = schedule;
        for (Wire wire : schedule.wires()) {
            List.of(wire.from(), wire.to()).forEach(end -> {
                if (!end.isEmpty()) {
                    node.putIfAbsent(end, node.size());
                }
            });
        }
        // 9 V: a coil behind another load never sees it.
        deck.append(".model pulls sw vt=9 vh=0.01 ron=1m roff=1e13\n.model takes sw vt=48 vh=0.01 ron=1m roff=1e13\n");
        deck.append("v12 n12 0 12\nv5 n5 0 5\nv16 n16 0 16\n.options gmin=1e-14 abstol=1e-10 reltol=1e-4 itl1=2000\n");
    }

    /** Adds one combination.
     *
     * @param allControls what can be said of any control
     * @param setControls what is said of those that are not at rest
     * @param towardsV where everything that floats is drawn to
     */
    void add(Set<String> allControls, Set<String> setControls, double towardsV) {
        known = allControls;
        set = setControls;
        copy++;
        element("v", name("towards"), "0", String.valueOf(towardsV));
        node.keySet().forEach(terminal -> element("r", name("towards"), of(terminal), "1e8"));
        schedule.wires().stream().filter(Wire::hasBothEnds).forEach(wire -> join(wire.from(), wire.to(), WIRE_OHM));
        schedule.parts().values().forEach(this::part);
    }

    String text() {
        return deck + ".op\n.end\n";
    }

    /** The name of a terminal's node in a combination, counted from 1. */
    String node(int combination, String terminal) {
        return "c" + combination + "t" + node.get(terminal);
    }

    private String name(String word) {
        return "c" + copy + word;
    }

    private String of(String terminal) {
        return node(copy, terminal);
    }

    private void element(String kind, String... words) {
        elements++;
        deck.append(kind)
                .append(elements)
                .append(' ')
                .append(String.join(" ", words))
                .append('\n');
    }

    private void join(String a, String b, String ohm) {
        if (node.containsKey(a) && node.containsKey(b) && !a.equals(b)) {
            element("r", of(a), of(b), ohm);
        }
    }

    private void pair(String part, String a, String b, String ohm) {
        join(part + "." + a, part + "." + b, ohm);
    }

    /** A node that carries the size of the voltage between two terminals; empty when one is not drawn. */
    private String seen(String part, String a, String b) {
        String x = part + "." + a;
        String y = part + "." + b;
        if (!node.containsKey(x) || !node.containsKey(y)) {
            return "";
        }
        String seen = name("s" + elements);
        element("b", seen, "0", "V=abs(v(" + of(x) + ")-v(" + of(y) + "))");
        return seen;
    }

    /** The contrary of what {@link #seen} carries, for a contact that is closed at rest. */
    private String unseen(String seen) {
        String contrary = name("u" + elements);
        element("b", contrary, "0", "V=18-v(" + seen + ")");
        return contrary;
    }

    private void contact(String a, String b, String seen, String model) {
        if (!a.isEmpty() && !b.isEmpty() && !seen.isEmpty()) {
            element("s", a, b, seen, "0", model);
        }
    }

    private String terminal(String name) {
        return node.containsKey(name) ? of(name) : "";
    }

    /** Every way from an in to its out, and what is at rest beside it. */
    private void contacts(String part, String seen) {
        for (String pin : pins(part)) {
            if (pin.matches("out(_\\d+)?")) {
                contact(terminal(in(part, pin)), terminal(part + "." + pin), seen, "pulls");
            }
        }
        if (node.containsKey(part + ".rest")) {
            contact(terminal(part + ".in"), terminal(part + ".rest"), unseen(seen), "pulls");
        }
    }

    private String in(String part, String out) {
        String own = part + ".in" + out.substring("out".length());
        return node.containsKey(own) ? own : part + ".in";
    }

    private Set<String> pins(String part) {
        Set<String> pins = new TreeSet<>();
        node.keySet().stream().filter(t -> Wire.partOf(t).equals(part)).forEach(t -> pins.add(Wire.pinOf(t)));
        return pins;
    }

    private void byHand(String part) {
        boolean loop = known.contains(part + " open");
        boolean closed = loop ? !set.contains(part + " open") : set.contains(part + " closed");
        if (known.contains(part + " pressed or out")) {
            closed = !set.contains(part + " pressed or out");
        }
        for (String pin : pins(part)) {
            boolean second = known.contains(part + " to " + pin);
            if (pin.matches("out(_\\d+)?") && (second ? set.contains(part + " to " + pin) : closed)) {
                join(in(part, pin), part + "." + pin, WIRE_OHM);
            }
        }
        if (!closed) {
            pair(part, "in", "rest", WIRE_OHM);
        }
    }

    private void part(Part part) {
        String n = part.name();
        switch (part.kind()) {
            case SPLICE, CHASSIS -> {
                List<String> own = pins(n).stream().map(pin -> n + "." + pin).toList();
                own.forEach(t -> join(own.get(0), t, WIRE_OHM));
            }
            case FUSE -> {
                if (!set.contains(n + " out")) {
                    pair(n, "in", "out", WIRE_OHM);
                }
            }
            case RESISTOR -> pair(n, "in", "out", LOAD_OHM);
            case SHUNT, CURRENT_SENSOR -> {
                pair(n, "pack", "load", WIRE_OHM);
                pair(n, "pack", "sense_plus", WIRE_OHM);
                pair(n, "load", "sense_minus", WIRE_OHM);
            }
            case CONTACTOR, RELAY, TIMER -> relay(part);
            case CUT_OFF, SWITCH -> byHand(n);
            case KEY ->
                pins(n).stream()
                        .filter(pin -> set.contains(n + " to " + pin))
                        .forEach(pin -> pair(n, "in", pin, WIRE_OHM));
            default -> supplied(part);
        }
    }

    private void relay(Part part) {
        String n = part.name();
        pair(n, "coil_plus", "coil_minus", LOAD_OHM);
        String seen = seen(n, "coil_plus", "coil_minus");
        if (part.kind() != PartKind.TIMER || set.contains(n + " has run")) {
            contacts(n, seen);
        }
        contact(terminal(n + ".aux_a"), terminal(n + ".aux_b"), seen, "pulls");
    }

    private void supplied(Part part) {
        String n = part.name();
        pair(n, "supply", "ground", LOAD_OHM);
        String awake = seen(n, "supply", "ground");
        pair(n, "sensor_ground", "ground", WIRE_OHM);
        contact("n5", terminal(n + ".sensor_supply"), awake, "pulls");
        switch (part.kind()) {
            case LV_BATTERY -> {
                element("r", of(n + ".minus"), "0", WIRE_OHM);
                if (!set.contains(n + " off")) {
                    element("r", of(n + ".plus"), "n12", WIRE_OHM);
                }
            }
            case PACK -> {
                long packs = schedule.parts().values().stream()
                        .filter(p -> p.kind() == PartKind.PACK)
                        .count();
                element(
                        "v",
                        of(n + ".plus"),
                        name("inside" + elements),
                        String.format(Locale.ROOT, "%.1f", PACK_V / packs));
                element("r", name("inside" + (elements - 1)), of(n + ".minus"), WIRE_OHM);
            }
            case DCDC -> {
                pair(n, "plus", "minus", LOAD_OHM);
                if (!known.contains("dcdc_enable on") || set.contains("dcdc_enable on")) {
                    String fed = seen(n, "plus", "minus");
                    contact("n12", terminal(n + ".out_plus"), fed, "takes");
                    contact("0", terminal(n + ".out_minus"), fed, "takes");
                }
            }
            case SUPERVISOR ->
                pins(n).stream()
                        .filter(pin -> set.contains(pin + " on"))
                        .forEach(pin -> contact(terminal(n + "." + pin), terminal(n + ".ground"), awake, "pulls"));
            default -> loads(n);
        }
    }

    private void loads(String n) {
        pair(n, "plus", "minus", LOAD_OHM);
        pair(n, "a", "b", LOAD_OHM);
        List.of("u", "v", "w").forEach(phase -> pair(n, "plus", phase, LOAD_OHM));
        for (String wiper : List.of("wiper", "wiper_a", "wiper_b")) {
            pair(n, "supply", wiper, LOAD_OHM);
            pair(n, wiper, "ground", LOAD_OHM);
        }
    }

    /** The voltages of a raw file in letters, by name. */
    static Map<String, Double> read(String raw) {
        Map<String, Double> volts = new TreeMap<>();
        int at = raw.indexOf("\nVariables:") + 1;
        int values = raw.indexOf("Values:");
        List<String> names = raw.substring(at, values)
                .lines()
                .skip(1)
                .map(l -> l.strip().split("\\s+")[1])
                .toList();
        List<String> numbers = raw.substring(values)
                .lines()
                .skip(1)
                .map(String::strip)
                .filter(l -> !l.isEmpty())
                .toList();
        for (int i = 0; i < names.size(); i++) {
            String[] words = numbers.get(i).split("\\s+");
            volts.put(names.get(i).replaceAll("^v\\(|\\)$", ""), Double.valueOf(words[words.length - 1]));
        }
        return volts;
    }
}
