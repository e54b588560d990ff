package sprag.bench.review.wiring.circuit;

import java.util.BitSet;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.schedule.PartKind;

/** The regions of a circuit that the rules ask for again and again, each found once. */
public final class Sides {
    /** Every way that power can take once contacts are closed. */
    public static final Predicate<Link> POWER = link -> link.kind() != LinkKind.AUXILIARY;
    /** Ways without a resistor: where the full current can flow. */
    public static final Predicate<Link> FULL_POWER = POWER.and(link -> link.kind() != LinkKind.RESISTOR);
    /** Ways that no contact can open. */
    public static final Predicate<Link> FIXED = FULL_POWER.and(link -> !isContact(link));
    /** Ways without a fuse. */
    public static final Predicate<Link> UNFUSED = FULL_POWER.and(link -> link.kind() != LinkKind.FUSE);

    public final BitSet plusPoles;
    public final BitSet minusPoles;
    public final BitSet plusSide;
    public final BitSet minusSide;
    public final BitSet lowVoltagePoles;
    public final BitSet lowVoltageSources;
    public final BitSet lowVoltageSide;
    public final BitSet chassis;
    public final BitSet ground;
    /** Nets in the middle of a string of packs; they belong to neither side. */
    public final BitSet middle;

    public Sides(DrawnCircuit circuit) {
        middle = middle(circuit);
        plusPoles = circuit.nets(PartKind.PACK, "plus");
        plusPoles.andNot(middle);
        minusPoles = circuit.nets(PartKind.PACK, "minus");
        minusPoles.andNot(middle);
        plusSide = circuit.reach(plusPoles, POWER);
        minusSide = circuit.reach(minusPoles, POWER);
        lowVoltagePoles = circuit.nets(PartKind.LV_BATTERY, "plus");
        lowVoltageSources = (BitSet) lowVoltagePoles.clone();
        lowVoltageSources.or(circuit.nets(PartKind.DCDC, "out_plus"));
        lowVoltageSide = circuit.reach(lowVoltageSources, POWER);
        chassis = circuit.nets(t -> circuit.part(t).kind() == PartKind.CHASSIS);
        BitSet returns = (BitSet) chassis.clone();
        returns.or(circuit.nets(PartKind.LV_BATTERY, "minus"));
        returns.or(circuit.nets(PartKind.DCDC, "out_minus"));
        ground = circuit.reach(returns, FIXED);
    }

    /** Between two packs in series: reached from the plus of one and the minus of another without a contactor. */
    private static BitSet middle(DrawnCircuit circuit) {
        BitSet middle = new BitSet();
        List<Integer> minusPoles = poles(circuit, "minus");
        if (minusPoles.size() < 2) {
            return middle;
        }
        for (int plus : poles(circuit, "plus")) {
            BitSet start = new BitSet();
            start.set(circuit.netOf(plus));
            BitSet region = circuit.reach(start, FULL_POWER.and(link -> !isContactor(link)));
            boolean joins = minusPoles.stream()
                    .anyMatch(m -> region.get(circuit.netOf(m)) && circuit.part(m) != circuit.part(plus));
            if (joins) {
                middle.or(region);
            }
        }
        return middle;
    }

    private static List<Integer> poles(DrawnCircuit circuit, String pin) {
        return IntStream.range(0, circuit.terminalCount())
                .filter(t -> circuit.part(t).kind() == PartKind.PACK
                        && circuit.pin(t).equals(pin))
                .boxed()
                .toList();
    }

    public static boolean isContact(Link link) {
        return link.kind() == LinkKind.CONTACT || link.kind() == LinkKind.REST_CONTACT;
    }

    public static boolean isContactor(Link link) {
        return isContact(link) && link.part().kind() == PartKind.CONTACTOR;
    }
}
