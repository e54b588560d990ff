package sprag.bench.review.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.cli.Numbers;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.Checker;
import sprag.bench.review.report.JudgedFinding;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.vehicle.Catalogue;

/** Terminal, page, JSON and SARIF tell the same review, each all of it. */
class ReviewPagesTest {
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    Path folder;

    private static CheckReport report(String name) throws Exception {
        return Checker.check(Catalogue.installed().vehicle(name));
    }

    /** A page as one line, so that a word may stand on the next line. */
    private static String flat(String text) {
        return text.replaceAll("\\s+", " ");
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart", "flawed-van"})
    void text_withAll_tellsEveryCalculationWithItsVerdictLimitAndMargin(String name) throws Exception {
        CheckReport report = report(name);
        String text = flat(TextPage.of(report, true));
        for (Calculation sum : report.calculations()) {
            String mark = Map.of("KEPT", "ok", "BROKEN", "!!", "INFORMS", "--", "UNKNOWN", "??")
                    .get(sum.verdict().name());
            String line = mark + " " + sum.title() + ": "
                    + (sum.lacks().isEmpty() ? sum.result().toString() : "cannot be judged, " + sum.lacks());
            if (sum.limit() != null && sum.lacks().isEmpty()) {
                line += (sum.isAtMost() ? ", at most " : ", at least ") + sum.limit();
            }
            assertTrue(text.contains(flat(line)), "lacks: " + line);
            if (!Double.isNaN(sum.margin())) {
                // a tenth of a per cent, as shown
                String margin = "margin " + Numbers.text(Math.round(sum.margin() * 1000) / 10.0) + " %";
                assertTrue(text.contains(flat(line) + ", " + margin), "lacks " + margin + " behind " + line);
            }
        }
        assertFalse(text.contains("are well"), "nothing is left out");
        assertTrue(text.contains("CALCULATIONS, with the margin to the limit"));
        assertTrue(text.endsWith("Local codes decide. "), "the caution stands at the end");
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "flawed-van"})
    void text_briefly_saysHowManyCalculationsAreLeftOut(String name) throws Exception {
        CheckReport report = report(name);
        String text = TextPage.of(report, false);
        long shown = report.calculations().stream()
                .filter(c -> c.verdict() == Calculation.Verdict.BROKEN || c.verdict() == Calculation.Verdict.UNKNOWN)
                .count();
        String kept = (report.calculations().size() - shown) + (shown > 0 ? " more" : "") + " are well; --all lists";
        assertTrue(flat(text).contains(" " + kept), kept);
        assertEquals(
                shown, text.lines().filter(l -> l.matches(" {2}(!!|\\?\\?) .*")).count());
        assertTrue(text.startsWith("Design review of " + name + "\n"), text.substring(0, 60));
        assertTrue(flat(text)
                .contains(flat(report.vehicle().description() + ". " + Summary.voltage(report.vehicle()) + ": ")));
        assertTrue(flat(text)
                .contains(report.schedule().wires().size() + " wires, "
                        + report.schedule().parts().size() + " parts, "
                        + report.calculations().size() + " calculations. " + flat(report.pins())));
    }

    @Test
    void text_tellsEveryFinding_whereItIs_whyItMatters_andItsSource() throws Exception {
        CheckReport report = report("flawed-van");
        String text = TextPage.of(report, false);
        String flat = flat(text);
        for (JudgedFinding judged : report.findings()) {
            Finding finding = judged.finding();
            String why = finding.why().isEmpty() ? "" : " Why it matters: " + finding.why() + ".";
            String told = finding.id() + " " + finding.place() + " " + finding.where() + " " + finding.sentence() + why
                    + " Source: " + finding.source() + ".";
            assertTrue(flat.contains(flat(told)), "lacks: " + told);
        }
        for (String heading : List.of("STOP: ", "CAUTION: ", "NOTE: ", "LOSS OF COVER: ")) {
            assertTrue(text.contains("\n\n" + heading), "no empty line before " + heading);
        }
        report.lostCover()
                .forEach((signal, lost) -> assertTrue(flat.contains(flat("without " + signal.key() + ": " + lost))));
    }

