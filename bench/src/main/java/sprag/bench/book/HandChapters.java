package sprag.bench.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.book.print.Block;
import sprag.bench.book.print.Chapter;
import sprag.bench.cli.Numbers;
import sprag.bench.drawing.live.LiveTable;
import sprag.bench.drawing.live.Situation;
import sprag.bench.page.Cautions;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** What a hand does at the car: make it safe, rescue people, keep it well. */
final class HandChapters {
    private static final double LONG_M = 1;
    private static final int MOST_CABLES = 8;
    private static final String BY_HAND = "................";
    private static final double MS_PER_S = 1000;

    private final Material material;

    HandChapters(Material material) {
        this.material = material;
    }

    List<Chapter> all() {
        return List.of(off(), rescue(), upkeep());
    }

    private Chapter off() {
        Chapter chapter = Chapter.of("How to switch off and make safe");
        chapter.add(new Block.Caution(Cautions.RULES));
        String bus = Numbers.text(material.get(Parameter.BUS_DISCHARGED_V), "V");
        chapter.steps(List.of(
                "Stop, set the parking brake, put the direction lever in the middle, turn the key off and take it out.",
                "With a charging cable in: stop the charge at the station first, then pull the plug.",
                "Press the emergency cut-off: " + named(material.cutOffs(false))
                        + ". It lets all contactors go, whatever the" + " program decides.",
                "Take out the service switch: " + named(material.cutOffs(true)) + ". Never under load. Keep it on you.",
                "Disconnect the 12 V battery (" + named(material.parts(PartKind.LV_BATTERY))
                        + ") so that nothing can close a contactor again. Lock and tag what you have opened.",
                "Wait. The capacitors of the bus (" + Numbers.text(material.get(Parameter.BUS_CAPACITANCE_UF), "µF")
                        + ") are reckoned to fall below " + bus + " within "
                        + Numbers.text(material.get(Parameter.BUS_BLEED_MS) / MS_PER_S, "s")
                        + " (bus.bleed_ms) while the bleed resistor is whole. Wait five minutes all the same (common practice):"
                        + " nothing tells you that it is.",
                "Prove the meter on a live source. Measure between plus and minus, and from each of them to the body, at: "
                        + points() + ". Prove the meter again.",
                "Only then touch. What stays live stands below; it is never dead."));
        chapter.heading("What stays live");
        staysLive(chapter);
        chapter.heading("To switch on again");
        chapter.steps(List.of(
                "Look that nobody is at the car, no tool is left, and every cover is closed.",
                "12 V battery, then service switch, then cut-off, then key. A car that starts by itself now has a fault: switch"
                        + " off again."));
        return chapter;
    }

    private static String named(List<Part> parts) {
        if (parts.isEmpty()) {
            return "NONE IS DRAWN";
        }
        return parts.stream()
                .map(p -> p.name() + (p.remark().isEmpty() ? "" : " (" + p.remark() + ")"))
                .collect(Collectors.joining("; "));
    }

    /** Where absence of voltage is measured: every part that takes or gives pack voltage. */
    private String points() {
        Set<PartKind> kinds = Set.of(PartKind.INVERTER, PartKind.DCDC, PartKind.CHARGER, PartKind.HEATER);
        return material.schedule().parts().values().stream()
                .filter(p -> kinds.contains(p.kind()))
                .map(Part::name)
                .collect(Collectors.joining(", "));
    }

    private void staysLive(Chapter chapter) {
        if (material.live() == null) {
            chapter.verdict(false, "Not worked out: " + material.liveRefusal() + ". Take every part for live.");
            return;
        }
        LiveTable.Table table = material.live().table();
        List<List<String>> rows = new ArrayList<>();
        for (int s = 0; s < table.situations().size(); s++) {
            Situation situation = table.situations().get(s);
            if (situation.sort() == Situation.Sort.PARKED || situation.sort() == Situation.Sort.CUT_OFF) {
                rows.add(List.of(situation.title(), joined(table, s)));
            }
        }
        chapter.words(
                "Nets that are still joined to a pole of the pack or to mains, by what the schedule draws. Driving means:"
                        + " the supervisor goes on commanding, as it would when it has hung itself up.");
        chapter.table(List.of("situation", "still live"), rows);
    }

