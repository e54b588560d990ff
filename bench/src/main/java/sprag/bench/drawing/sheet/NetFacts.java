package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import sprag.bench.cli.Numbers;
import sprag.bench.drawing.live.LiveTable;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.circuit.Fusing;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/** What is known of each net: its voltage, what guards and feeds it, when it is live. */
public final class NetFacts {
    /**
     * One net.
     *
     * @param names what the schedule calls it
     * @param voltage by what it is joined to
     * @param guard the fuse that opens when it is shorted
     * @param feeds what brings power to it
     * @param live what it carries in each situation; empty when nobody has worked it out
     */
    public record Net(
            String names, List<String> wires, String voltage, String guard, String feeds, Map<String, String> live) {}

    private final Review review;
    private final DrawnCircuit circuit;
    private final double packMaxV;

    private NetFacts(Schedule schedule, RuleLimits limits) {
        this.review = new Review(schedule, limits);
        this.circuit = review.circuit;
        this.packMaxV = limits.packMaxV();
    }

    /** All nets by their number.
     *
     * @param table what each net carries when; null when nobody has worked it out
     */
    public static Map<Integer, Net> of(Schedule schedule, RuleLimits limits, LiveTable.Table table) {
        NetFacts facts = new NetFacts(schedule, limits);
        Map<Integer, Map<String, String>> live = new LinkedHashMap<>();
        if (table != null) {
            for (LiveTable.Row row : table.rows()) {
                int net = facts.circuit.netOf(row.terminal());
                Map<String, String> cells = new LinkedHashMap<>();
                for (int s = 0; s < table.situations().size(); s++) {
                    cells.put(table.titles().get(s), row.cells().get(s).text());
                }
                live.putIfAbsent(net, cells);
            }
        }
        Map<Integer, Set<String>> names = new TreeMap<>();
        Map<Integer, List<String>> wires = new TreeMap<>();
        for (Wire wire : schedule.wires()) {
            int net = facts.circuit.netOf(wire);
            names.computeIfAbsent(net, n -> new LinkedHashSet<>()).add(wire.net());
            wires.computeIfAbsent(net, n -> new ArrayList<>()).add(wire.id());
        }
        Map<Integer, Net> nets = new TreeMap<>();
        names.forEach((net, named) -> nets.put(
                net,
                new Net(
                        String.join(", ", named),
                        wires.get(net),
                        facts.voltage(net),
                        facts.guard(net),
                        facts.feeds(net),
                        live.getOrDefault(net, Map.of()))));
        return nets;
    }

    private String voltage(int net) {
        List<String> all = new ArrayList<>();
        if (review.isTraction(net)) {
            all.add("pack voltage, at most " + Numbers.text(packMaxV, "V") + " d.c.");
        }
        if (review.sides.lowVoltageSide.get(net)) {
            all.add("12 V supply");
        }
        if (review.sides.ground.get(net)) {
            all.add("ground");
        }
        return all.isEmpty() ? "neither pack, 12 V supply nor ground feeds it directly" : String.join(" and ", all);
    }

    private String guard(int net) {
        List<String> guards = new ArrayList<>();
        for (Fusing fusing : List.of(review.plusFusing, review.minusFusing, review.lowVoltageFusing)) {
            if (!fusing.reaches(net)) {
                continue;
            }
            if (fusing.isUnfused(net)) {
                guards.add("no fuse");
            } else {
                int link = fusing.fuseLink(net);
                String name = link < 0
                        ? "a fuse inside the pack"
                        : circuit.links().get(link).part().name();
                guards.add(name + ", "
                        + (fusing.limitA(net) > 0 ? Numbers.text(fusing.limitA(net), "A") : "rating unknown"));
            }
        }
        return guards.isEmpty() ? "none, it is not fed" : String.join("; ", new LinkedHashSet<>(guards));
    }

    private String feeds(int net) {
        Set<String> parts = new LinkedHashSet<>();
        for (int link : circuit.linksAt(net)) {
            boolean behind = circuit.netOut(circuit.links().get(link)) == net;
            if (behind) {
                parts.add(circuit.links().get(link).part().name());
            }
        }
        for (int t = 0; t < circuit.terminalCount(); t++) {
            boolean source = switch (circuit.part(t).kind()) {
                case PACK, LV_BATTERY, INLET -> true;
                case DCDC -> circuit.pin(t).startsWith("out");
                case SUPERVISOR -> true;
                default -> false;
            };
            if (source && circuit.netOf(t) == net) {
                parts.add(circuit.terminal(t));
            }
        }
        return parts.isEmpty() ? "nothing that the schedule shows" : String.join(", ", parts);
    }
}
