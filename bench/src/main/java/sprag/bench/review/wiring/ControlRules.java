package sprag.bench.review.wiring;

import static sprag.bench.cli.Numbers.text;
import static sprag.bench.review.finding.Finding.numbersOf;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.Feed;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.bench.review.wiring.circuit.Sides;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.Part.Duty;
import sprag.bench.review.wiring.schedule.Part.Suppression;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.supervisor.vocabulary.Signal;

/** Rules about contacts, the coils that move them, and what switches the coils. */
final class ControlRules {
    private static final Set<String> AFTER_PRECHARGE = Set.of("inverter_enable", "positive_contactor");

    private ControlRules() {}

    static List<Hit> parallel(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int i = 0; i < review.circuit.links().size(); i++) {
            Link link = review.circuit.links().get(i);
            boolean alone = Sides.isContact(link) && link.part().effectiveDuty() == Duty.HOLDS_OFF;
            if (!alone || !isByPassed(review, i, link)) {
                continue;
            }
            BitSet from = Review.only(review.circuit.netIn(link));
            List<Part> way =
                    review.circuit.way(from, review.circuit.netOut(link), Sides.FULL_POWER.and(l -> l != link));
            String around = way.isEmpty() ? "a wire from one side to the other" : Review.names(way);
            hits.add(review.atPart(
                    link.part(),
                    "The contact of " + link.part().name() + " must hold off on its own, but " + around
                            + " lies in parallel and closes the circuit around it.",
                    Map.of()));
        }
        return hits;
    }

    private static boolean isByPassed(Review review, int number, Link link) {
        int in = review.circuit.netIn(link);
        if (in == review.circuit.netOut(link)) {
            return true;
        }
        for (Feed feed : List.of(review.plusFeed, review.minusFeed, review.lowVoltageFeed)) {
            if (feed.reaches(in)) {
                return !feed.isBridge(number) && sameRing(review, link);
            }
        }
        return sameRing(review, link);
    }

    /** Two sources may feed both ends of a contact without by-passing it: only a way around counts. */
    private static boolean sameRing(Review review, Link link) {
        BitSet around =
                review.circuit.reach(Review.only(review.circuit.netIn(link)), Sides.FULL_POWER.and(l -> l != link));
        return around.get(review.circuit.netOut(link));
    }

    /** Between two such contacts in series lies a region that nothing feeds directly and that feeds nothing directly. */
    static List<Hit> series(Review review) {
        Predicate<Link> alone = l -> Sides.isContact(l) && l.part().effectiveDuty() == Duty.CLOSES;
        int[] region = review.circuit.regions(Sides.POWER.and(alone.negate()));
        BitSet fed = new BitSet();
        BitSet used = new BitSet();
        markRegions(review, region, fed, used);
        Map<Integer, List<Link>> at = new HashMap<>();
        for (Link link : review.circuit.links()) {
            if (alone.test(link)) {
                at.computeIfAbsent(region[review.circuit.netIn(link)], r -> new ArrayList<>())
                        .add(link);
                at.computeIfAbsent(region[review.circuit.netOut(link)], r -> new ArrayList<>())
                        .add(link);
            }
        }
        List<Hit> hits = new ArrayList<>();
        at.forEach((between, links) -> {
            Link first = links.stream()
                    .filter(l -> touches(review, region, l, fed))
                    .findFirst()
                    .orElse(null);
            Link second = links.stream().filter(l -> l != first).findFirst().orElse(null);
            if (!fed.get(between) && !used.get(between) && first != null && second != null) {
                hits.add(review.atPart(
                        first.part(),
                        "The contacts of " + first.part().name() + " and "
                                + second.part().name()
                                + " lie in series, though each alone must close the circuit: nothing works until both close.",
                        Map.of()));
            }
        });
        return hits;
    }

    private static boolean touches(Review review, int[] region, Link link, BitSet regions) {
        return regions.get(region[review.circuit.netIn(link)]) || regions.get(region[review.circuit.netOut(link)]);
    }

    private static void markRegions(Review review, int[] region, BitSet fed, BitSet used) {
        BitSet sources = (BitSet) review.sides.lowVoltageSources.clone();
        sources.or(review.sides.plusPoles);
        sources.stream().forEach(net -> fed.set(region[net]));
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            Part part = review.circuit.part(t);
            boolean user = part.kind().isLoad()
                    || part.kind() == PartKind.SUPERVISOR
                    || part.kind().hasCoil() && review.circuit.pin(t).startsWith("coil");
            if (user) {
                used.set(region[review.circuit.netOf(t)]);
            }
        }
    }

    /** The suppressor wired across a coil; null when there is none. */
    private static Part suppressorOf(Review review, Part coil, Map<Long, Part> suppressors) {
        int plus = review.circuit.netOf(coil.name() + ".coil_plus");
        int minus = review.circuit.netOf(coil.name() + ".coil_minus");
        return plus < 0 || minus < 0 ? null : suppressors.get(pair(plus, minus));
    }

    private static long pair(int a, int b) {
        return ((long) Math.min(a, b) << 32) | Math.max(a, b);
    }

    private static Map<Long, Part> suppressors(Review review) {
        Map<Long, Part> byNets = new HashMap<>();
        for (Part part : review.parts(PartKind.SUPPRESSOR)) {
            List<Integer> pins = review.circuit.terminalsOf(part);
            if (pins.size() >= 2) {
                byNets.put(pair(review.circuit.netOf(pins.get(0)), review.circuit.netOf(pins.get(1))), part);
            }
        }
        return byNets;
    }

    static List<Hit> unsuppressed(Review review) {
        Map<Long, Part> suppressors = suppressors(review);
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            boolean wired = review.circuit.netOf(part.name() + ".coil_plus") >= 0;
            boolean nothing = part.suppression() == Suppression.NONE || part.suppression() == Suppression.UNKNOWN;
            if (part.kind().hasCoil() && wired && nothing && suppressorOf(review, part, suppressors) == null) {
                hits.add(review.atPart(
                        part,
                        (part.suppression() == Suppression.NONE
                                        ? "The coil of " + part.name() + " has no suppression"
                                        : "No suppressor is wired across the coil of " + part.name()
                                                + ", and the list of parts names none")
                                + ": switching it off gives a spike of several"
                                + " hundred volts at whatever drives it.",
                        Map.of()));
            }
        }
        return hits;
    }

    static List<Hit> slowRelease(Review review) {
        Map<Long, Part> suppressors = suppressors(review);
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.schedule.parts().values()) {
            Part across = part.kind().hasCoil() ? suppressorOf(review, part, suppressors) : null;
            Suppression kind = across == null ? part.suppression() : across.effectiveSuppression();
            double budgetMs = review.limits.releaseBudgetMs();
            double releaseMs = part.releaseMs() * kind.slower;
            if (part.kind() == PartKind.CONTACTOR && releaseMs > budgetMs) {
                hits.add(review.atPart(
                        part,
                        "Contactor " + part.name() + " releases in " + text(part.releaseMs(), "ms")
                                + " on its own; with " + (across == null ? "its " + kind.word() : across.name())
                                + " across the coil expect about " + text(releaseMs, "ms") + ", more than the "
                                + text(budgetMs, "ms") + " of contactor.release_ms.",
                        numbersOf("release_ms", releaseMs, "budget_ms", budgetMs)));
            }
        }
        return hits;
    }

    static List<Hit> breaksTooMuch(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int i = 0; i < review.circuit.links().size(); i++) {
            Link link = review.circuit.links().get(i);
            if (!Sides.isContact(link)) {
                continue;
            }
            int net = review.circuit.netIn(link);
            Part part = link.part();
            boolean traction = review.isTraction(net) || review.isTraction(review.circuit.netOut(link));
            if (traction && part.ratedV() < review.limits.packMaxV()) {
                hits.add(review.atPart(
                        part,
                        "The contact of " + part.name() + " is rated for " + text(part.ratedV(), "V")
                                + " d.c. but switches " + text(review.limits.packMaxV(), "V") + ".",
                        numbersOf("rated_v", part.ratedV(), "net_v", review.limits.packMaxV())));
            }
            double drawnA = drawnA(review, i, net);
            double breaksA = Double.isNaN(part.breaksA()) ? part.ratedA() : part.breaksA();
            if (part.kind() != PartKind.CONTACTOR && drawnA > breaksA) {
                hits.add(review.atPart(
                        part,
                        "The contact of " + part.name() + " must interrupt " + text(drawnA, "A")
                                + " d.c., but is rated for " + text(breaksA, "A") + ".",
                        numbersOf("drawn_a", drawnA, "breaks_a", breaksA)));
            }
        }
        return hits;
    }

    private static double drawnA(Review review, int link, int net) {
        double drawnA = 0;
        for (Feed feed : List.of(review.plusFeed, review.minusFeed, review.lowVoltageFeed)) {
            if (feed.reaches(net) && feed.isBridge(link)) {
                drawnA = Math.max(drawnA, feed.behindA(link));
            }
        }
        return drawnA;
    }

    /** What the supply reaches through the contact of a timer relay only. */
    private static BitSet behindTimers(Review review) {
        BitSet timed = review.circuit.reach(review.sides.lowVoltageSources, Sides.FULL_POWER);
        timed.andNot(review.circuit.reach(
                review.sides.lowVoltageSources,
                Sides.FULL_POWER.and(l -> !(Sides.isContact(l) && l.part().kind() == PartKind.TIMER))));
        return timed;
    }

    static List<Hit> inverterSupply(Review review) {
        if (review.limits.inverterSupply() != RuleLimits.InverterSupply.AFTER_PRECHARGE) {
            return List.of();
        }
        BitSet lateDrivers = review.circuit.nets(t -> review.circuit.part(t).kind() == PartKind.SUPERVISOR
                && AFTER_PRECHARGE.contains(review.circuit.pin(t)));
        BitSet timed = behindTimers(review);
        Set<String> late = new HashSet<>();
        for (Part part : review.schedule.parts().values()) {
            int plus = review.circuit.netOf(part.name() + ".coil_plus");
            int minus = review.circuit.netOf(part.name() + ".coil_minus");
            boolean waits = plus >= 0 && (lateDrivers.get(plus) || timed.get(plus));
            if (waits || minus >= 0 && lateDrivers.get(minus)) {
                late.add(part.name());
            }
        }
        BitSet early = review.circuit.reach(
                review.sides.lowVoltageSources,
                Sides.FULL_POWER.and(
                        l -> !(Sides.isContact(l) && late.contains(l.part().name()))));
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.parts(PartKind.INVERTER)) {
            int supply = review.circuit.netOf(part.name() + ".supply");
            if (supply >= 0 && early.get(supply)) {
                List<Part> way = review.circuit.way(review.sides.lowVoltageSources, supply, Sides.FULL_POWER);
                hits.add(review.atPart(
                        part,
                        "The logic supply of " + part.name() + " is alive before precharge is done: it comes "
                                + (way.isEmpty() ? "straight from the supply" : "through " + Review.names(way))
                                + ", and no contact on that way waits for inverter_enable or positive_contactor.",
                        Map.of()));
            }
        }
        return hits;
    }

    static List<Hit> cutOff(Review review) {
        if (review.parts(PartKind.CUT_OFF).isEmpty()) {
            boolean contactors = !review.parts(PartKind.CONTACTOR).isEmpty();
            return contactors
                    ? List.of(new Hit(
                            "cut-off",
                            Schedule.WIRES_FILE,
                            0,
                            "The schedule has contactors but no part of the kind cut-off that a person can open by hand.",
                            Map.of()))
                    : List.of();
        }
        Predicate<Link> opened = Sides.FULL_POWER.and(l -> l.part().kind() != PartKind.CUT_OFF);
        BitSet live = throughSupervisor(review, review.sides.lowVoltageSources, "output_supply", opened);
        BitSet ground = throughSupervisor(review, review.sides.ground, "ground", opened);
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.parts(PartKind.CONTACTOR)) {
            int plus = review.circuit.netOf(part.name() + ".coil_plus");
            int minus = review.circuit.netOf(part.name() + ".coil_minus");
            if (plus >= 0 && minus >= 0 && live.get(plus) && ground.get(minus)) {
                String source = sourceOf(review, plus, opened);
                hits.add(review.atPart(
                        part,
                        "With every cut-off open, the coil of " + part.name() + " can still be fed from " + source
                                + ": the cut-off does not cut.",
                        Map.of()));
            }
        }
        return hits;
    }

    /** The rule on {@link #unguarded}; a car without a supervisor has no heartbeat. */
    static List<Hit> unguardedBySupervisor(Review review) {
        return review.limits.driven().isEmpty() ? List.of() : unguarded(review);
    }

    /**
     * A supervisor that stands still keeps its outputs: only a relay held by the heartbeat takes the coils' supply away. Follows
     * wires only and reads no limits.
     */
    static List<Hit> unguarded(Review review) {
        int beat = review.supervisorNet("heartbeat");
        Predicate<Link> guarded =
                Sides.FULL_POWER.and(l -> !Sides.isContact(l) || beat < 0 || !hasCoilOn(review, l, beat));
        BitSet live = throughSupervisor(review, review.sides.lowVoltageSources, "output_supply", guarded);
        BitSet ground = throughSupervisor(review, review.sides.ground, "ground", guarded);
        List<String> names = review.parts(PartKind.CONTACTOR).stream()
                .map(Part::name)
                .filter(name -> {
                    int plus = review.circuit.netOf(name + ".coil_plus");
                    int minus = review.circuit.netOf(name + ".coil_minus");
                    return plus >= 0 && minus >= 0 && live.get(plus) && ground.get(minus);
                })
                .toList();
        String sentence = "No relay that the heartbeat holds lies in the supply of the coils of "
                + String.join(", ", names) + ": a supervisor that stops with an output on keeps them closed.";
        return names.isEmpty()
                ? List.of()
                : List.of(new Hit(
                        "heartbeat",
                        Schedule.WIRES_FILE,
                        review.lineOf(names.get(0) + ".coil_plus"),
                        sentence,
                        Map.of()));
    }

    private static boolean hasCoilOn(Review review, Link link, int net) {
        String name = link.part().name();
        return review.circuit.netOf(name + ".coil_plus") == net || review.circuit.netOf(name + ".coil_minus") == net;
    }

    /** What some nets reach, also through the drivers of the supervisor: from a supply terminal to every output. */
    private static BitSet throughSupervisor(Review review, BitSet from, String pin, Predicate<Link> passes) {
        BitSet reached = review.circuit.reach(from, passes);
        for (Part supervisor : review.parts(PartKind.SUPERVISOR)) {
            int supply = review.circuit.netOf(supervisor.name() + "." + pin);
            if (supply >= 0 && reached.get(supply)) {
                for (int t : review.circuit.terminalsOf(supervisor)) {
                    if (DrawingRules.OUTPUTS.contains(review.circuit.pin(t))) {
                        reached.set(review.circuit.netOf(t));
                    }
                }
            }
        }
        return review.circuit.reach(reached, passes);
    }

    private static String sourceOf(Review review, int net, Predicate<Link> passes) {
        for (PartKind kind : List.of(PartKind.DCDC, PartKind.LV_BATTERY)) {
            for (Part part : review.parts(kind)) {
                String pin = kind == PartKind.DCDC ? ".out_plus" : ".plus";
                int source = review.circuit.netOf(part.name() + pin);
                if (source >= 0
                        && review.circuit.reach(Review.only(source), passes).get(net)) {
                    return part.name();
                }
            }
        }
        return "the supply through the supervisor";
    }

    static List<Hit> pilot(Review review) {
        if (!review.limits.fitted().contains(Signal.PILOT_PEAK_V)) {
            return List.of(); // a plain mains lead has neither pilot nor proximity
        }
        int[] readers = new int[review.circuit.netCount()];
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            PartKind kind = review.circuit.part(t).kind();
            readers[review.circuit.netOf(t)] += kind.isJoint() || kind == PartKind.INLET ? 0 : 1;
        }
        List<Hit> hits = new ArrayList<>();
        for (Part part : review.parts(PartKind.INLET)) {
            for (String pin : List.of("pilot", "proximity")) {
                int net = review.circuit.netOf(part.name() + "." + pin);
                if (net < 0 || readers[net] == 0) {
                    hits.add(review.atPart(
                            part,
                            "Terminal " + part.name() + "." + pin + " is wired to nothing that could read it: "
                                    + (pin.equals("pilot")
                                            ? "the car does not know what the station allows."
                                            : "the car does not know what the cable carries, nor that it is there."),
                            Map.of()));
                }
            }
        }
        return hits;
    }
}
