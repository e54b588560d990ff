package sprag.bench.review.wiring;

import static sprag.bench.review.finding.Finding.numbersOf;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import sprag.bench.cli.Nearest;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Rules about the drawing itself: ends, names, numbers, signals. */
final class DrawingRules {
    static final Set<String> SIGNALS =
            Arrays.stream(Signal.values()).map(Signal::key).collect(Collectors.toCollection(TreeSet::new));
    static final Set<String> OUTPUTS =
            Arrays.stream(Output.values()).map(Output::key).collect(Collectors.toCollection(TreeSet::new));
    /** Terminals of the supervisor that are neither signal nor output. */
    static final Set<String> SUPPLIES = Set.of(
            "supply",
            "output_supply",
            "ground",
            "sensor_supply",
            "sensor_ground",
            "data_high",
            "data_low",
            "data_2_high",
            "data_2_low",
            "screen");

    private static final Pattern NUMBER = Pattern.compile("\\d+");

    private DrawingRules() {}

    static List<Hit> oneEnd(Review review) {
        List<Hit> hits = new ArrayList<>();
        int[] ends = new int[review.circuit.netCount()];
        Wire[] first = new Wire[review.circuit.netCount()];
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            int net = review.circuit.netOf(t);
            boolean joint = review.circuit.part(t).kind().isJoint();
            ends[net] += joint ? 0 : 1;
            first[net] = first[net] == null ? review.circuit.wiresAt(t).get(0) : first[net];
        }
        for (int net = 0; net < ends.length; net++) {
            if (ends[net] < 2 && first[net].hasBothEnds()) {
                hits.add(Hit.at(
                        first[net],
                        "Net " + first[net].net() + " has " + (ends[net] == 0 ? "no end" : "one end only")
                                + " at a part: wire " + first[net].id() + " leads nowhere."));
            }
        }
        for (Wire wire : review.schedule.wires()) {
            if (!wire.hasBothEnds()) {
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " has one end only, at "
                                + (wire.from().isEmpty() ? wire.to() : wire.from()) + "."));
            }
        }
        return hits;
    }

    static List<Hit> inTwoNets(Review review) {
        List<Hit> hits = new ArrayList<>();
        BitSet told = (BitSet) review.sides.chassis.clone();
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            Set<String> names = new LinkedHashSet<>();
            review.circuit.wiresAt(t).forEach(w -> names.add(w.net()));
            if (areDifferent(names) && review.circuit.part(t).kind() != PartKind.CHASSIS) {
                told.set(review.circuit.netOf(t));
                hits.add(review.atTerminal(
                        t,
                        "Terminal " + review.circuit.terminal(t) + " is used for " + names.size() + " nets, "
                                + String.join(" and ", names) + ": it joins them (wires "
                                + review.circuit.wiresAt(t).stream()
                                        .map(Wire::id)
                                        .collect(Collectors.joining(", "))
                                + ").",
                        numbersOf("nets", names.size())));
            }
        }
        joinedBySplices(review, told, hits);
        return hits;
    }

    /** Names that look like one name with a slip are another rule's business. */
    private static boolean areDifferent(Set<String> names) {
        String first = names.iterator().next();
        return names.stream().anyMatch(name -> !name.equals(first) && !LooksLikeTypo.looksLikeASlip(first, name));
    }

    private static void joinedBySplices(Review review, BitSet told, List<Hit> hits) {
        Map<Integer, Map<String, Wire>> byNet = new TreeMap<>();
        for (Wire wire : review.schedule.wires()) {
            byNet.computeIfAbsent(review.netOf(wire), n -> new LinkedHashMap<>())
                    .putIfAbsent(wire.net(), wire);
        }
        byNet.forEach((net, byName) -> {
            if (areDifferent(byName.keySet()) && !told.get(net)) {
                hits.add(Hit.at(
                        List.copyOf(byName.values()).get(1),
                        "Nets " + String.join(" and ", byName.keySet()) + " are joined by a splice.",
                        numbersOf("nets", byName.size())));
            }
        });
    }

    static List<Hit> crowded(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            PartKind kind = review.circuit.part(t).kind();
            int wires = review.circuit.wiresAt(t).size();
            int most = kind.hasStuds() || kind == PartKind.CONNECTOR ? 3 : 2;
            if (kind != PartKind.CHASSIS && kind != PartKind.SPLICE && wires > most) {
                hits.add(review.atTerminal(
                        t,
                        "Terminal " + review.circuit.terminal(t) + " holds " + wires + " wires; " + most
                                + " is the most that such a terminal takes. Use a splice.",
                        numbersOf("wires", wires, "most", most)));
            }
        }
        return hits;
    }

    static List<Hit> namesAlike(Review review) {
        Map<String, Wire> firstOf = new LinkedHashMap<>();
        review.schedule.wires().forEach(w -> firstOf.putIfAbsent(w.net(), w));
        // Names that differ by digits only differ on purpose: one of each kind is enough to compare.
        Map<String, String> oneOfKind = new LinkedHashMap<>();
        firstOf.keySet()
                .forEach(name -> oneOfKind.putIfAbsent(NUMBER.matcher(name).replaceAll("#"), name));
        Map<String, List<String>> shadows = new HashMap<>();
        List<Hit> hits = new ArrayList<>();
        for (String name : oneOfKind.values()) {
            Set<String> near = new TreeSet<>();
            for (String shadow : shadows(name.toLowerCase(Locale.ROOT))) {
                near.addAll(shadows.getOrDefault(shadow, List.of()));
                shadows.computeIfAbsent(shadow, s -> new ArrayList<>(1)).add(name);
            }
            for (String other : near) {
                if (LooksLikeTypo.looksLikeASlip(other, name)) {
                    Wire wire = firstOf.get(name);
                    hits.add(Hit.at(
                            wire,
                            "Net " + name + " (wire " + wire.id() + ") and net " + other + " (wire "
                                    + firstOf.get(other).id()
                                    + ") differ by a letter: one of them is probably a slip."));
                }
            }
        }
        return hits;
    }

    /** A word and what is left of it without each of its letters: words that differ by one letter share one of these. */
    private static Set<String> shadows(String word) {
        Set<String> shadows = new LinkedHashSet<>();
        shadows.add(word);
        for (int i = 0; i < word.length(); i++) {
            shadows.add(word.substring(0, i) + word.substring(i + 1));
        }
        return shadows;
    }

    static List<Hit> inPieces(Review review) {
        Map<String, Map<Integer, Wire>> pieces = new LinkedHashMap<>();
        for (Wire wire : review.schedule.wires()) {
            pieces.computeIfAbsent(wire.net(), n -> new TreeMap<>()).putIfAbsent(review.netOf(wire), wire);
        }
        List<Hit> hits = new ArrayList<>();
        pieces.forEach((name, byNet) -> {
            if (byNet.size() > 1) {
                List<Wire> wires = List.copyOf(byNet.values());
                hits.add(Hit.at(
                        wires.get(1),
                        "Net " + name + " is in " + byNet.size() + " pieces that no wire joins: wires "
                                + wires.stream().limit(4).map(Wire::id).collect(Collectors.joining(", "))
                                + " belong to different ones.",
                        numbersOf("pieces", byNet.size())));
            }
        });
        return hits;
    }

    static List<Hit> repeated(Review review) {
        List<Hit> hits = new ArrayList<>();
        Map<String, Wire> byId = new HashMap<>();
        Map<Set<String>, Wire> byEnds = new HashMap<>();
        for (Wire wire : review.schedule.wires()) {
            Wire same = byId.putIfAbsent(wire.id(), wire);
            Wire sameEnds =
                    wire.hasBothEnds() ? byEnds.putIfAbsent(Set.copyOf(List.of(wire.from(), wire.to())), wire) : null;
            if (same != null) {
                boolean row = sameEnds == same;
                hits.add(Hit.at(
                        wire,
                        "Wire " + wire.id() + " stands on line " + same.line() + " and again on line " + wire.line()
                                + (row
                                        ? " with the same ends: the row is doubled."
                                        : " with other ends: one number, two wires.")));
            } else if (sameEnds != null) {
                hits.add(Hit.at(
                        wire,
                        "Wires " + sameEnds.id() + " and " + wire.id() + " join the same two terminals, " + wire.from()
                                + " and " + wire.to() + "."));
            } else if (wire.hasBothEnds() && wire.from().equals(wire.to())) {
                hits.add(Hit.at(wire, "Wire " + wire.id() + " begins and ends at " + wire.from() + "."));
            }
        }
        return hits;
    }

    static List<Hit> unlisted(Review review) {
        List<Hit> hits = new ArrayList<>();
        boolean anyListed = review.schedule.parts().values().stream().anyMatch(Part::isListed);
        if (!anyListed) {
            return List.of(new Hit(
                    Schedule.PARTS_FILE,
                    Schedule.WIRES_FILE,
                    0,
                    "There is no " + Schedule.PARTS_FILE + ", so parts are told by their names and nothing is known of"
                            + " their ratings: rules that need a rating were not judged.",
                    Map.of()));
        }
        List<String> listed = review.schedule.parts().values().stream()
                .filter(Part::isListed)
                .map(Part::name)
                .toList();
        for (Part part : review.schedule.parts().values()) {
            if (!part.isListed()) {
                String near = Nearest.to(part.name(), listed)
                        .map(name -> " A slip for " + name + "?")
                        .orElse("");
                hits.add(review.atPart(
                        part,
                        "Part " + part.name() + " is wired but not in " + Schedule.PARTS_FILE
                                + (part.kind() == PartKind.OTHER
                                        ? ", and its name does not tell what it is."
                                        : "; by its name it is taken for a "
                                                + part.kind().word() + ".")
                                + near,
                        Map.of()));
            }
        }
        return hits;
    }

    static List<Hit> unwired(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            if (part.isListed() && review.circuit.terminalsOf(part).isEmpty()) {
                hits.add(review.atPart(part, "Part " + part.name() + " is listed but no wire leads to it.", Map.of()));
            }
        }
        return hits;
    }

    static List<Hit> wireWithoutSignal(Review review) {
        List<Hit> hits = new ArrayList<>();
        Set<String> known = new TreeSet<>(SIGNALS);
        known.addAll(OUTPUTS);
        known.addAll(SUPPLIES);
        for (Part supervisor : review.parts(PartKind.SUPERVISOR)) {
            for (int t : review.circuit.terminalsOf(supervisor)) {
                unknownSignal(review, t, known, hits);
            }
        }
        for (Wire wire : review.schedule.wires()) {
            for (String name : wire.carries()) {
                if (!SIGNALS.contains(name) && !OUTPUTS.contains(name)) {
                    hits.add(Hit.at(
                            wire,
                            "Wire " + wire.id() + " is said to carry " + name + ", which is no signal. "
                                    + Nearest.hint(name, known)));
                }
            }
        }
        return hits;
    }

    private static void unknownSignal(Review review, int terminal, Set<String> known, List<Hit> hits) {
        String pin = review.circuit.pin(terminal);
        if (!known.contains(pin)) {
            hits.add(review.atTerminal(
                    terminal,
                    "Terminal " + review.circuit.terminal(terminal) + " is no signal of the supervisor. "
                            + Nearest.hint(pin, known),
                    Map.of()));
        } else if (SIGNALS.contains(pin)
                && !review.limits.fitted().contains(Signal.valueOf(pin.toUpperCase(Locale.ROOT)))) {
            hits.add(review.atTerminal(
                    terminal,
                    "A wire brings " + pin + " to the supervisor, but the vehicle's file does not list it under"
                            + " signals.fitted: it would be ignored.",
                    Map.of()));
        }
    }

    static List<Hit> notTwisted(Review review) {
        Map<String, Wire> byId = new HashMap<>();
        review.schedule.wires().forEach(w -> byId.putIfAbsent(w.id(), w));
        List<Hit> hits = new ArrayList<>();
        Set<Wire> done = Collections.newSetFromMap(new IdentityHashMap<>());
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            String pin = review.circuit.pin(t);
            String partner = TwistedPair.partnerOf(pin);
            if (partner == null || review.circuit.part(t).kind().isJoint()) {
                continue;
            }
            String part = review.circuit.part(t).name();
            if (review.circuit.netOf(part + "." + partner) < 0) {
                hits.add(review.atTerminal(
                        t,
                        "Terminal " + review.circuit.terminal(t)
                                + " is wired on its own, but it is one half of a pair: " + part + "." + partner
                                + " has no wire.",
                        Map.of()));
                continue;
            }
            for (Wire wire : review.circuit.wiresAt(t)) {
                if (done.add(wire)) {
                    untwisted(review, wire, byId, part + "." + partner, hits);
                }
            }
        }
        return hits;
    }

    private static void untwisted(Review review, Wire wire, Map<String, Wire> byId, String partner, List<Hit> hits) {
        Wire with = byId.get(wire.twistedWith());
        boolean rightOne = with != null && review.netOf(with) == review.circuit.netOf(partner);
        if (!rightOne) {
            String said = wire.twistedWith().isEmpty()
                    ? "the schedule twists it with nothing"
                    : "the schedule twists it with " + wire.twistedWith() + ", which does not lead to " + partner;
            hits.add(Hit.at(
                    wire,
                    "Wire " + wire.id() + " (net " + wire.net() + ") needs to be twisted with the wire at " + partner
                            + "; " + said + "."));
        }
    }
}
