package sprag.bench.review.wiring.circuit;

import static sprag.bench.review.finding.Finding.numbersOf;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Set;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * Where the traction side is joined to the body or to the low-voltage side. Each joint is blamed on one wire; the other
 * rules then see the schedule without it, or every wire of the car would look like a traction wire.
 */
public final class Bonds {
    private static final Set<String> LOW_PINS =
            Set.of("out_plus", "out_minus", "supply", "ground", "earth", "chassis", "coil_plus", "coil_minus");
    private static final Set<PartKind> LOW_KINDS = Set.of(PartKind.CHASSIS, PartKind.LV_BATTERY, PartKind.SUPERVISOR);
    private static final Set<PartKind> TRACTION_LOADS =
            Set.of(PartKind.INVERTER, PartKind.DCDC, PartKind.CHARGER, PartKind.HEATER);
    private static final int MOST = 20;

    private final List<Hit> hits = new ArrayList<>();
    private final RuleLimits limits;
    private Review review;

    public Bonds(Schedule schedule, RuleLimits limits) {
        this.limits = limits;
        this.review = new Review(schedule, limits);
        while (hits.size() < MOST && removeOne()) {
            continue;
        }
        loadsOnTheBody();
    }

    public List<Hit> hits() {
        return hits;
    }

    /** The schedule as it would be without the joints. */
    public Review clean() {
        return review;
    }

    private boolean removeOne() {
        BitSet low = (BitSet) review.sides.ground.clone();
        low.or(review.sides.lowVoltageSide);
        for (boolean negative : new boolean[] {true, false}) {
            BitSet both = (BitSet) (negative ? review.sides.minusSide : review.sides.plusSide).clone();
            both.and(low);
            if (!both.isEmpty()) {
                Wire guilty = guilty(both);
                hits.add(hit(guilty, negative, review.sides.ground.get(review.netOf(guilty))));
                List<Wire> rest = new ArrayList<>(review.schedule.wires());
                rest.remove(guilty);
                review = new Review(new Schedule(rest, review.schedule.parts()), limits);
                return true;
            }
        }
        return false;
    }

    private Hit hit(Wire guilty, boolean negative, boolean body) {
        return Hit.at(
                guilty,
                "The traction " + (negative ? "negative" : "positive") + " is joined to "
                        + (body ? "the chassis or the 12 V ground" : "the low-voltage supply") + " by wire "
                        + guilty.id()
                        + " (" + guilty.from() + " to " + guilty.to() + ").",
                numbersOf("net_v", limits.packMaxV()));
    }

    /** Among the wires of the joined nets, the one whose two ends belong to different worlds. */
    private Wire guilty(BitSet nets) {
        List<Wire> wires = review.schedule.wires().stream()
                .filter(w -> w.hasBothEnds() && nets.get(review.netOf(w)))
                .toList();
        return wires.stream()
                .filter(w -> world(w.from(), w) * world(w.to(), w) < 0)
                .findFirst()
                .or(() -> wires.stream()
                        .filter(w -> w.voltageClass() == VoltageClass.TRACTION && (isLow(w.from()) || isLow(w.to())))
                        .findFirst())
                .or(() -> wires.stream()
                        .filter(w -> w.voltageClass() != VoltageClass.TRACTION
                                && (world(w.from(), w) > 0 || world(w.to(), w) > 0))
                        .findFirst())
                .orElse(wires.get(0));
    }

    /** 1 for the traction side, -1 for the low side, 0 when the other wires of that place do not tell. */
    private int world(String terminal, Wire without) {
        if (isLow(terminal)) {
            return -1;
        }
        Part part = review.schedule.parts().get(Wire.partOf(terminal));
        String pin = Wire.pinOf(terminal);
        if (part.kind() == PartKind.PACK
                || TRACTION_LOADS.contains(part.kind()) && (pin.equals("plus") || pin.equals("minus"))) {
            return 1;
        }
        int traction = 0;
        int other = 0;
        for (int t : review.circuit.terminalsOf(part)) {
            boolean same = part.kind().isJoint() && part.kind() == PartKind.SPLICE
                    || review.circuit.terminal(t).equals(terminal)
                    || part.kind() == PartKind.FUSE
                    || part.kind() == PartKind.SHUNT;
            for (Wire wire : same ? review.circuit.wiresAt(t) : List.<Wire>of()) {
                if (wire != without) {
                    traction += wire.voltageClass() == VoltageClass.TRACTION ? 1 : 0;
                    other += wire.voltageClass() == VoltageClass.TRACTION ? 0 : 1;
                }
            }
        }
        return Integer.compare(traction, other);
    }

    private boolean isLow(String terminal) {
        Part part = review.schedule.parts().get(Wire.partOf(terminal));
        return LOW_KINDS.contains(part.kind()) || LOW_PINS.contains(Wire.pinOf(terminal));
    }

    /** A pole of a traction load that uses the body as its return, or hangs on the 12 V side. */
    private void loadsOnTheBody() {
        BitSet low = (BitSet) review.sides.ground.clone();
        low.or(review.sides.lowVoltageSide);
        for (int t = 0; t < review.circuit.terminalCount(); t++) {
            Part part = review.circuit.part(t);
            String pin = review.circuit.pin(t);
            boolean pole = pin.equals("plus") || pin.equals("minus");
            if (pole && TRACTION_LOADS.contains(part.kind()) && low.get(review.circuit.netOf(t))) {
                hits.add(review.atTerminal(
                        t,
                        "Terminal " + review.circuit.terminal(t) + " is a traction pole, but it is wired to "
                                + (review.sides.ground.get(review.circuit.netOf(t))
                                        ? "the chassis or the 12 V ground."
                                        : "the low-voltage supply."),
                        numbersOf("pack_v", limits.packMaxV())));
            }
        }
    }
}