    @Test
    void json_hasEveryCalculationFindingAndLostSignal() throws Exception {
        CheckReport report = report("flawed-van");
        JsonNode root = JSON.readTree(JsonPage.of(report));
        assertEquals("flawed-van", root.get("vehicle").asText());
        assertEquals(report.pins(), root.get("pins").asText());
        assertEquals(report.count(Weight.STOP), root.get("stops").asLong());
        assertEquals(report.count(Weight.CAUTION), root.get("cautions").asLong());
        assertEquals(report.count(Weight.NOTE), root.get("notes").asLong());
        assertEquals(0, root.get("accepted").asLong());
        assertTrue(
                root.get("voltage").get("pack").asText().endsWith("V d.c."),
                root.get("voltage").toString());
        assertTrue(root.get("voltage").get("changes").asText().startsWith("voltage class"));
        assertTrue(root.get("voltage").get("source").asText().contains("UN R100"));
        assertEquals(report.lostCover().size(), root.get("lost_cover").size());
        assertEquals(report.calculations().size(), root.get("calculations").size());
        for (int i = 0; i < report.calculations().size(); i++) {
            Calculation sum = report.calculations().get(i);
            JsonNode node = root.get("calculations").get(i);
            assertEquals(sum.id(), node.get("id").asText());
            assertEquals(sum.title(), node.get("title").asText());
            assertEquals(sum.formula(), node.get("formula").asText());
            assertEquals(sum.source(), node.get("source").asText());
            assertEquals(sum.result().unit(), node.get("unit").asText());
            assertEquals(
                    sum.verdict().name().toLowerCase(Locale.ROOT),
                    node.get("verdict").asText());
            assertEquals(!Double.isNaN(sum.margin()), node.get("margin").isNumber(), sum.id());
            assertEquals(sum.limit() != null, node.has("limit_is"), sum.id());
            if (sum.limit() != null) {
                assertEquals(
                        sum.isAtMost() ? "at most" : "at least",
                        node.get("limit_is").asText());
                assertEquals(sum.limit().name(), node.get("limit_name").asText());
                assertEquals(
                        sum.limit().value(),
                        node.get("limit").asDouble(),
                        1e-3 * Math.abs(sum.limit().value()));
            }
            for (Calculation.Quantity input : sum.inputs()) {
                assertTrue(node.get("inputs").has(input.name()), sum.id() + " lacks " + input.name());
            }
        }
        for (int i = 0; i < report.findings().size(); i++) {
            Finding finding = report.findings().get(i).finding();
            JsonNode node = root.get("findings").get(i);
            assertEquals(finding.id(), node.get("id").asText());
            assertEquals(finding.place().line(), node.get("line").asInt());
            assertEquals(finding.why(), node.get("why").asText());
            assertEquals(finding.numbers().size(), node.get("numbers").size());
            assertFalse(node.has("accepted"));
        }
    }

    @Test
    void sarif_hasEachRuleOnce_withItsReason_andEveryFindingWithItsLine() throws Exception {
        CheckReport report = report("flawed-van");
        JsonNode root = JSON.readTree(SarifPage.of(report));
        assertTrue(root.get("$schema").asText().contains("sarif"));
        JsonNode run = root.get("runs").get(0);
        assertEquals("unicodeCodePoints", run.get("columnKind").asText());
        assertEquals("sprag check", run.get("tool").get("driver").get("name").asText());
        List<String> rules = new ArrayList<>();
        for (JsonNode rule : run.get("tool").get("driver").get("rules")) {
            String id = rule.get("id").asText();
            Finding first = report.findings().stream()
                    .map(JudgedFinding::finding)
                    .filter(f -> f.id().equals(id))
                    .findFirst()
                    .orElseThrow();
            String why = first.why().isEmpty() ? id.replace('-', ' ') : first.why();
            assertEquals(
                    why + ". Source: " + first.source() + ".",
                    rule.get("fullDescription").get("text").asText());
            assertEquals(
                    id.replace('-', ' '),
                    rule.get("shortDescription").get("text").asText());
            assertEquals(
                    first.weight().sarifLevel,
                    rule.get("defaultConfiguration").get("level").asText());
            rules.add(id);
        }
        assertEquals(rules.stream().distinct().toList(), rules);
        assertEquals(report.findings().size(), run.get("results").size());
        for (int i = 0; i < report.findings().size(); i++) {
            Finding finding = report.findings().get(i).finding();
            JsonNode result = run.get("results").get(i);
            assertEquals(finding.sentence(), result.get("message").get("text").asText());
            JsonNode place = result.get("locations").get(0);
            JsonNode region = place.get("physicalLocation").get("region");
            assertEquals(
                    finding.place().line(),
                    region == null ? 0 : region.get("startLine").asInt());
            assertEquals(
                    finding.where(),
                    place.get("logicalLocations")
                            .get(0)
                            .get("fullyQualifiedName")
                            .asText());
            assertEquals(
                    finding.id() + "@" + finding.where(),
                    result.get("partialFingerprints").get("findingAndPlace/v1").asText());
            assertFalse(result.has("suppressions"));
        }
    }

