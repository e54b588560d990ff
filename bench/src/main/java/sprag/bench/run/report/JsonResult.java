package sprag.bench.run.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Json;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.ScenarioStep;

/** Results for a program that reads them. */
public final class JsonResult {
    private JsonResult() {}

    /** Writes results. */
    public static String of(String vehicle, List<RunReport> runs, int planned, Path out) {
        ObjectNode root = Json.object();
        root.put("vehicle", vehicle);
        root.put(
                "passed",
                runs.size() == planned && runs.stream().allMatch(r -> r.result().passed()));
        root.put("not_played", planned - runs.size());
        root.put("out", out.toString());
        ArrayNode all = root.putArray("runs");
        runs.forEach(run -> run(all.addObject(), run));
        return root.toPrettyString();
    }

    private static void run(ObjectNode node, RunReport run) {
        RunResult result = run.result();
        node.put("scenario", result.scenario().name());
        node.put("title", result.scenario().about().title());
        node.put("passed", result.passed());
        node.put("interrupted", result.interrupted());
        node.put("end_s", result.endMs() / 1000.0);
        ArrayNode expectations = node.putArray("expectations");
        for (RunResult.Judged judged : result.judged()) {
            ExpectationVerdict verdict = judged.verdict();
            ObjectNode each = expectations.addObject();
            each.put("text", judged.expectation().text());
            each.put("outcome", verdict.outcome().name().toLowerCase(Locale.ROOT));
            each.put("detail", verdict.detail());
            Json.number(each, "margin", verdict.margin());
            each.put("margin_unit", verdict.unit());
            Json.number(each, "at_s", verdict.atS());
        }
        ArrayNode missed = node.putArray("steps_not_done");
        result.missed().stream().map(ScenarioStep::name).forEach(missed::add);
        ArrayNode acted = node.putArray("interlocks");
        for (Timeline.Acted each : run.timeline().acted()) {
            ObjectNode entry = acted.addObject();
            entry.put("name", each.rule().name());
            entry.put("from_s", each.fromMs() / 1000.0);
            entry.put("to_s", each.toMs() / 1000.0);
            entry.put("lasting", each.lasting());
        }
    }
}
