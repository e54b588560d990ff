package sprag.bench.review.wiring;

import static sprag.bench.review.wiring.DrawingRules.OUTPUTS;
import static sprag.bench.review.wiring.DrawingRules.SIGNALS;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.power.PrechargeRules;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** Rules about what the supervisor's terminals lead to. They follow terminals; names of nets count for nothing. */
final class SupervisorRules {
    /** Loops that are closed while all is well. */
    private static final List<Signal> LOOPS =
            List.of(Signal.CUT_LOOP_CLOSED, Signal.COVER_LOOP_CLOSED, Signal.CRASH_LOOP_CLOSED);

    /** What the loop knows about itself; no wire brings it. */
    private static final Set<Signal> INTERNAL = Set.of(Signal.LOOP_OVERRUN, Signal.LINK_LOST);
    /** The car drives and charges without these. */
    private static final Set<Signal> DISPENSABLE = Set.of(Signal.REGEN_LEVEL, Signal.SERVICE_RESET);
    /** Without these nothing drives, or nothing charges, or nothing limits the charge. */
    private static final List<Output> NEEDED = List.of(
            Output.NEGATIVE_CONTACTOR,
            Output.PRECHARGE_RELAY,
            Output.POSITIVE_CONTACTOR,
            Output.INVERTER_ENABLE,
            Output.TORQUE_REQUEST_NM,
            Output.CHARGER_ENABLE,
            Output.CHARGE_VOLTAGE_LIMIT_V);
    /** Without these people are not told. */
    private static final List<Output> WANTED = List.of(Output.BRAKE_LAMP, Output.FAULT_LAMP);
    /** The greatest voltage of an analogue input that a 12 V wire must not touch (V). */
    private static final double SENSOR_INPUT_V = 6;

    private SupervisorRules() {}

    static List<Hit> neededWithoutWire(Review review) {
        Set<String> brought = brought(review);
        List<Hit> hits = new ArrayList<>();
        for (Signal signal : Signal.values()) {
            if (isNeeded(review, signal) && !INTERNAL.contains(signal) && !DISPENSABLE.contains(signal)) {
                missing(brought, signal, hits);
            }
        }
        NEEDED.stream().filter(review.limits.driven()::contains).forEach(output -> missing(brought, output, hits));
        if (review.limits.fitted().contains(Signal.PLUG_LOCKED)) {
            missing(brought, Output.PLUG_LOCK, hits);
        }
        boolean currentLimit = brought.contains(Output.CHARGE_CURRENT_LIMIT_A.key())
                || brought.contains(Output.CHARGER_1_LIMIT_A.key());
        if (!currentLimit && review.limits.driven().contains(Output.CHARGE_CURRENT_LIMIT_A)) {
            missing(brought, Output.CHARGE_CURRENT_LIMIT_A, hits);
        }
        return hits;
    }

    private static boolean isNeeded(Review review, Signal signal) {
        return !signal.optional && review.limits.fitted().contains(signal);
    }

    static List<Hit> signalWithoutWire(Review review) {
        Set<String> brought = brought(review);
        List<Hit> hits = new ArrayList<>();
        for (Signal signal : review.limits.fitted()) {
            if (signal.optional || DISPENSABLE.contains(signal)) {
                missing(brought, signal, hits);
            }
        }
        WANTED.stream()
                .filter(output -> !review.limits.driven().isEmpty())
                .forEach(output -> missing(brought, output, hits));
        return hits;
    }

    /** What a wire brings to the supervisor or takes from it: by its terminal, or over a wire that is joined to it. */
    private static Set<String> brought(Review review) {
        BitSet joined = review.circuit.nets(t -> review.circuit.part(t).kind() == PartKind.SUPERVISOR);
        Set<String> brought = new TreeSet<>();
        review.schedule.wires().stream()
                .filter(wire -> joined.get(review.netOf(wire)))
                .forEach(wire -> brought.addAll(wire.carries()));
        for (Part supervisor : review.parts(PartKind.SUPERVISOR)) {
            review.circuit.terminalsOf(supervisor).forEach(t -> brought.add(review.circuit.pin(t)));
        }
        return brought;
    }

    private static void missing(Set<String> brought, Signal signal, List<Hit> hits) {
        if (!brought.contains(signal.key())) {
            hits.add(missing(signal.key(), "The vehicle has the signal " + signal.key() + " (" + signal.meaning + ")"));
        }
    }

    private static void missing(Set<String> brought, Output output, List<Hit> hits) {
        if (!brought.contains(output.key())) {
            hits.add(missing(output.key(), "The supervisor commands " + output.key() + " (" + output.meaning + ")"));
        }
    }

