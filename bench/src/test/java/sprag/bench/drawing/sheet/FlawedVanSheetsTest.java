package sprag.bench.drawing.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.Checker;

/** Each stop and each caution of the flawed van has its sign on the written sheets, at the wire, terminal or part that it names, and nowhere else. */
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
            "proximity_v", "supervisor",
            "heartbeat", "supervisor",
            "pedal_b_v", "supervisor");

    private final Map<String, Set<String>> stopsSeen = new TreeMap<>();
    private final Map<String, Set<String>> cautionsSeen = new TreeMap<>();
    private final Map<String, Set<String>> endsOfWire = new TreeMap<>();
    private final Map<String, Set<String>> endsAtTerminal = new TreeMap<>();

    @Test
    void stopsAndCautions_ofTheFlawedVan_standAtWhatTheyName(@TempDir Path folder) throws Exception {
        CommandLine line = Sprag.commandLine();
        line.setOut(new PrintWriter(new StringWriter()));
        assertEquals(ExitCode.FINDING, line.execute("draw", VAN.toString(), "--out", folder.toString()));
        for (int sheet = 1; Files.exists(folder.resolve("sheet-" + sheet + ".svg")); sheet++) {
            read(new PaperReader(Files.readString(folder.resolve("sheet-" + sheet + ".svg"))));
        }
        CheckReport report = Checker.check(VAN);
        Map<String, Set<String>> stops = named(report, Weight.STOP);
        assertEquals(25, stops.size(), stops.toString());
        assertEquals(stops, stopsSeen);
        Map<String, Set<String>> cautions = named(report, Weight.CAUTION);
        assertFalse(cautions.isEmpty(), "there are cautions");
        // At most three signs stand at one place; these two parts have more.
        cautions.remove(numberOf(report, "precharge.done_fraction"));
        cautions.remove(numberOf(report, "crash_loop_closed"));
        assertEquals(cautions, cautionsSeen);
        for (String crowded : List.of("resistor_precharge", "supervisor")) {
            long signs = Stream.of(stopsSeen, cautionsSeen)
                    .flatMap(seen -> seen.values().stream())
                    .filter(places -> places.contains(crowded))
                    .count();
            assertEquals(3, signs, crowded);
        }
    }

    private void read(PaperReader paper) {
        paper.stops()
                .forEach(s -> stopsSeen
                        .computeIfAbsent(s.number(), n -> new TreeSet<>())
                        .add(s.place()));
        paper.cautions()
                .forEach(s -> cautionsSeen
                        .computeIfAbsent(s.number(), n -> new TreeSet<>())
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

    private static String numberOf(CheckReport report, String where) {
        int number = 1;
        while (!report.findings().get(number - 1).finding().where().equals(where)) {
            number++;
        }
        return String.valueOf(number);
    }

    /** Where the findings of a weight belong, by their number in the list. */
    private Map<String, Set<String>> named(CheckReport report, Weight weight) {
        Map<String, Set<String>> named = new TreeMap<>();
        for (int i = 0; i < report.findings().size(); i++) {
            Finding finding = report.findings().get(i).finding();
            if (finding.weight() == weight) {
                String where = finding.where();
                Set<String> part = Set.of(PARTS.getOrDefault(where, where));
                named.put(
                        String.valueOf(i + 1),
                        endsOfWire.getOrDefault(where, endsAtTerminal.getOrDefault(where, part)));
            }
        }
        return named;
    }
}
