package sprag.bench.evidence.prove;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Element;
import sprag.bench.TypingTest;
import sprag.bench.docs.Printed;
import sprag.bench.evidence.prove.export.Export;
import sprag.bench.evidence.prove.promise.HistoryPromise;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.page.PageCheck;

class ProveCommandTest extends TypingTest {
    private static final String VAN = "../config/vehicles/parcel-van";

    @Test
    void interlockTakenOut_proved_findingWithItsStory() {
        Printed printed = Printed.of("prove parcel-van --without plug-present");
        assertEquals(1, printed.status());
        String said = printed.text();
        assertTrue(said.contains("without plug-present"), said);
        assertTrue(said.contains("complete: every reachable state was visited"), said);
        assertTrue(said.contains("H02 NO_DRIVE_WITH_A_PLUG is broken; the shortest way takes 5 ticks"), said);
        assertTrue(said.lines().allMatch(line -> line.length() <= 80), "a line is wider than 80 columns");
    }

    @Test
    void vanAsShipped_provedAndExported_hasTheFiguresOfThePage() throws Exception {
        Printed printed = Printed.of("prove parcel-van --export exported");
        assertEquals(0, printed.status());
        Path to = printed.folder().resolve("exported");
        assertTrue(printed.text().contains("Exported to " + to), printed.text());
        assertTrue(printed.lines().stream().allMatch(line -> line.length() <= 80 || line.contains(to.toString())));
        String page = Files.readString(Path.of("../docs/prove.md"));
        LabelledSystem read = new LabelledSystem(Files.lines(to.resolve(Export.GRAPH)));
        assertTrue(
                page.contains(String.format("%,d states and %,d ways", read.from.size(), read.ways)), "" + read.ways);
        assertEquals(
                read.from.size() + 1,
                Files.readAllLines(to.resolve(Export.STATES)).size());
        assertTrue(Files.readString(to.resolve(Export.MODEL)).contains("The Logic of the vehicle parcel-van"));
    }

    @Test
    void export_withTheGate_refused() {
        assertEquals(2, sprag("prove", VAN, "--gate", "--export", "anywhere"));
        assertTrue(err.toString().contains("--export and --gate do not go together"), err.toString());
    }

    @Test
    void unknownInterlock_refused_namedWithWhereTheyAreListed() {
        assertEquals(2, sprag("prove", VAN, "--without", "no-such-thing"));
        assertTrue(err.toString().contains("--without no-such-thing: there is no such interlock"), err.toString());
    }

    @Test
    void unknownVehicle_refused() {
        assertEquals(2, sprag("prove", "no-such-vehicle"));
    }

    @Test
    void stateLimit_met_findingThatSaysNotComplete() {
        assertEquals(1, sprag("prove", VAN, "--max-states", "100"));
        assertTrue(out.toString().contains("NOT COMPLETE: the limit of 100 states was reached"), out.toString());
    }

    @ParameterizedTest(name = "--max-states {0}")
    @ValueSource(strings = {"0", "-5"})
    void stateLimit_nonsense_refused(String limit) {
        assertEquals(2, sprag("prove", VAN, "--max-states", limit));
        assertTrue(err.toString().contains("is outside 1..2000000000"), err.toString());
    }

    @Test
    void unknownInterlock_nearlyRight_nearestIsNamed() {
        assertEquals(2, sprag("prove", VAN, "--without", "plug-presnt"));
        assertTrue(err.toString().contains("plug-present"), err.toString());
    }

    @Test
    void json_printed_isOneObject() throws Exception {
        sprag("prove", VAN, "--without", "plug-present", "--gate", "--json");
        JsonNode root = new ObjectMapper().readTree(out.toString());
        assertEquals("plug-present", root.get("without").get(0).asText());
        assertTrue(root.get("with_gate").asBoolean());
        assertTrue(root.get("complete").asBoolean());
        assertFalse(root.get("good").asBoolean());
        assertEquals(
                Promise.values().length + HistoryPromise.values().length,
                root.get("promises").size());
    }

    @Test
    void results_written_pageXmlJsonAndScenarios(@TempDir Path folder) throws Exception {
        Path to = folder.resolve("new");
        sprag("prove", VAN, "--without", "plug-present", "--out", to.toString());
        assertTrue(out.toString().strip().endsWith("Written to " + to), "the last line says where");

        Element suite = (Element) DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(to.resolve("junit.xml").toFile())
                .getElementsByTagName("testsuite")
                .item(0);
        int failures = suite.getElementsByTagName("failure").getLength();
        assertEquals(String.valueOf(failures), suite.getAttribute("failures"));
        assertEquals(String.valueOf(suite.getElementsByTagName("testcase").getLength()), suite.getAttribute("tests"));
        assertTrue(failures > 0);
        String page = Files.readString(to.resolve("proof.html"));
        PageCheck.standsAlone(page);
        assertTrue(page.contains("NO_DRIVE_WITH_A_PLUG") && page.contains("<svg"), "the page shows the lanes");
        assertTrue(page.contains("Not a safety case"), "and the caution");
        assertTrue(page.contains("What stands outside the proof") && page.contains("gate-vetoed"), "and its limits");
        assertTrue(page.contains("<details><summary>4 ticks</summary>"), "and witness runs");
        Path counterexample = to.resolve("counterexamples/no-drive-with-a-plug.toml");
        String runs = folder.resolve("runs").toString();
        String file = counterexample.toString();
        assertEquals(1, sprag("run", VAN, file, "--without", "plug-present", "--out", runs), "as the file says");
        assertTrue(out.toString().contains("parcel-van without plug-present"), out.toString());
        assertEquals(0, sprag("run", VAN, file, "--out", runs), "the sound car");
        assertTrue(Files.size(to.resolve("proof.json")) > 1000);
    }
}