    private static Hit missing(String key, String beginning) {
        String sentence = beginning + ", but no wire ends at supervisor." + key
                + " and none that is joined to the supervisor carries it.";
        return new Hit(key, Schedule.WIRES_FILE, 0, sentence, Map.of());
    }

    /** Where in the circuit the contact of a part sits, told by what it cuts off. */
    private enum Place {
        // @formatter:off
        PRECHARGE      (Output.PRECHARGE_RELAY,    "in series with the precharge resistor", "precharge_aux_closed"),
        NEGATIVE_LINE  (Output.NEGATIVE_CONTACTOR, "in the negative traction line",         "negative_aux_closed"),
        POSITIVE_LINE  (Output.POSITIVE_CONTACTOR, "in the positive traction line",         "positive_aux_closed"),
        HEATER         (Output.HEATER_ELEMENT,     "before the heater",                     ""),
        INVERTER_LOGIC (Output.INVERTER_ENABLE,    "before the inverter's logic supply",    "");
        // @formatter:on

        private final Output output;
        private final String words;
        private final String auxiliary;

        Place(Output output, String words, String auxiliary) {
            this.output = output;
            this.words = words;
            this.auxiliary = auxiliary;
        }

        static Place of(Review review, Part part) {
            Sides sides = review.sides;
            if (cuts(review, part, sides.minusPoles, PartKind.INVERTER, "minus")) {
                return NEGATIVE_LINE;
            }
            if (cuts(review, part, sides.plusPoles, PartKind.INVERTER, "plus")) {
                return POSITIVE_LINE;
            }
            boolean heater = cuts(review, part, sides.plusPoles, PartKind.HEATER, "plus")
                    || cuts(review, part, sides.minusPoles, PartKind.HEATER, "minus");
            boolean logic = cuts(review, part, sides.lowVoltageSources, PartKind.INVERTER, "supply");
            if (heater || logic) {
                return heater ? HEATER : INVERTER_LOGIC;
            }
            return PrechargeRules.isPrecharge(review, part) ? PRECHARGE : null;
        }

        private static boolean cuts(Review review, Part part, BitSet from, PartKind kind, String pin) {
            BitSet ends = review.circuit.nets(kind, pin);
            boolean before = review.circuit.reach(from, Sides.FULL_POWER).intersects(ends);
            return before && !review.circuit.reach(from, without(part)).intersects(ends);
        }
    }

    private static Predicate<Link> without(Part part) {
        return Sides.FULL_POWER.and(link -> link.part() != part || !Sides.isContact(link));
    }

