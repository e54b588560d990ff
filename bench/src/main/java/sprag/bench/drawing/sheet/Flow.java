package sprag.bench.drawing.sheet;

import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/** Decides at which end a wire leaves a box on the right and where it arrives on the left of another. */
final class Flow {
    /** Where a terminal is by nature. */
    enum Side {
        WEST,
        EAST,
        FREE
    }

    private Flow() {}

    /** Whether the wire is drawn from its end {@code from} to the right; otherwise from its end {@code to}. */
    static boolean forward(Wire wire, Part from, Part to) {
        Side first = side(from, wire, wire.from());
        Side second = side(to, wire, wire.to());
        if (first == Side.WEST && second == Side.WEST) {
            return !isReturn(from, wire, wire.from());
        }
        if (first == Side.WEST) {
            return second == Side.FREE && !isReturn(from, wire, wire.from());
        }
        return first == Side.EAST || second != Side.EAST;
    }

    /** Whether a load gives its current back there: it hangs on that wire rather than feeding it. */
    private static boolean isReturn(Part part, Wire wire, String terminal) {
        return part != null
                && part.kind().isLoad()
                && wire.voltageClass() == VoltageClass.TRACTION
                && Wire.pinOf(terminal).startsWith("minus");
    }

    /** Where a terminal is by nature. */
    static Side side(Part part, Wire wire, String terminal) {
        String pin = Wire.pinOf(terminal).replaceAll("_?\\d+$", "");
        boolean traction = wire.voltageClass() == VoltageClass.TRACTION;
        return switch (part.kind()) {
            case CONTACTOR, RELAY, TIMER -> pick(pin, "in coil_plus aux_a", "out rest coil_minus aux_b");
            case FUSE, RESISTOR, SWITCH, CUT_OFF -> pick(pin, "in aux_a", "out rest aux_b");
            case KEY -> pick(pin, "in", "out drive start accessory");
            case SHUNT, CURRENT_SENSOR -> pick(pin, "pack", "load sense_plus sense_minus");
            case PACK, LV_BATTERY, INLET -> Side.EAST;
            case MOTOR -> Side.WEST;
            case SUPPRESSOR -> pick(pin, "a", "b");
            case CHASSIS -> Side.WEST;
            default ->
                part.kind().isLoad()
                        ? pick(
                                pin,
                                traction ? "plus minus line neutral supply" : "plus line neutral supply",
                                "out_plus out_minus minus ground u v w")
                        : Side.FREE;
        };
    }

    private static Side pick(String pin, String west, String east) {
        if ((" " + west + " ").contains(" " + pin + " ")) {
            return Side.WEST;
        }
        return (" " + east + " ").contains(" " + pin + " ") ? Side.EAST : Side.FREE;
    }

    /** Whether each terminal of such a part is drawn as a part of its own: ground is ground wherever it is. */
    static boolean standsAlone(PartKind kind) {
        return kind == PartKind.CHASSIS;
    }
}
