package sprag.bench.drawing.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.drawing.draft.Answers;
import sprag.bench.drawing.draft.Drafter;
import sprag.bench.drawing.paper.SvgInk;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleReader;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.VehicleReader;

/** Who wires from the sheets alone builds what the schedule says: each wire at its terminals, each net whole, nothing joined that is not. */
class DrawnNetsTest {
    private static final String OPEN_END = "open end";

    @Test
    void sheetsOfTheCart_readFromPaper_giveTheScheduleBack() throws Exception {
        readsBack(SheetPlanTest.schedule("yard-cart"));
    }

    @Tag("long")
    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "relay-van", "flawed-van", "draft of parcel-van", "draft of coupe"})
    void sheetsOfAVehicle_readFromPaper_giveTheScheduleBack(String vehicle) throws Exception {
        readsBack(SheetPlanTest.schedule(vehicle));
    }

    @Tag("long")
    @Test
    void sheetsOfAPackInTwoBoxes_readFromPaper_giveTheScheduleBack(@TempDir Path folder) throws Exception {
        Files.writeString(folder.resolve(Answers.FILE), "[choices]\npack_boxes = 2\n");
        Drafter.Result draft = Drafter.draft(
                VehicleReader.read(Path.of("..", "config", "vehicles", "coupe")),
                Answers.read(folder),
                new byte[0],
                new byte[0]);
        readsBack(ScheduleReader.read(
                        draft.wires().getBytes(StandardCharsets.UTF_8),
                        draft.parts().getBytes(StandardCharsets.UTF_8))
                .schedule());
    }

    private static void readsBack(Schedule schedule) throws Exception {
        List<PaperReader> papers = new ArrayList<>();
        for (Sheet sheet : SheetPlan.of(schedule, Marks.NONE)) {
            SvgInk ink = new SvgInk("a sheet", Sheet.WIDTH_MM, sheet.heightMm());
            SheetPainter.draw(sheet, Marks.NONE, new DrawnCircuit(schedule)::netOf, "strip", ink);
            papers.add(new PaperReader(ink.inPage()));
        }
        Map<String, Set<String>> ends = new TreeMap<>();
        Map<String, Set<Integer>> sheetsOf = new HashMap<>();
        for (int i = 0; i < papers.size(); i++) {
            List<PaperReader.Drawn> wires = papers.get(i).wires();
            for (PaperReader.Drawn wire : wires) {
                assertEquals(wire.from().wire(), wire.to().wire(), "both ends have one number");
                assertEquals(
                        wire.from().sizeAndColour(),
                        wire.to().sizeAndColour(),
                        wire.from().wire());
                Set<String> both = new TreeSet<>(
                        Set.of(wire.from().terminal() + " " + wire.from().sizeAndColour()));
                both.add(wire.to().terminal() + " " + wire.to().sizeAndColour());
                assertEquals(
                        null, ends.put(wire.from().wire(), both), wire.from().wire() + " is drawn once");
                for (PaperReader.End end : List.of(wire.from(), wire.to())) {
                    sheetsOf.computeIfAbsent(end.terminal(), t -> new TreeSet<>())
                            .add(i + 1);
                }
            }
            assertNoTwoRunTogether(wires);
        }
        Map<String, Set<String>> written = new TreeMap<>();
        schedule.wires().forEach(w -> {
            String words = " " + sizeAndColour(w);
            written.put(w.id(), new TreeSet<>(Set.of(orOpen(w.from()) + words, orOpen(w.to()) + words)));
        });
        Map<String, Set<String>> onlyDrawn = new TreeMap<>(ends);
        onlyDrawn.entrySet().removeAll(written.entrySet());
        Map<String, Set<String>> onlyWritten = new TreeMap<>(written);
        onlyWritten.entrySet().removeAll(ends.entrySet());
        assertEquals(onlyWritten, onlyDrawn);
        assertReferencesLead(papers, sheetsOf);
        assertEquals(writtenNets(schedule), drawnNets(papers), "what is joined");
    }

    /** Letters of IEC 60757, as docs/draw.md lists them; a word that the standard does not have stays. */
    private static final Map<String, String> LETTERS = Map.ofEntries(
            Map.entry("black", "BK"),
            Map.entry("brown", "BN"),
            Map.entry("red", "RD"),
            Map.entry("orange", "OG"),
            Map.entry("yellow", "YE"),
            Map.entry("green", "GN"),
            Map.entry("blue", "BU"),
            Map.entry("violet", "VT"),
            Map.entry("grey", "GY"),
            Map.entry("white", "WH"),
            Map.entry("pink", "PK"));

    private static String sizeAndColour(Wire wire) {
        String size = Double.isNaN(wire.sizeMm2())
                ? "?"
                : BigDecimal.valueOf(wire.sizeMm2()).stripTrailingZeros().toPlainString();
        StringBuilder letters = new StringBuilder();
        for (String word : wire.colour().split("-")) {
            letters.append(LETTERS.getOrDefault(word, word));
        }
        return size + " " + (wire.colour().isEmpty() ? "?" : letters);
    }

    /** An end that leads nowhere is drawn at a box of its own. */
    private static String orOpen(String terminal) {
        return terminal.isEmpty() ? OPEN_END + ".end" : terminal;
    }

    /** What stands behind an arrow at a terminal are the other sheets on which it has wires. */
    private static void assertReferencesLead(List<PaperReader> papers, Map<String, Set<Integer>> sheetsOf) {
        for (int i = 0; i < papers.size(); i++) {
            for (PaperReader.Drawn wire : papers.get(i).wires()) {
                for (PaperReader.End end : List.of(wire.from(), wire.to())) {
                    if (!end.pin().isEmpty() && !end.part().equals(OPEN_END)) {
                        Set<Integer> others = new TreeSet<>(sheetsOf.get(end.terminal()));
                        others.remove(i + 1);
                        assertEquals(others, new TreeSet<>(end.more()), end.wire() + " at " + end.terminal());
                    }
                }
            }
        }
    }

    /** Lines may cross. Two that lie on each other could not be told apart. */
    private static void assertNoTwoRunTogether(List<PaperReader.Drawn> wires) {
        for (int a = 0; a < wires.size(); a++) {
            for (int b = a + 1; b < wires.size(); b++) {
                PaperReader.Line one = wires.get(a).line();
                PaperReader.Line other = wires.get(b).line();
                for (int i = 0; i < one.last(); i++) {
                    for (int j = 0; j < other.last(); j++) {
                        assertTrue(
                                together(one, i, other, j) < 0.1,
                                wires.get(a).from().wire() + " lies on "
                                        + wires.get(b).from().wire());
                    }
                }
            }
        }
    }

    private static double together(PaperReader.Line one, int i, PaperReader.Line other, int j) {
        boolean level = one.ys()[i] == one.ys()[i + 1] && other.ys()[j] == other.ys()[j + 1];
        boolean upright = one.xs()[i] == one.xs()[i + 1] && other.xs()[j] == other.xs()[j + 1];
        double[] across1 = level ? one.ys() : one.xs();
        double[] across2 = level ? other.ys() : other.xs();
        double[] along1 = level ? one.xs() : one.ys();
        double[] along2 = level ? other.xs() : other.ys();
        if (!level && !upright || Math.abs(across1[i] - across2[j]) > 0.4) {
            return 0;
        }
        return Math.min(Math.max(along1[i], along1[i + 1]), Math.max(along2[j], along2[j + 1]))
                - Math.max(Math.min(along1[i], along1[i + 1]), Math.min(along2[j], along2[j + 1]));
    }

    private static Set<Set<String>> drawnNets(List<PaperReader> papers) {
        Map<String, String> leader = new HashMap<>();
        Map<String, String> at = new TreeMap<>();
        for (PaperReader paper : papers) {
            for (PaperReader.Drawn wire : paper.wires()) {
                for (PaperReader.End end : List.of(wire.from(), wire.to())) {
                    // Each ground is the body of the car, and a bar joins what lands on it.
                    String node = end.pin().isEmpty() ? "body" : paper.isBar(end.part()) ? end.part() : end.terminal();
                    if (end.part().equals(OPEN_END)) {
                        node = "wire " + end.wire();
                    }
                    join(leader, "wire " + end.wire(), node);
                    at.put(end.wire(), node);
                }
            }
        }
        return grouped(leader, at.keySet());
    }

    private static Set<Set<String>> writtenNets(Schedule schedule) {
        Map<String, String> leader = new HashMap<>();
        for (Wire wire : schedule.wires()) {
            for (String terminal : List.of(wire.from(), wire.to())) {
                if (terminal.isEmpty()) {
                    continue;
                }
                PartKind kind = schedule.parts().get(Wire.partOf(terminal)).kind();
                String node =
                        kind == PartKind.CHASSIS ? "body" : kind == PartKind.SPLICE ? Wire.partOf(terminal) : terminal;
                join(leader, "wire " + wire.id(), node);
            }
        }
        return grouped(
                leader, new TreeSet<>(schedule.wires().stream().map(Wire::id).toList()));
    }

    private static Set<Set<String>> grouped(Map<String, String> leader, Set<String> wires) {
        Map<String, Set<String>> nets = new TreeMap<>();
        wires.forEach(wire -> nets.computeIfAbsent(root(leader, "wire " + wire), r -> new TreeSet<>())
                .add(wire));
        return Set.copyOf(nets.values());
    }

    private static void join(Map<String, String> leader, String one, String other) {
        String a = root(leader, one);
        String b = root(leader, other);
        if (!a.equals(b)) {
            leader.put(a, b);
        }
    }

    private static String root(Map<String, String> leader, String name) {
        String at = name;
        while (leader.containsKey(at)) {
            at = leader.get(at);
        }
        return at;
    }
}
