package sprag.bench.review.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Json;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.JudgedFinding;

/** The review in SARIF 2.1.0 (OASIS), which editors and build servers show beside the lines of a file. */
public final class SarifPage {
    private static final String SCHEMA =
            "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";
    private static final String BASE = "VEHICLE";

    private SarifPage() {}

    /** Writes the review. Returns one JSON object, indented. */
    public static String of(CheckReport report) {
        ObjectNode root = Json.object();
        root.put("$schema", SCHEMA);
        root.put("version", "2.1.0");
        ObjectNode run = root.putArray("runs").addObject();
        Map<String, Finding> rules = new LinkedHashMap<>();
        report.findings().forEach(j -> rules.putIfAbsent(j.finding().id(), j.finding()));
        ObjectNode driver = run.putObject("tool").putObject("driver");
        driver.put("name", "sprag check");
        ArrayNode ruleNodes = driver.putArray("rules");
        rules.values().forEach(f -> ruleNodes.add(rule(f)));
        String folder =
                report.vehicle().folder().toAbsolutePath().normalize().toUri().toString();
        run.putObject("originalUriBaseIds").putObject(BASE).put("uri", folder.endsWith("/") ? folder : folder + "/");
        run.put("columnKind", "unicodeCodePoints");
        ArrayNode results = run.putArray("results");
        List<String> ids = new ArrayList<>(rules.keySet());
        report.findings()
                .forEach(j -> results.add(result(j, ids.indexOf(j.finding().id()))));
        return root.toPrettyString() + "\n";
    }

    private static ObjectNode rule(Finding finding) {
        ObjectNode rule = Json.object();
        rule.put("id", finding.id());
        String why = finding.why().isEmpty() ? finding.id().replace('-', ' ') : finding.why();
        rule.putObject("shortDescription").put("text", finding.id().replace('-', ' '));
        rule.putObject("fullDescription").put("text", why + ". Source: " + finding.source() + ".");
        rule.putObject("defaultConfiguration").put("level", finding.weight().sarifLevel);
        return rule;
    }

    private static ObjectNode result(JudgedFinding judged, int ruleIndex) {
        Finding finding = judged.finding();
        ObjectNode result = Json.object();
        result.put("ruleId", finding.id());
        result.put("ruleIndex", ruleIndex);
        result.put("level", finding.weight().sarifLevel);
        result.putObject("message").put("text", finding.sentence());
        ObjectNode location = result.putArray("locations").addObject();
        ObjectNode physical = location.putObject("physicalLocation");
        physical.putObject("artifactLocation")
                .put("uri", finding.place().file())
                .put("uriBaseId", BASE);
        if (finding.place().line() > 0) {
            physical.putObject("region").put("startLine", finding.place().line());
        }
        location.putArray("logicalLocations").addObject().put("fullyQualifiedName", finding.where());
        result.putObject("partialFingerprints").put("findingAndPlace/v1", finding.id() + "@" + finding.where());
        if (judged.isAccepted()) {
            ObjectNode suppression = result.putArray("suppressions").addObject();
            suppression.put("kind", "external");
            suppression.put("status", "accepted");
            suppression.put(
                    "justification",
                    judged.acceptance().date() + ": " + judged.acceptance().reason());
        }
        return result;
    }
}