    private static String joined(LiveTable.Table table, int situation) {
        String nets = table.rows().stream()
                .filter(row -> row.cells().get(situation).isJoinedToDanger())
                .map(LiveTable.Row::net)
                .collect(Collectors.joining(", "));
        return nets.isEmpty() ? "nothing" : nets;
    }

    private Chapter rescue() {
        Chapter chapter = Chapter.of("For rescuers");
        chapter.caution(
                "In the order of ISO 17840-3, made by no one who is certified for that: THIS PAGE DOES NOT CONFORM to ISO"
                        + " 17840. The rules of the fire service come first. Dots are to be filled in by hand, at the car.");
        chapter.words("Recognise: " + material.vehicle().name() + ", " + BY_HAND
                + ". Electric drive in a car that was built with"
                + " an engine; it may look like one and is silent. Pack of at most "
                + Numbers.text(material.get(Parameter.PACK_MAX_V), "V") + " d.c., chemistry " + chemistry()
                + ". Cables at pack"
                + " voltage are " + colours() + ".");
        chapter.words(
                "Hold: chock the wheels, parking brake, key out and away. Never rely on silence: the motor may be ready.");
        chapter.table(
                List.of("cut off with", "what it does", "where it is"),
                Stream.concat(
                                material.cutOffs(false).stream()
                                        .map(p -> List.of(p.name(), "lets the contactors of the pack open", place(p))),
                                material.cutOffs(true).stream()
                                        .map(p ->
                                                List.of(p.name(), "parts the pack itself; never under load", place(p))))
                        .toList());
        chapter.words("12 V battery: " + named(material.parts(PartKind.LV_BATTERY)) + ", at " + BY_HAND
                + ". Disconnect it last: windows, locks and lamps need it.");
        chapter.table(List.of("cables at pack voltage of 1 m and more", "length (m)", "way"), cables());
        chapter.words(
                "Stays live whatever is switched off: the pack itself, and its cables up to the first open contact. Until the"
                        + " service switch is out these nets are live even with everything else at rest: "
                        + alwaysLive()
                        + ". The bus may be live for five minutes. Do not cut cables at pack voltage, do not open the pack.");
        chapter.words(
                "Fire: much water, for long, at the pack; its gas burns and poisons. Keep away from its vents. It can flare up"
                        + " again days later: store the wreck 15 m from anything, in the open (common practice).");
        chapter.words(
                "Water: a pack that was under water can short and burn later. Take the car out of the water first, then cut"
                        + " off as above. Towing: " + towing());
        chapter.words(
                "Draw here, seen from above: cut-offs, service switch, pack, 12 V battery, cables at pack voltage.");
        return chapter;
    }

    private String chemistry() {
        Parameter row = Parameter.PACK_CHEMISTRY;
        return row.choices().get((int) material.get(row));
    }

    private String colours() {
        String colours = traction()
                .map(Wire::colour)
                .filter(c -> !c.isEmpty())
                .distinct()
                .collect(Collectors.joining(", "));
        return colours.isEmpty() ? "of a colour that the schedule does not name" : colours;
    }

    private Stream<Wire> traction() {
        return material.schedule().wires().stream().filter(w -> w.voltageClass() == VoltageClass.TRACTION);
    }

    private static String place(Part part) {
        return (part.remark().isEmpty() ? "" : part.remark() + "; ") + BY_HAND;
    }

