package sprag.bench.review.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** Rules about grounds and sensor supplies. */
final class GroundRules {
    private static final String SENSOR_GROUND = "sensor_ground";

    private GroundRules() {}

    /** The terminal that takes a part's current back; null when the part needs none that the schedule could show. */
    private static String returnOf(Review review, Part part) {
        boolean supplied = review.circuit.netOf(part.name() + ".supply") >= 0
                || review.circuit.netOf(part.name() + ".output_supply") >= 0;
        if (supplied || part.kind() == PartKind.SUPERVISOR) {
            return part.name() + ".ground";
        }
        return isThermistor(review, part) ? part.name() + ".b" : null;
    }

    /** Two terminals, the first of them at an analogue input. */
    private static boolean isThermistor(Review review, Part part) {
        int a = review.circuit.netOf(part.name() + ".a");
        return part.kind() == PartKind.SENSOR
                && a >= 0
                && analogueInputs(review).get(a);
    }

    private static BitSet analogueInputs(Review review) {
        BitSet inputs = new BitSet();
        for (Signal signal : Signal.values()) {
            int net = signal.unit == Unit.VOLT ? review.supervisorNet(signal.key()) : -1;
            if (net >= 0) {
                inputs.set(net);
            }
        }
        return inputs;
    }

    /** Whether an isolation monitor has the body that it measures against. */
    private static boolean isOnBody(Review review, Part monitor) {
        int net = review.circuit.netOf(monitor.name() + ".chassis");
        return net >= 0 && review.sides.ground.get(net);
    }

