package sprag.bench.review.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import sprag.bench.cli.Json;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.formula.VoltageBand;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.JudgedFinding;
import sprag.bench.review.sizing.Calculation;

/** The review for a program. */
public final class JsonPage {
    private JsonPage() {}

    /** Writes the review. Returns one JSON object, indented. */
    public static String of(CheckReport report) {
        ObjectNode root = Json.object();
        root.put("vehicle", report.vehicle().name());
        root.put("stops", report.count(Weight.STOP));
        root.put("cautions", report.count(Weight.CAUTION));
        root.put("notes", report.count(Weight.NOTE));
        root.put("accepted", report.accepted());
        root.put("pins", report.pins());
        VoltageBand band = VoltageBand.of(report.vehicle());
        ObjectNode voltage = root.putObject("voltage");
        voltage.put("pack", band.title);
        voltage.put("changes", band.changes);
        voltage.put("source", band.source);
        ArrayNode findings = root.putArray("findings");
        report.findings().forEach(j -> findings.add(finding(j)));
        ArrayNode calculations = root.putArray("calculations");
        report.calculations().forEach(c -> calculations.add(calculation(c)));
        ObjectNode lost = root.putObject("lost_cover");
        report.lostCover().forEach((signal, words) -> lost.put(signal.key(), words));
        return root.toPrettyString() + "\n";
    }

    private static ObjectNode finding(JudgedFinding judged) {
        Finding finding = judged.finding();
        ObjectNode node = Json.object();
        node.put("id", finding.id());
        node.put("weight", finding.weight().word());
        node.put("where", finding.where());
        node.put("file", finding.place().file());
        node.put("line", finding.place().line());
        node.put("sentence", finding.sentence());
        node.put("why", finding.why());
        ObjectNode numbers = node.putObject("numbers");
        finding.numbers().forEach((name, value) -> Json.number(numbers, name, value));
        node.put("source", finding.source());
        if (judged.isAccepted()) {
            ObjectNode accepted = node.putObject("accepted");
            accepted.put("date", judged.acceptance().date().toString());
            accepted.put("reason", judged.acceptance().reason());
        }
        return node;
    }

    private static ObjectNode calculation(Calculation sum) {
        ObjectNode node = Json.object();
        node.put("id", sum.id());
        node.put("title", sum.title());
        node.put("formula", sum.formula());
        ObjectNode inputs = node.putObject("inputs");
        sum.inputs().forEach(i -> Json.number(inputs, i.name(), i.value()));
        Json.number(node, "result", sum.result().value());
        if (sum.limit() != null) {
            node.put("limit_is", sum.isAtMost() ? "at most" : "at least");
            node.put("limit_name", sum.limit().name());
            Json.number(node, "limit", sum.limit().value());
        }
        node.put("unit", sum.result().unit());
        Json.number(node, "margin", sum.margin());
        node.put("verdict", sum.verdict().name().toLowerCase(java.util.Locale.ROOT));
        node.put("source", sum.source());
        return node;
    }
}
