package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import sprag.bench.review.wiring.schedule.Part;

/** Which terminals of a part belong to one contact, coil or the like. */
final class Pairs {
    /** A left and a right terminal and what lies between. */
    record Pair(Symbol symbol, String west, String east) {}

    private Pairs() {}

    /** The pairs of a part.
     *
     * @param closed whether its contacts are closed while all is well, as those of a loop are
     */
    static List<Pair> of(Part part, List<Slot> slots, boolean closed) {
        TreeSet<String> pins = new TreeSet<>();
        slots.forEach(s -> pins.add(s.pin()));
        List<Pair> pairs = new ArrayList<>();
        switch (part.kind()) {
            case CONTACTOR, RELAY, TIMER -> {
                contacts(pairs, pins, Symbol.MAKE);
                pairs.add(new Pair(Symbol.BREAK, "", "rest"));
                pairs.add(new Pair(Symbol.COIL, "coil_plus", "coil_minus"));
                pairs.add(new Pair(Symbol.MAKE, "aux_a", "aux_b"));
            }
            case SWITCH -> {
                contacts(pairs, pins, closed ? Symbol.BREAK : Symbol.MAKE);
                pairs.add(new Pair(closed ? Symbol.MAKE : Symbol.BREAK, "", "rest"));
            }
            case KEY -> {
                pairs.add(new Pair(Symbol.MAKE, "in", "drive"));
                pairs.add(new Pair(Symbol.MAKE, "", "start"));
                pairs.add(new Pair(Symbol.MAKE, "", "accessory"));
                contacts(pairs, pins, Symbol.MAKE);
            }
            case CUT_OFF -> contacts(pairs, pins, Symbol.CUT_OFF);
            case FUSE -> contacts(pairs, pins, Symbol.FUSE);
            case RESISTOR -> contacts(pairs, pins, Symbol.RESISTOR);
            case SHUNT, CURRENT_SENSOR -> pairs.add(new Pair(Symbol.SHUNT, "pack", "load"));
            case SUPPRESSOR -> pairs.add(new Pair(Symbol.SUPPRESSOR, "a", "b"));
            case LAMP -> pairs.add(new Pair(Symbol.LAMP, "plus", "minus"));
            case LOAD -> pairs.add(new Pair(Symbol.TURNS, "plus", "minus"));
            case HEATER -> pairs.add(new Pair(Symbol.HEATER, "plus", "minus"));
            default -> {}
        }
        return pairs;
    }

    private static void contacts(List<Pair> pairs, TreeSet<String> pins, Symbol symbol) {
        TreeSet<String> endings = new TreeSet<>();
        for (String pin : pins) {
            if (pin.matches("(in|out)(_\\d+)?")) {
                endings.add(pin.replaceAll("^(in|out)", ""));
            }
        }
        endings.forEach(ending -> pairs.add(new Pair(symbol, "in" + ending, "out" + ending)));
    }
}
