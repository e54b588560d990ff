package sprag.bench.run.report;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import sprag.bench.cli.Wrap;
import sprag.bench.loop.trace.Frame;
import sprag.bench.loop.trace.History;
import sprag.bench.page.PageCheck;
import sprag.bench.scenario.Events;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.Strip;
import sprag.bench.scenario.Watcher;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** What is told of a run, in every form. */
class ReportTest {
    private static final String EXPECTATIONS = """
        [[expect]]
        text = "comes <on> & stays"
        state = "ON"
        by_s = 0.2

        [[expect]]
        text = "the bus stays low"
        signal = "bus_v"
        at_most = 10
        always = true

        [[expect]]
        text = "judged never"
        state = "ON"
        within_ms = 10
        after_state = "FAULT"
        """;

    static RunReport report(String words) throws Exception {
        Scenario scenario = Strip.scenario(EXPECTATIONS);
        Timeline timeline = new Timeline(Strip.CHANNELS);
        History history = new History(Strip.CHANNELS);
        List<Watcher> watchers =
                scenario.expectations().stream().map(Watcher::new).toList();
        long endMs = 0;
        timeline.done(scenario.steps().get(0), 0);
        for (Frame frame : Strip.frames(words)) {
            timeline.tick(frame);
            history.add(frame);
            watchers.forEach(w -> w.observe(frame, new Events()));
            endMs = frame.timeMs;
        }
        List<RunResult.Judged> judged = watchers.stream()
                .map(w -> new RunResult.Judged(w.expectation(), w.verdict()))
                .toList();
        Path shipped = Catalogue.installed().home().resolve("config").resolve("vehicles");
        Vehicle vehicle = VehicleReader.read(shipped.resolve("parcel-van"));
        RunResult result = new RunResult(scenario, "parcel-van", judged, List.of(), endMs, false);
        return new RunReport(vehicle, result, timeline, history);
    }

    @Test
    void timeline_aShortRun_tellsStepsStatesInterlocksAndCommands() throws Exception {
        List<String> told = report("OFF:0 ON:12 ON:12* ON:12* FAULT:0").timeline().entries().stream()
                .map(e -> e.timeMs() + e.kind().sign + e.full())
                .toList();
        assertEquals(
                List.of(
                        "0>go (key to 1)",
                        "100=ON (12 km/h)",
                        "100-contactor asked to close",
                        "200!bus-high takes the torque away: the bus is high",
                        "400=FAULT (0 km/h)",
                        "400-contactor asked to open"),
                told);
    }

