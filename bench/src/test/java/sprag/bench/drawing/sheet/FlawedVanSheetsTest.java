package sprag.bench.drawing.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.Checker;

/** Each stop of the flawed van has its sign on the written sheets, at the wire, terminal or part that it names, and nowhere else. */
class FlawedVanSheetsTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "flawed-van");
    /** Figures of vehicle.toml and a signal without a wire: the part that an electrician would look at. */
    private static final Map<String, String> PARTS = Map.of(
            "precharge.timeout_ms", "resistor_precharge",
            "car.parts.left_on_w", "resistor_precharge",
            "car.box.fuse_a", "fuse_main",
            "design.fuse.breaks_a", "fuse_main",
            "design.station.breaker_a", "inlet",
            "car.lv.dcdc_max_a", "dcdc",
            "proximity_v", "supervisor");

    @Test
    void stops_ofTheFlawedVan_standAtWhatTheyName(@TempDir Path folder) throws Exception {
        CommandLine line = Sprag.commandLine();
        line.setOut(new PrintWriter(new StringWriter()));
        assertEquals(ExitCode.FINDING, line.execute("draw", VAN.toString(), "--out", folder.toString()));
        Map<String, Set<String>> seen = new TreeMap<>();
        Map<String, Set<String>> endsOfWire = new TreeMap<>();
        Map<String, Set<String>> endsAtTerminal = new TreeMap<>();
        for (int sheet = 1; Files.exists(folder.resolve("sheet-" + sheet + ".svg")); sheet++) {
            PaperReader paper = new PaperReader(Files.readString(folder.resolve("sheet-" + sheet + ".svg")));
            paper.stops()
                    .forEach(s -> seen.computeIfAbsent(s.number(), n -> new TreeSet<>())
                            .add(s.place()));
            for (PaperReader.Drawn wire : paper.wires()) {
                for (PaperReader.End end : List.of(wire.from(), wire.to())) {
                    String place = end.wire() + " at " + end.terminal();
                    endsOfWire.computeIfAbsent(end.wire(), w -> new TreeSet<>()).add(place);
                    endsAtTerminal
                            .computeIfAbsent(end.terminal(), t -> new TreeSet<>())
                            .add(place);
                }
            }
        }
        Map<String, Set<String>> named = new TreeMap<>();
        CheckReport report = Checker.check(VAN);
        List<String> places = new ArrayList<>();
        for (int i = 0; i < report.findings().size(); i++) {
            Finding finding = report.findings().get(i).finding();
            if (finding.weight() == Weight.STOP) {
                String where = finding.where();
                Set<String> part = Set.of(PARTS.getOrDefault(where, where));
                named.put(
                        String.valueOf(i + 1),
                        endsOfWire.getOrDefault(where, endsAtTerminal.getOrDefault(where, part)));
                places.add(where);
            }
        }
        assertEquals(25, places.size(), places.toString());
        assertEquals(named, seen);
    }
}