    /** Those whose length is unknown may be long. */
    private List<List<String>> cables() {
        List<Wire> some = traction()
                .filter(w -> !(w.lengthM() < LONG_M))
                .sorted((a, b) -> Double.compare(b.lengthM(), a.lengthM()))
                .toList();
        List<List<String>> rows = new ArrayList<>();
        for (Wire wire : some.subList(0, Math.min(MOST_CABLES, some.size()))) {
            String length = Double.isNaN(wire.lengthM()) ? "?" : Numbers.text(wire.lengthM());
            String way = material.ways().getOrDefault(wire.id(), BY_HAND);
            rows.add(List.of(wire.id() + " " + wire.from() + " to " + wire.to(), length, way));
        }
        if (some.size() > MOST_CABLES) {
            rows.add(List.of("and " + (some.size() - MOST_CABLES) + " more, see the sheets", "", BY_HAND));
        }
        return rows.isEmpty() ? List.of(List.of("none in the schedule", "", "")) : rows;
    }

    private String alwaysLive() {
        if (material.live() == null) {
            return "not worked out, take all for live";
        }
        LiveTable.Table table = material.live().table();
        return joined(table, table.first(Situation.Sort.PARKED));
    }

    private String towing() {
        boolean magnets = material.vehicle().is(Parameter.MOTOR_KIND, "permanent-magnet");
        return magnets
                ? "with the driven wheels off the ground. A turning motor makes voltage, whatever is switched off."
                : "better with the driven wheels off the ground; a motor that turns may make voltage.";
    }

    private Chapter upkeep() {
        Chapter chapter = Chapter.of("Maintenance list");
        chapter.words(
                "Intervals are common practice where no source is named; the makers of the parts and your local rules come"
                        + " first. Write down day, result and who looked.");
        chapter.caution(
                "What is done at pack voltage is done by the steps of the chapter on switching off, by people who may.");
        List<List<String>> rows = new ArrayList<>(List.of(
                row(
                        "each drive",
                        "lamps at key-on, brake lamps, buzzer at ready",
                        "look and listen: nothing measures them"),
                row("each charge", "plug, inlet and cable: heat, colour, play", "stop at any brown or soft plastic"),
                row(
                        "monthly",
                        "every cut-off, standing, ready to drive",
                        "press it: all contactors must be heard to fall"),
                row("monthly", "parking brake on a slope", "regeneration holds no hill (H18)"),
                row("monthly", "residual current device of the supply", "its test button")));
        if (material.vehicle().fitted().contains(Signal.COVER_LOOP_CLOSED)) {
            rows.add(row(
                    "yearly",
                    "cover loop: each connector and lid",
                    "open one after the other, no pack: it must be told"));
        }
        if (material.vehicle().fitted().contains(Signal.CRASH_LOOP_CLOSED)) {
            rows.add(row("yearly", "crash switch", "trip it by hand: contactors fall, a service reset is needed"));
        }
        rows.addAll(List.of(
                row(
                        "yearly",
                        "insulation of both poles to the body",
                        "an insulation tester for the pack's voltage; the limit is"
                                + " isolation.min_ohm_per_v, "
                                + Numbers.text(material.get(Parameter.ISOLATION_MIN_OHM_PER_V)) + " ohm for each volt"),
                row("yearly", "protective earth and bonds to the body", "below 0.1 ohm (UN R100)"),
                row(
                        "yearly",
                        "lugs and bolts of the traction circuit",
                        "paint marks unmoved, no heat marks; torque of the maker"),
                row(
                        "yearly",
                        "bleed resistor",
                        "time from key off to " + Numbers.text(material.get(Parameter.BUS_DISCHARGED_V), "V")
                                + " at the bus: the same as last year"),
                row("yearly", "12 V battery", "load test: contactors need it to open in order"),
                row("yearly", "coolant, hoses, fan, pump", "level, leaks, noise"),
                row(
                        "yearly",
                        "the commissioning steps of the low-voltage side",
                        "sprag commission: the record belongs in this" + " book"),
                row("each change", "any wire, part or value", "make this book again: the check sums tell an old page"),
                row("before work", "gloves, meter, its leads", "test date, holes, proof on a live source")));
        chapter.table(List.of("how often", "what", "how"), rows);
        return chapter;
    }

    private static List<String> row(String often, String what, String how) {
        return List.of(often, what, how);
    }
}
