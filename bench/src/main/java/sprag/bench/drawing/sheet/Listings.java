package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import sprag.bench.cli.Numbers;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.circuit.DrawnCircuit.Link;
import sprag.bench.review.wiring.circuit.DrawnCircuit.LinkKind;
import sprag.bench.review.wiring.circuit.Fusing;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/** The tables of a schedule, for work at the bench. */
public final class Listings {
    /** A cut is that much longer than the way it goes: slack for the dressing of both ends. Common practice. */
    private static final double SLACK_SHARE = 0.05;

    private static final double SLACK_M = 0.1;
    private static final String NO_TERMINAL = "nothing: the schedule names no terminal";
    private static final String UNKNOWN = "?";

    private final Schedule schedule;
    private final DrawnCircuit circuit;
    private final References references;

    private Listings(Schedule schedule, List<Sheet> sheets) {
        this.schedule = schedule;
        this.circuit = new DrawnCircuit(schedule);
        this.references = new References(sheets.stream().map(Sheet::wires).toList());
    }

    /** All tables, in the order in which a builder needs them. */
    public static List<Listing> of(Schedule schedule, List<Sheet> sheets) {
        Listings all = new Listings(schedule, sheets);
        return List.of(
                all.terminals(),
                all.cuts(),
                all.labels(),
                all.fuses(),
                all.grounds(),
                all.wireToBuy(),
                all.partsToBuy());
    }

    private Listing terminals() {
        List<List<String>> rows = new ArrayList<>();
        for (Part part : schedule.parts().values()) {
            for (int terminal : circuit.terminalsOf(part)) {
                for (Wire wire : circuit.wiresAt(terminal)) {
                    String name = circuit.terminal(terminal);
                    String other = wire.from().equals(name) ? wire.to() : wire.from();
                    rows.add(List.of(
                            part.name(),
                            circuit.pin(terminal),
                            wire.id(),
                            BoxBuilder.sizeAndColour(wire),
                            orUnknown(other),
                            wire.net(),
                            references.all(part.name())));
                }
            }
        }
        return new Listing(
                "What lands on each terminal",
                "terminals",
                "",
                List.of("part", "terminal", "wire", "mm² and colour", "goes to", "net", "sheets of the part"),
                rows);
    }

    private Listing cuts() {
        List<List<String>> rows = new ArrayList<>();
        for (Wire wire : schedule.wires()) {
            rows.add(List.of(
                    wire.id(),
                    Double.isNaN(wire.sizeMm2()) ? UNKNOWN : Numbers.text(wire.sizeMm2()),
                    wire.colour().isEmpty() ? UNKNOWN : wire.colour(),
                    cutLength(wire),
                    orUnknown(wire.from()),
                    crimp(wire, wire.from()),
                    orUnknown(wire.to()),
                    crimp(wire, wire.to()),
                    wire.twistedWith()));
        }
        return new Listing(
                "Cut list",
                "cut-list",
                "The length to cut is that of the schedule, 5 % and 0.1 m more (common practice); measure the way in the car"
                        + " before you cut thick cable. Crimp with the tool that the maker of the terminal names.",
                List.of(
                        "wire",
                        "size (mm²)",
                        "colour",
                        "cut (m)",
                        "from",
                        "crimped on there",
                        "to",
                        "crimped on there",
                        "twisted with"),
                rows);
    }

    private static String cutLength(Wire wire) {
        if (Double.isNaN(wire.lengthM())) {
            return UNKNOWN;
        }
        double cutM = wire.lengthM() * (1 + SLACK_SHARE) + SLACK_M;
        return Numbers.text(Math.ceil(cutM * 20) / 20);
    }

    /** What goes on an end, by what it lands on. */
    private String crimp(Wire wire, String terminal) {
        if (terminal.isEmpty()) {
            return NO_TERMINAL;
        }
        Part part = schedule.parts().get(Wire.partOf(terminal));
        String pin = Wire.pinOf(terminal);
        boolean small = pin.startsWith("coil") || pin.startsWith("aux") || pin.startsWith("sense");
        boolean stud = part.kind().hasStuds() && !small && wire.voltageClass() != VoltageClass.SIGNAL;
        String size = Double.isNaN(wire.sizeMm2()) ? UNKNOWN : Numbers.text(wire.sizeMm2());
        return stud ? "ring lug " + size + " mm²" : "contact " + size + " mm²";
    }

    private Listing labels() {
        List<List<String>> rows = new ArrayList<>();
        for (Wire wire : schedule.wires()) {
            rows.add(List.of(wire.id(), "from", orUnknown(wire.from()), orUnknown(wire.to()), voltage(wire)));
            rows.add(List.of(wire.id(), "to", orUnknown(wire.to()), orUnknown(wire.from()), voltage(wire)));
        }
        return new Listing(
                "Sleeves and labels",
                "labels",
                "Two rows for each wire: one sleeve at each end.",
                List.of("print", "end", "lands on", "other end", "class"),
                rows);
    }

    private static String voltage(Wire wire) {
        return wire.voltageClass().word;
    }