    @Test
    void junit_parsed_countsPassesFailuresAndErrors() throws Exception {
        String xml = RunXml.of(List.of(report("OFF:0 ON:12 ON:5").result()));
        Document document = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(xml.getBytes(StandardCharsets.UTF_8)));
        Element suite = (Element) document.getElementsByTagName("testsuite").item(0);
        Element first = (Element) document.getElementsByTagName("testcase").item(0);
        assertAll(
                () -> assertEquals("testsuites", document.getDocumentElement().getTagName()),
                () -> assertEquals("parcel-van.t", suite.getAttribute("name")),
                () -> assertEquals("3", suite.getAttribute("tests")),
                () -> assertEquals("1", suite.getAttribute("failures")),
                () -> assertEquals("1", suite.getAttribute("errors")),
                () -> assertEquals("comes <on> & stays", first.getAttribute("name")),
                () -> assertEquals(1, document.getElementsByTagName("failure").getLength()),
                () -> assertEquals(1, document.getElementsByTagName("error").getLength()));
    }

    @Test
    void json_parsed_holdsEveryExpectationAndNoNaN() throws Exception {
        JsonNode root = new ObjectMapper()
                .readTree(JsonResult.of("parcel-van", List.of(report("OFF:0 ON:12 ON:5")), 1, Path.of("out")));
        JsonNode expectations = root.at("/runs/0/expectations");
        assertAll(
                () -> assertFalse(root.get("passed").asBoolean()),
                () -> assertEquals(3, expectations.size()),
                () -> assertEquals("fail", expectations.get(1).get("outcome").asText()),
                () -> assertEquals(-2, expectations.get(1).get("margin").asDouble(), 1e-9),
                () -> assertTrue(expectations.get(2).get("margin").isNull()));
    }

    @Test
    void page_anyRun_standsAloneAndEscapesWhatIsWrittenIntoIt() throws Exception {
        String page = HtmlReport.of(report("OFF:0 ON:12 ON:5"));
        PageCheck.standsAlone(page);
        assertAll(
                () -> assertTrue(page.contains("comes &lt;on&gt; &amp; stays"), "escaped"),
                () -> assertFalse(page.contains("<on>"), "nothing unescaped"),
                () -> assertTrue(page.contains("lethal direct current"), "the cautions"),
                () -> assertTrue(page.contains("<svg"), "plots"));
    }

    @Test
    void page_everyDrawing_marksStatesAndEvents() throws Exception {
        Document page = PageCheck.standsAlone(HtmlReport.of(report("OFF:0 ON:12* ON:5 FAULT:0 FAULT:0")));
        List<Element> drawings = PageCheck.all(page, "svg", "plot");
        assertTrue(drawings.size() >= 4, "states and speed, each wide and narrow");
        for (Element drawing : drawings) {
            String name = drawing.getAttribute("aria-label");
            assertEquals(
                    3,
                    PageCheck.all(drawing, "rect", "(band )?state").size()
                            + PageCheck.all(drawing, "g", "state").size(),
                    name);
            assertEquals(1, PageCheck.all(drawing, "g", "event interlock").size(), name);
            assertEquals(2, PageCheck.all(drawing, "g", "event state").size(), name);
        }
    }

    @Test
    void timeline_aStepThatBreaksSomething_isAFault() throws Exception {
        Scenario scenario = ScenarioReader.parse(
                Path.of("t.toml"),
                "[about]\ntitle = \"t\"\nwhy = \"w\"\nduration_s = 20\n"
                        + "[[do]]\nname = \"weld\"\nat_s = 0\nfault = \"contactor.welded\"\n" + EXPECTATIONS,
                Strip.VOCABULARY);
        Timeline timeline = new Timeline(Strip.CHANNELS);
        timeline.done(scenario.steps().get(0), 100);
        assertEquals(Entry.Kind.FAULT, timeline.entries().get(0).kind());
    }

    @Test
    void page_aRunOfThirtyThousandTicks_staysBelowOneMegabyte() throws Exception {
        StringBuilder words = new StringBuilder();
        IntStream.range(0, 30_000)
                .forEach(i -> words.append("ON:").append((i * 7919) % 400).append(' '));
        int length = HtmlReport.of(report(words.toString())).length();
        assertTrue(length < 1_000_000, "the page has " + length + " characters");
    }

    @Test
    void terminal_anyRun_keepsWithinEightyColumns() throws Exception {
        StringWriter text = new StringWriter();
        PrintWriter out = new PrintWriter(text);
        RunReport report = report("OFF:0 ON:12 ON:12* ON:12* FAULT:0");
        Terminal80 terminal = new Terminal80(out, false);
        terminal.run(report);
        terminal.story(report);
        terminal.table(List.of(report.result(), report.result()), 2);
        assertAll(text.toString().lines().map(line -> () -> assertTrue(line.length() <= 80, line)));
    }

    @Test
    void wrap_longWords_neverLosesOne() {
        assertAll(
                () -> assertEquals(List.of("a b", "c"), Wrap.lines("a b c", 3)),
                () -> assertEquals(List.of("abcdef", "g"), Wrap.lines("abcdef g", 3)),
                () -> assertEquals(List.of(""), Wrap.lines("", 3)));
    }
}