    static List<Hit> wrongCoil(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Place wanted : Place.values()) {
            int net = review.supervisorNet(wanted.output.key());
            for (Part part : net < 0 ? List.<Part>of() : coilsOn(review, net)) {
                Place place = Place.of(review, part);
                if (place != null && place != wanted) {
                    String sentence = "supervisor." + wanted.output.key() + " moves " + part.name()
                            + ", whose contact lies " + place.words + "; it belongs to a contact " + wanted.words + ".";
                    hits.add(review.atPart(part, sentence, Map.of()));
                }
            }
        }
        return hits;
    }

    private static List<Part> coilsOn(Review review, int net) {
        return review.schedule.parts().values().stream()
                .filter(part -> part.kind().hasCoil())
                .filter(part -> review.circuit.netOf(part.name() + ".coil_plus") == net
                        || review.circuit.netOf(part.name() + ".coil_minus") == net)
                .toList();
    }

    /** A coil between the supply and the ground, with no output of the supervisor on the way. */
    static List<Hit> coilWithoutOutput(Review review) {
        if (review.limits.driven().isEmpty()) {
            return List.of();
        }
        Set<Part> commanded = new LinkedHashSet<>();
        for (String output : OUTPUTS) {
            // A watchdog only takes the supply away; it does not choose which coil is switched.
            int net = output.equals(Output.HEARTBEAT.key()) ? -1 : review.supervisorNet(output);
            commanded.addAll(net < 0 ? List.of() : coilsOn(review, net));
        }
        Predicate<Link> uncommanded =
                Sides.FULL_POWER.and(link -> !Sides.isContact(link) || !commanded.contains(link.part()));
        BitSet live = review.circuit.reach(review.sides.lowVoltageSources, uncommanded);
        BitSet ground = review.circuit.reach(review.sides.ground, uncommanded);
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            int plus = review.circuit.netOf(part.name() + ".coil_plus");
            int minus = review.circuit.netOf(part.name() + ".coil_minus");
            boolean fed = plus >= 0 && minus >= 0 && ground.get(minus) && live.get(plus);
            if (part.kind().hasCoil() && fed && switchesTraction(review, part)) {
                String sentence = "The coil of " + part.name()
                        + " lies between the 12 V supply and the ground: no output of" + " the supervisor switches it.";
                hits.add(review.atPart(part, sentence, Map.of()));
            }
        }
        return hits;
    }

    private static boolean switchesTraction(Review review, Part part) {
        return review.circuit.linksOf(part).stream()
                .map(review.circuit.links()::get)
                .anyMatch(link -> link.kind() == LinkKind.CONTACT && review.isTraction(review.circuit.netIn(link)));
    }

    /** Terminals of other parts that belong to one signal. */
    private record Pairing(PartKind kind, String pin, List<String> signals) {}

    private static final List<Pairing> PAIRINGS = List.of(
            new Pairing(PartKind.INLET, "pilot", List.of("pilot_peak_v", "pilot_duty")),
            new Pairing(PartKind.INLET, "proximity", List.of("proximity_v")),
            new Pairing(PartKind.PEDAL, "wiper", List.of("pedal_a_v")),
            new Pairing(PartKind.PEDAL, "wiper_a", List.of("pedal_a_v")),
            new Pairing(PartKind.PEDAL, "wiper_b", List.of("pedal_b_v")),
            new Pairing(PartKind.KEY, "drive", List.of("key_on")),
            new Pairing(PartKind.KEY, "start", List.of("start_request")));

    static List<Hit> swappedSignals(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Pairing pairing : PAIRINGS) {
            for (Part part : review.parts(pairing.kind)) {
                swapped(review, part.name() + "." + pairing.pin, pairing.signals, hits);
            }
        }
        NamedAfter.swapped(review, hits);
        for (Part part : review.schedule.parts().values()) {
            boolean reports = review.circuit.netOf(part.name() + ".aux_a") >= 0
                    && review.circuit.netOf(part.name() + ".aux_b") >= 0;
            Place place = reports ? Place.of(review, part) : null;
            if (place != null && !place.auxiliary.isEmpty()) {
                swapped(review, part.name() + ".aux_a", List.of(place.auxiliary), hits);
                swapped(review, part.name() + ".aux_b", List.of(place.auxiliary), hits);
            }
        }
        return hits;
    }

    private static void swapped(Review review, String terminal, List<String> wanted, List<Hit> hits) {
        int net = review.circuit.netOf(terminal);
        if (net < 0 || ownersOf(review, net) > 1) {
            return;
        }
        for (String signal : SIGNALS) {
            if (review.supervisorNet(signal) == net && !wanted.contains(signal)) {
                String sentence = "Terminal " + terminal + " is wired to supervisor." + signal
                        + "; it belongs to supervisor." + wanted.get(0) + ".";
                hits.add(new Hit(terminal, Schedule.WIRES_FILE, review.lineOf(terminal), sentence, Map.of()));
            }
        }
    }

    /** How many of the paired terminals share a net: two of them on one terminal are another rule's business. */
    private static long ownersOf(Review review, int net) {
        return PAIRINGS.stream()
                .flatMap(p -> review.parts(p.kind).stream().map(part -> part.name() + "." + p.pin))
                .filter(terminal -> review.circuit.netOf(terminal) == net)
                .count();
    }

    /** A switch input that no contact can change, an output or a sensor's input that is tied to a supply. */
    static List<Hit> tied(Review review) {
        BitSet supply = review.circuit.reach(review.sides.lowVoltageSources, Sides.FIXED);
        List<Hit> hits = new ArrayList<>();
        for (Signal signal : Signal.values()) {
            boolean sensor = signal.unit == Unit.VOLT && signal.max <= SENSOR_INPUT_V;
            if (signal.isSwitch() || sensor) {
                tied(review, signal.key(), supply, sensor ? "it reads a fixed value" : "no switch can change it", hits);
            }
            if (sensor || signal.isSwitch()) {
                tiedToSensors(review, signal, hits);
            }
        }
        for (Output output : Output.values()) {
            tied(review, output.key(), supply, "the output works against it, or what it drives never changes", hits);
        }
        return hits;
    }

    /** The supervisor measures its sensor supply; every other sensor's input lies between that supply and its ground. */
    private static void tiedToSensors(Review review, Signal signal, List<Hit> hits) {
        int net = review.supervisorNet(signal.key());
        for (String pin : List.of("sensor_supply", "sensor_ground")) {
            boolean measured = signal == Signal.PEDAL_SUPPLY_V && pin.equals("sensor_supply");
            if (net >= 0 && net == review.supervisorNet(pin) && !measured) {
                String terminal = "supervisor." + signal.key();
                String sentence = "Terminal " + terminal + " is joined to supervisor." + pin
                        + " without any sensor or switch between: it reads a fixed value.";
                hits.add(new Hit(terminal, Schedule.WIRES_FILE, review.lineOf(terminal), sentence, Map.of()));
            }
        }
    }

    private static void tied(Review review, String key, BitSet supply, String effect, List<Hit> hits) {
        int net = review.supervisorNet(key);
        boolean grounded = net >= 0 && review.sides.ground.get(net);
        if (net >= 0 && (grounded || supply.get(net))) {
            String terminal = "supervisor." + key;
            String sentence = "Terminal " + terminal + " is joined to the " + (grounded ? "ground" : "12 V supply")
                    + " without any contact between: " + effect + ".";
            hits.add(new Hit(terminal, Schedule.WIRES_FILE, review.lineOf(terminal), sentence, Map.of()));
        }
    }

    /** With one cut-off open and everything else closed, the loop must read open. */
    static List<Hit> cutOffOutsideLoop(Review review) {
        int loop = review.supervisorNet(Signal.CUT_LOOP_CLOSED.key());
        if (loop < 0) {
            return List.of();
        }
        BitSet sources = (BitSet) review.sides.lowVoltageSources.clone();
        sources.or(review.sides.ground);
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.parts(PartKind.CUT_OFF)) {
            boolean closed = review.circuit.reach(sources, Sides.FULL_POWER).get(loop);
            if (closed && review.circuit.reach(sources, without(part)).get(loop)) {
                String sentence =
                        "With " + part.name() + " open, supervisor.cut_loop_closed still reads closed: the loop does"
                                + " not run through it.";
                hits.add(review.atPart(part, sentence, Map.of()));
            }
        }
        return hits;
    }

    /** A loop is led through a connector so that it opens before the connector's other contacts do. */
    static List<Hit> loopPastConnector(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Signal signal : LOOPS) {
            int loop = review.supervisorNet(signal.key());
            for (Part part : loop < 0 ? List.<Part>of() : review.parts(PartKind.CONNECTOR)) {
                List<Integer> contacts = review.circuit.terminalsOf(part).stream()
                        .filter(t -> review.circuit.netOf(t) == loop)
                        .toList();
                List<String> halfWired = contacts.stream()
                        .filter(t -> review.circuit.wiresAt(t).size() == 1)
                        .map(review.circuit::terminal)
                        .toList();
                String sentence = "";
                if (!halfWired.isEmpty()) {
                    sentence = "Only one wire ends on " + String.join(", ", halfWired) + ": the loop to supervisor."
                            + signal.key() + " goes past this contact of connector " + part.name() + ".";
                } else if (contacts.size() > 1 && staysClosed(review, loop, part)) {
                    sentence = "With connector " + part.name() + " pulled, supervisor." + signal.key()
                            + " still reads closed: the loop does not run through it.";
                }
                if (!sentence.isEmpty()) {
                    hits.add(review.atPart(part, sentence, Map.of()));
                }
            }
        }
        return hits;
    }

    /** Whether the supervisor still hangs together with a contact of the loop when no wire at a connector conducts. */
    private static boolean staysClosed(Review review, int loop, Part pulled) {
        Set<String> reached = new HashSet<>();
        review.parts(PartKind.SUPERVISOR)
                .forEach(part -> review.circuit.terminalsOf(part).stream()
                        .filter(t -> review.circuit.netOf(t) == loop)
                        .forEach(t -> reached.add(review.circuit.terminal(t))));
        Set<Wire> wires = review.schedule.wires().stream()
                .filter(w -> w.hasBothEnds() && review.netOf(w) == loop)
                .filter(w -> !pulled.name().equals(Wire.partOf(w.from()))
                        && !pulled.name().equals(Wire.partOf(w.to())))
                .collect(Collectors.toCollection(LinkedHashSet::new));
        boolean more = true;
        while (more) {
            more = wires.removeIf(w -> joins(review, reached, w));
        }
        return review.circuit.links().stream()
                .anyMatch(l -> reached.contains(place(review, review.circuit.terminal(l.inTerminal())))
                        || reached.contains(place(review, review.circuit.terminal(l.outTerminal()))));
    }

    private static boolean joins(Review review, Set<String> reached, Wire wire) {
        String from = place(review, wire.from());
        String to = place(review, wire.to());
        if (!reached.contains(from) && !reached.contains(to)) {
            return false;
        }
        reached.add(from);
        reached.add(to);
        return true;
    }

    /** All terminals of a splice are one place. */
    private static String place(Review review, String terminal) {
        Part part = review.schedule.parts().get(Wire.partOf(terminal));
        return part.kind() == PartKind.SPLICE ? part.name() : terminal;
    }
}