    private Listing fuses() {
        List<List<String>> rows = new ArrayList<>();
        for (Link link : circuit.links()) {
            if (link.kind() != LinkKind.FUSE) {
                continue;
            }
            double ratedA = Fusing.ratingA(circuit, link);
            String guards = schedule.wires().stream()
                    .filter(w -> w.hasBothEnds() && circuit.netOf(w) == circuit.netOut(link))
                    .map(Wire::id)
                    .collect(Collectors.joining(" "));
            rows.add(List.of(
                    link.part().name(),
                    ratedA > 0 ? Numbers.text(ratedA) : UNKNOWN,
                    Double.isNaN(link.part().ratedV())
                            ? UNKNOWN
                            : Numbers.text(link.part().ratedV()),
                    Double.isNaN(link.part().breaksA())
                            ? UNKNOWN
                            : Numbers.text(link.part().breaksA()),
                    before(link),
                    guards,
                    references.all(link.part().name())));
        }
        return new Listing(
                "Fuses",
                "fuses",
                "A fuse sits as near as possible to what feeds it: the wire before it has only the protection that comes earlier.",
                List.of(
                        "fuse",
                        "rating (A)",
                        "rated (V)",
                        "breaks (A)",
                        "fed by",
                        "wires directly behind it",
                        "sheets"),
                rows);
    }

    private String before(Link link) {
        return circuit.wiresAt(link.inTerminal()).stream()
                .map(w -> w.id() + " from "
                        + orUnknown(w.from().equals(circuit.terminal(link.inTerminal())) ? w.to() : w.from()))
                .collect(Collectors.joining(", "));
    }

    private Listing grounds() {
        List<List<String>> rows = new ArrayList<>();
        for (Wire wire : schedule.wires()) {
            if (wire.voltageClass() == VoltageClass.EARTH) {
                rows.add(List.of(
                        wire.id(),
                        orUnknown(wire.from()),
                        orUnknown(wire.to()),
                        BoxBuilder.sizeAndColour(wire),
                        wire.net()));
            }
        }
        return new Listing(
                "Grounds",
                "grounds",
                "Bare metal, a washer that bites, protection against rust afterwards; measure each one.",
                List.of("wire", "from", "to", "mm² and colour", "net"),
                rows);
    }

    private Listing wireToBuy() {
        Map<String, double[]> lengths = new TreeMap<>();
        Map<String, Wire> first = new TreeMap<>();
        for (Wire wire : schedule.wires()) {
            String key =
                    String.format(java.util.Locale.ROOT, "%s %09.3f %s", voltage(wire), wire.sizeMm2(), wire.colour());
            first.putIfAbsent(key, wire);
            double[] sum = lengths.computeIfAbsent(key, k -> new double[2]);
            boolean unknown = Double.isNaN(wire.lengthM());
            sum[0] += unknown ? 0 : wire.lengthM() * (1 + SLACK_SHARE) + SLACK_M;
            sum[1] += unknown ? 1 : 0;
        }
        List<List<String>> rows = new ArrayList<>();
        lengths.forEach((key, sum) -> {
            Wire wire = first.get(key);
            String more = sum[1] > 0 ? " and " + Numbers.text(sum[1]) + " wires of unknown length" : "";
            rows.add(List.of(
                    voltage(wire),
                    Double.isNaN(wire.sizeMm2()) ? UNKNOWN : Numbers.text(wire.sizeMm2()),
                    wire.colour().isEmpty() ? UNKNOWN : wire.colour(),
                    Numbers.text(Math.ceil(sum[0] * 10) / 10) + more));
        });
        return new Listing(
                "Wire to buy",
                "wire-to-buy",
                "The sum of the cut list; a spare length on top is up to you.",
                List.of("class", "size (mm²)", "colour", "length (m)"),
                rows);
    }

    private Listing partsToBuy() {
        List<List<String>> rows = new ArrayList<>();
        for (Part part : schedule.parts().values()) {
            if (part.kind() != PartKind.CHASSIS) {
                rows.add(List.of(
                        LetterClass.of(part.kind()),
                        part.name(),
                        part.kind().word(),
                        Double.isNaN(part.ratedV()) ? UNKNOWN : Numbers.text(part.ratedV()),
                        Double.isNaN(part.ratedA()) ? UNKNOWN : Numbers.text(part.ratedA()),
                        references.all(part.name())));
            }
        }
        Map<String, Integer> ends = new TreeMap<>();
        for (Wire wire : schedule.wires()) {
            ends.merge(crimp(wire, wire.from()), 1, Integer::sum);
            ends.merge(crimp(wire, wire.to()), 1, Integer::sum);
        }
        ends.forEach((what, count) -> {
            if (!what.equals(NO_TERMINAL)) {
                rows.add(List.of("", count + " × " + what, "terminal", "", "", ""));
            }
        });
        return new Listing(
                "Parts and terminals to buy",
                "parts-to-buy",
                "Ratings that the list of parts leaves open show a question mark: read them from the data sheet first.",
                List.of("class", "part", "kind", "rated (V)", "rated (A)", "sheets"),
                rows);
    }

    private static String orUnknown(String text) {
        return text.isEmpty() ? UNKNOWN : text;
    }
}