    @Test
    void acceptedFinding_isSaidToBeSo_inEveryForm() throws Exception {
        for (String file : List.of("vehicle.toml", "wiring.csv", "parts.csv")) {
            Files.copy(Catalogue.installed().vehicle("flawed-van").resolve(file), folder.resolve(file));
        }
        Finding first = report("flawed-van").findings().get(0).finding();
        Files.writeString(
                folder.resolve("accepted.toml"),
                "[[accepted]]\nfinding = \"" + first.id() + "\"\nwhere = \"" + first.where() + "\"\n"
                        + "reason = \"the part is on order and will be fitted\"\ndate = 2026-03-31\n");
        CheckReport report = Checker.check(folder);
        long stops = report("flawed-van").count(Weight.STOP);
        assertEquals(stops - 1, report.count(Weight.STOP));
        JsonNode json = JSON.readTree(JsonPage.of(report));
        assertEquals(1, json.get("accepted").asInt());
        JsonNode accepted = json.get("findings").get(0).get("accepted");
        assertEquals("2026-03-31", accepted.get("date").asText());
        assertEquals(
                "the part is on order and will be fitted",
                accepted.get("reason").asText());
        JsonNode suppression = JSON.readTree(SarifPage.of(report))
                .get("runs")
                .get(0)
                .get("results")
                .get(0)
                .get("suppressions")
                .get(0);
        assertEquals("external", suppression.get("kind").asText());
        assertEquals("accepted", suppression.get("status").asText());
        assertEquals(
                "2026-03-31: the part is on order and will be fitted",
                suppression.get("justification").asText());
        String text = flat(TextPage.of(report, false));
        assertTrue(
                text.contains(flat("ACCEPTED: found, looked at, and lived with stop " + first.id() + " " + first.where()
                        + " " + first.sentence() + " Accepted 2026-03-31: the part is on order and will be fitted ")));
        assertTrue(Summary.of(report).contains(", 1 accepted. Do not build it like this."), Summary.of(report));
    }

    @Test
    void html_numbersTheFindingsFromOne_andMarksEachOnTheDiagramOrBelowIt() throws Exception {
        CheckReport report = report("flawed-van");
        String html = HtmlPage.of(report);
        for (int i = 1; i <= report.findings().size(); i++) {
            assertTrue(html.contains("id=\"f" + i + "\""), "no finding " + i);
            assertTrue(html.contains("href=\"#f" + i + "\""), "nothing leads to finding " + i);
        }
        assertFalse(html.contains("id=\"f0\"")
                || html.contains("id=\"f" + (report.findings().size() + 1) + "\""));
        for (Calculation sum : report.calculations()) {
            String margin = Double.isNaN(sum.margin())
                    ? switch (sum.verdict()) {
                        case UNKNOWN -> "not judged";
                        case BROKEN -> "none";
                        default -> "";
                    }
                    : Numbers.text(Math.round(sum.margin() * 1000) / 10.0) + " %";
            assertTrue(html.contains(">" + margin + "<"), sum.id() + ": " + margin);
            if (sum.limit() != null) {
                String limit = (sum.isAtMost() ? "at most " : "at least ") + sum.limit();
                assertTrue(html.contains(sprag.bench.page.Html.escape(limit)), sum.id() + ": " + limit);
            }
        }
    }

    /** The last words: one is one, none and two are several; a stop outweighs what could not be judged. */
    @ParameterizedTest(name = "{0} stops, {1} cautions, {2} notes")
    @CsvSource(delimiter = '|', textBlock = """
            0 | 0 | 0 | 0 stops, 0 cautions, 0 notes. Nothing here says not to build it.
            1 | 2 | 1 | 1 stop, 2 cautions, 1 note. Do not build it like this.
            2 | 1 | 0 | 2 stops, 1 caution, 0 notes. Do not build it like this.
            """)
    void summary_countsInWords(int stops, int cautions, int notes, String words) throws Exception {
        CheckReport van = report("parcel-van");
        List<JudgedFinding> findings = new ArrayList<>();
        int[] counts = {stops, cautions, notes};
        for (Weight weight : Weight.values()) {
            for (int i = 0; i < counts[weight.ordinal()]; i++) {
                Finding finding = new Finding("id", weight, "w", new Finding.Place("f", 1), "S.", "", Map.of(), "s");
                findings.add(new JudgedFinding(finding, null));
            }
        }
        List<Calculation> judged = van.calculations().stream()
                .filter(c -> c.verdict() != Calculation.Verdict.UNKNOWN)
                .toList();
        CheckReport report = new CheckReport(van.vehicle(), findings, judged, van.lostCover(), van.schedule());
        assertEquals(words, Summary.of(report));
        assertEquals(words, TextPage.verdict(report));
    }

    @Test
    void summary_ofASizeThatLacksItsValues_saysSo() throws Exception {
        Path van = Catalogue.installed().vehicle("parcel-van");
        Files.writeString(
                folder.resolve("vehicle.toml"),
                Files.readString(van.resolve("vehicle.toml")).replace("pulse_j = 400", ""));
        String words = Summary.of(Checker.check(folder));
        assertTrue(
                words.endsWith(" size could not be judged for want of values. Nothing here says not to build it.")
                        || words.endsWith(
                                " sizes could not be judged for want of values. Nothing here says not to build it."),
                words);
        assertEquals(
                "The pack has 108 V when full, above 60 V d.c.",
                Summary.voltage(report("parcel-van").vehicle()));
    }

    /** A place that no line is to blame for is told without one. */
    @Test
    void place_withoutALine_isTheFile() {
        assertEquals("wiring.csv", new Finding.Place("wiring.csv", 0).toString());
        assertEquals("wiring.csv:1", new Finding.Place("wiring.csv", 1).toString());
    }
}