    /** Terminals that lost the same ground give one finding. */
    static List<Hit> missing(Review review) {
        int sensorGround = sensorNet(review, SENSOR_GROUND);
        Map<Integer, List<String>> byNet = new TreeMap<>();
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            if (part.kind() == PartKind.ISOLATION_MONITOR && !isOnBody(review, part)) {
                hits.add(review.atPart(
                        part,
                        "Terminal " + part.name() + ".chassis does not reach the chassis: without it " + part.name()
                                + " measures nothing.",
                        Map.of()));
            }
            String terminal = returnOf(review, part);
            int net = terminal == null ? -1 : review.circuit.netOf(terminal);
            if (terminal != null && net < 0) {
                hits.add(review.atPart(
                        part, "Terminal " + terminal + " has no wire: " + part.name() + " has no ground.", Map.of()));
            } else if (terminal != null && net != sensorGround && !review.sides.ground.get(net)) {
                byNet.computeIfAbsent(net, n -> new ArrayList<>()).add(terminal);
            }
        }
        byNet.values()
                .forEach(terminals -> hits.add(new Hit(
                        terminals.get(0),
                        Schedule.WIRES_FILE,
                        review.lineOf(terminals.get(0)),
                        "No ground reaches " + String.join(", ", terminals) + ".",
                        Map.of())));
        return hits;
    }

    static List<Hit> sensorGroundOnChassis(Review review) {
        int sensorGround = review.supervisorNet(SENSOR_GROUND);
        List<Hit> hits = new ArrayList<>();
        if (sensorGround >= 0 && review.sides.ground.get(sensorGround)) {
            hits.add(new Hit(
                    "supervisor." + SENSOR_GROUND,
                    Schedule.WIRES_FILE,
                    review.lineOf("supervisor." + SENSOR_GROUND),
                    "The sensor ground is joined to the chassis: the currents of other loads shift what sensors read.",
                    Map.of()));
            return hits;
        }
        int sensorSupply = review.supervisorNet("sensor_supply");
        for (Part part : review.schedule.parts().values()) {
            int supply = review.circuit.netOf(part.name() + ".supply");
            boolean sensor = part.kind() == PartKind.PEDAL
                    || isThermistor(review, part)
                    || supply >= 0 && supply == sensorSupply && part.kind() != PartKind.SUPERVISOR;
            String terminal = sensor ? returnOf(review, part) : null;
            int net = terminal == null ? -1 : review.circuit.netOf(terminal);
            if (net >= 0 && review.sides.ground.get(net)) {
                hits.add(review.atPart(
                        part,
                        "Terminal " + terminal + " returns through the chassis instead of supervisor.sensor_ground: the"
                                + " currents of other loads shift what it reads.",
                        Map.of()));
            }
        }
        return hits;
    }

    /** Without a supervisor in the vehicle the inverter feeds its sensors by itself. */
    private static int sensorNet(Review review, String pin) {
        List<Part> inverters = review.limits.driven().isEmpty() ? review.parts(PartKind.INVERTER) : List.of();
        return inverters.isEmpty()
                ? review.supervisorNet(pin)
                : review.circuit.netOf(inverters.get(0).name() + "." + pin);
    }

    static List<Hit> sensorSupply(Review review) {
        int sensorSupply = sensorNet(review, "sensor_supply");
        BitSet power = review.circuit.reach(review.sides.lowVoltageSources, Sides.POWER);
        List<Hit> hits = new ArrayList<>();
        if (sensorSupply >= 0 && (power.get(sensorSupply) || review.sides.ground.get(sensorSupply))) {
            String to = power.get(sensorSupply) ? "the 12 V supply" : "the ground";
            hits.add(new Hit(
                    "supervisor.sensor_supply",
                    Schedule.WIRES_FILE,
                    review.lineOf("supervisor.sensor_supply"),
                    "The sensor supply of 5 V is joined to " + to + ".",
                    Map.of()));
            return hits;
        }
        for (Part part : review.parts(PartKind.PEDAL)) {
            int supply = review.circuit.netOf(part.name() + ".supply");
            if (supply < 0 || supply != sensorSupply) {
                String found = supply < 0
                        ? "has no wire"
                        : power.get(supply) ? "is wired to the 12 V supply" : "does not reach supervisor.sensor_supply";
                hits.add(review.atPart(
                        part,
                        "Terminal " + part.name() + ".supply " + found
                                + ": the pedal's voltages are a share of the sensor supply and of nothing else.",
                        Map.of()));
            }
        }
        return hits;
    }

    /** Loads that take their current back through the ground of the sensors. */
    private static List<Hit> throughSensorGround(Review review) {
        int sensorGround = sensorNet(review, SENSOR_GROUND);
        // A sensors' ground that is the chassis is one finding, not one for each load there.
        boolean apart = sensorGround >= 0 && !review.sides.chassis.get(sensorGround);
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            boolean load = part.kind().isLoad() && !part.kind().onlyMeasures();
            if (load && apart && review.circuit.netOf(part.name() + ".minus") == sensorGround) {
                hits.add(review.atPart(
                        part,
                        "The current of " + part.name() + ".minus returns through the sensors' ground and lifts it.",
                        Map.of()));
            }
        }
        return hits;
    }

    /** Loads whose only way to the chassis is the wire that also carries the supervisor's ground. */
    static List<Hit> shared(Review review) {
        Map<String, List<Wire>> byTerminal = new HashMap<>();
        for (Wire wire : review.schedule.wires()) {
            if (wire.hasBothEnds() && review.sides.ground.get(review.netOf(wire))) {
                byTerminal
                        .computeIfAbsent(node(review, wire.from()), t -> new ArrayList<>())
                        .add(wire);
                byTerminal
                        .computeIfAbsent(node(review, wire.to()), t -> new ArrayList<>())
                        .add(wire);
            }
        }
        List<Hit> hits = throughSensorGround(review);
        for (Part supervisor : review.parts(PartKind.SUPERVISOR)) {
            String own = supervisor.name() + ".ground";
            List<String> queue = new ArrayList<>();
            for (Part part : review.schedule.parts().values()) {
                if (part.kind() == PartKind.CHASSIS || part.kind() == PartKind.LV_BATTERY) {
                    queue.add(node(review, part.name() + ".minus"));
                }
            }
            Set<String> reached = new HashSet<>(queue);
            for (int i = 0; i < queue.size(); i++) {
                for (Wire wire : byTerminal.getOrDefault(queue.get(i), List.of())) {
                    for (String end : List.of(node(review, wire.from()), node(review, wire.to()))) {
                        if (!end.equals(own) && reached.add(end)) {
                            queue.add(end);
                        }
                    }
                }
            }
            List<String> behind = review.schedule.parts().values().stream()
                    .filter(part -> part.kind().isLoad() && !part.kind().onlyMeasures())
                    .map(part -> part.name() + ".minus")
                    .filter(minus -> byTerminal.containsKey(minus) && !reached.contains(minus))
                    .toList();
            if (!behind.isEmpty()) {
                hits.add(new Hit(
                        own,
                        Schedule.WIRES_FILE,
                        review.lineOf(own),
                        "The current of " + String.join(", ", behind)
                                + " returns through the supervisor's ground wire and lifts its ground.",
                        Map.of()));
            }
        }
        return hits;
    }

    /** The chassis, a splice and the battery's minus count as one place each. */
    private static String node(Review review, String terminal) {
        Part part = review.schedule.parts().get(Wire.partOf(terminal));
        boolean one = part != null && (part.kind() == PartKind.CHASSIS || part.kind() == PartKind.SPLICE);
        return one ? part.name() : terminal;
    }
}
