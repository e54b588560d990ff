package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Wire;

/** Says how a promise is broken: what was set, what happens then, and which way the current takes. */
final class Explanation {
    private final SwitchCircuit circuit;
    private final View view;
    private final Tracer tracer;

    Explanation(SwitchCircuit circuit, Fault fault, BitSet blown) {
        this.circuit = circuit;
        view = new View(circuit);
        tracer = new Tracer(circuit, fault, blown);
    }

    BrokenPromise of(LivePromise promise, Proof.Break broken) {
        Flow flow = tracer.settle(broken);
        view.at(flow);
        List<String> ways = new ArrayList<>();
        String happens = switch (promise) {
            case CUT_OFF_RELEASES, BEAT_STOPS, KEY_OFF ->
                said(pulled(flow, this::isTractionCoil, ways), " is held", " are held");
            case CUT_OFF_SILENCES -> view.drive().woken(flow, tracer, ways);
            case HEATED -> fed(flow, circuit.consumers(Consumer.Kind.TRACTION, PartKind.HEATER), ways);
            case CUT_OFF_ISOLATES, SERVICE_SWITCH -> fed(flow, circuit.consumers(Consumer.Kind.TRACTION), ways);
            case COMMANDED ->
                said(
                        pulled(flow, c -> isUnasked(flow, c), ways),
                        " pulls without its output",
                        " pull without their outputs");
            case PRECHARGED ->
                said(
                        charged(ways),
                        " is joined to pack plus without the resistor",
                        " are joined to pack plus without the resistor");
            case UNPLUGGED -> view.drive().words(flow, tracer, ways);
            case STARTED, THROUGH_CONTACTOR -> view.drive().reached(flow, tracer, ways);
            case APART, NO_SHORT -> meetings(flow, promise == LivePromise.APART);
            case FUSED -> said(bypassed(flow, ways), " has a way round it", " have a way round them");
            case RATING -> String.join("; ", view.passed(1));
            case SETTLES -> said(names(c -> flow.isRestless(c, 0), flow), " never settles", " never settle");
            case OBEYED -> said(names(c -> isIdle(flow, c), flow), " does not pull", " do not pull");
            case SUPPLIED -> "the supervisor has no supply";
            case BRAKE_LAMPS -> "the brake lamps stay dark";
        };
        if (promise == LivePromise.NO_SHORT) {
            ways.add(String.join(" ", tracer.shortWay(broken)));
        }
        List<String> set = broken.combination().stream()
                .mapToObj(c -> circuit.controls.get(c).setWords())
                .toList();
        String how = broken.greatest() && promise.guards()
                ? " (it held itself, or current reaches it through another load)"
                : "";
        return new BrokenPromise(promise, set, happens + how, List.copyOf(ways));
    }

    private boolean isTractionCoil(int consumer) {
        return IntStream.of(circuit.tractionCoils()).anyMatch(c -> c == consumer);
    }

    private boolean isUnasked(Flow flow, int consumer) {
        Integer output = circuit.drivenBy.get(consumer);
        return output == null ? isTractionCoil(consumer) : (flow.controls()[output] & 1) == 0;
    }

    private List<String> charged(List<String> ways) {
        List<String> names = new ArrayList<>();
        for (int c : circuit.consumers(Consumer.Kind.TRACTION, PartKind.INVERTER)) {
            List<String> way =
                    tracer.wayTo(Potential.PACK_PLUS, circuit.consumers.get(c).a());
            if (!way.isEmpty()) {
                names.add(circuit.consumers.get(c).part());
                ways.add(String.join(" ", way));
            }
        }
        return names;
    }

    private boolean isIdle(Flow flow, int consumer) {
        Integer output = circuit.drivenBy.get(consumer);
        return output != null && (flow.controls()[output] & ~flow.fed[consumer] & 1) != 0;
    }

    private List<String> names(IntPredicate which, Flow flow) {
        return IntStream.range(0, flow.fed.length)
                .filter(c -> circuit.consumers.get(c).kind() == Consumer.Kind.COIL)
                .filter(which)
                .mapToObj(c -> circuit.consumers.get(c).part())
                .toList();
    }

    /** One name, or several with commas between, and what is said of one or of several. */
    private static String said(List<String> names, String one, String several) {
        return String.join(", ", names) + (names.size() > 1 ? several : one);
    }

    private List<String> bypassed(Flow flow, List<String> ways) {
        List<String> fuses = new ArrayList<>();
        for (int link : view.rings().bypassedFirst(flow)) {
            fuses.add(circuit.links.get(link).part());
            ways.add(String.join(" ", tracer.wayRound(link)));
        }
        return fuses;
    }

    private List<String> pulled(Flow flow, IntPredicate which, List<String> ways) {
        IntPredicate held = c -> (flow.fed[c] & 1) != 0 && which.test(c);
        IntStream.range(0, flow.fed.length)
                .filter(c -> circuit.consumers.get(c).kind() == Consumer.Kind.COIL)
                .filter(held)
                .forEach(c -> addWays(c, ways));
        return names(held, flow);
    }

    /** Says which of some consumers have pack voltage, and which way it comes. */
    private String fed(Flow flow, int[] consumers, List<String> ways) {
        List<String> names = new ArrayList<>();
        for (int c : consumers) {
            if ((flow.fed[c] & 1) != 0) {
                names.add(circuit.consumers.get(c).part());
                addWays(c, ways);
            }
        }
        return said(names, " has both poles of the pack", " have both poles of the pack");
    }

    private void addWays(int number, List<String> ways) {
        Consumer consumer = circuit.consumers.get(number);
        Potential plus = Potential.values()[consumer.kind().plus];
        Potential minus = Potential.values()[consumer.kind().minus];
        addWay(plus, consumer.a(), minus, consumer.b(), ways);
    }

    private void addWay(Potential plus, int a, Potential minus, int b, List<String> ways) {
        List<String> there = tracer.wayTo(plus, a);
        List<String> back = tracer.wayTo(minus, b);
        if (there.isEmpty() && !tracer.wayTo(minus, a).isEmpty()) {
            there = tracer.wayTo(minus, a);
            back = tracer.wayTo(plus, b);
        }
        ways.add(String.join(" ", there) + " ["
                + Wire.partOf(circuit.nodes.get(a).name()) + "] " + String.join(" ", back));
    }

    private String meetings(Flow flow, boolean apart) {
        List<String> places = new ArrayList<>();
        for (int n = 0; n < circuit.nodes.size() && places.size() < 3; n++) {
            int net = flow.netlist.net[n];
            boolean here = apart ? (flow.mixedAt(net) & 1) != 0 : (flow.shortedAt(net) & 1) != 0;
            String words = circuit.nodes.get(n).net() + " carries "
                    + LiveTable.cell(flow, net, 1).text();
            if (here && !places.contains(words)) {
                places.add(words);
            }
        }
        return String.join(", ", places);
    }
}
