package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/** Decides on which kind of sheet a wire is drawn: exactly one. */
final class WireSorter {
    private final Schedule schedule;
    private final DrawnCircuit circuit;
    private final BitSet coilNets;
    private final BitSet loopNets;

    WireSorter(Schedule schedule, DrawnCircuit circuit) {
        this.schedule = schedule;
        this.circuit = circuit;
        coilNets = circuit.nets(t -> circuit.pin(t).startsWith("coil_"));
        loopNets = circuit.nets(t -> circuit.pin(t).endsWith("_loop_closed"));
    }

    /** All wires by kind of sheet, each in the order of the schedule. */
    Map<SheetKind, List<Wire>> sorted() {
        Map<SheetKind, List<Wire>> sorted = new EnumMap<>(SheetKind.class);
        for (Wire wire : schedule.wires()) {
            sorted.computeIfAbsent(kindOf(wire), k -> new ArrayList<>()).add(wire);
        }
        return sorted;
    }

    private SheetKind kindOf(Wire wire) {
        if (wire.voltageClass() == VoltageClass.EARTH && !isProtective(wire)) {
            return ofGround(wire);
        }
        return ofOther(wire);
    }

    /** A ground is drawn where the plus of the same part is drawn. */
    private SheetKind ofGround(Wire ground) {
        for (String end : List.of(ground.from(), ground.to())) {
            Part part = partOf(end);
            if (part == null || part.kind() == PartKind.CHASSIS || part.kind() == PartKind.SUPERVISOR) {
                continue;
            }
            for (int terminal : circuit.terminalsOf(part)) {
                for (Wire wire : circuit.wiresAt(terminal)) {
                    boolean feeds = wire.voltageClass() == VoltageClass.LOW_VOLTAGE;
                    if (feeds) {
                        return ofOther(wire);
                    }
                }
            }
        }
        return SheetKind.SUPPLY;
    }

    /** Whether it bonds an inlet or a charger: that belongs to the mains. */
    private boolean isProtective(Wire wire) {
        return wire.voltageClass() == VoltageClass.EARTH
                && anyPin(wire, pin -> pin.startsWith("earth"))
                && any(wire, kind -> kind == PartKind.INLET || kind == PartKind.CHARGER);
    }

    private SheetKind ofOther(Wire wire) {
        VoltageClass voltage = wire.voltageClass();
        if (voltage == VoltageClass.MAINS || any(wire, kind -> kind == PartKind.INLET) || isProtective(wire)) {
            return SheetKind.CHARGING;
        }
        if (voltage == VoltageClass.TRACTION) {
            return SheetKind.TRACTION;
        }
        if (isData(wire)) {
            return SheetKind.DATA;
        }
        if (isCoil(wire)) {
            return SheetKind.COILS;
        }
        if (voltage == VoltageClass.SIGNAL && any(wire, kind -> kind == PartKind.CHARGER)) {
            return SheetKind.CHARGING;
        }
        boolean switched = any(
                wire,
                kind -> kind == PartKind.SWITCH
                        || kind == PartKind.KEY
                        || kind == PartKind.PEDAL
                        || kind == PartKind.SENSOR);
        return voltage == VoltageClass.SIGNAL || switched ? SheetKind.SIGNALS : SheetKind.SUPPLY;
    }

    private boolean isData(Wire wire) {
        boolean named = anyPin(wire, pin -> pin.startsWith("data"));
        return wire.voltageClass() == VoltageClass.SIGNAL
                && (named || !wire.twistedWith().isEmpty());
    }

    private boolean isCoil(Wire wire) {
        int net = circuit.netOf(wire);
        boolean touches = anyPin(wire, pin -> pin.startsWith("coil_") || pin.startsWith("aux_"))
                || any(wire, kind -> kind == PartKind.CUT_OFF || kind.hasCoil());
        boolean joint = coilNets.get(net) && any(wire, PartKind::isJoint);
        return touches || joint || loopNets.get(net) || isLoopSwitch(wire);
    }

    /** Whether it feeds a switch whose other side is a loop. */
    private boolean isLoopSwitch(Wire wire) {
        for (String end : List.of(wire.from(), wire.to())) {
            Part part = partOf(end);
            if (part != null && part.kind() == PartKind.SWITCH) {
                boolean loop = circuit.terminalsOf(part).stream().anyMatch(t -> loopNets.get(circuit.netOf(t)));
                if (loop) {
                    return true;
                }
            }
        }
        return false;
    }

    private boolean any(Wire wire, Predicate<PartKind> test) {
        Part from = partOf(wire.from());
        Part to = partOf(wire.to());
        return from != null && test.test(from.kind()) || to != null && test.test(to.kind());
    }

    private static boolean anyPin(Wire wire, Predicate<String> test) {
        return !wire.from().isEmpty() && test.test(Wire.pinOf(wire.from()))
                || !wire.to().isEmpty() && test.test(Wire.pinOf(wire.to()));
    }

    private Part partOf(String terminal) {
        return terminal.isEmpty() ? null : schedule.parts().get(Wire.partOf(terminal));
    }
}
