package sprag.bench.evidence.margin;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Json;

/** The margins for a program that reads them. */
final class MarginJson {
    private static final double[] QUANTILES = {0, 0.05, 0.25, 0.5, 0.75, 0.95, 1};

    private MarginJson() {}

    static String of(Fleet fleet, long seed, List<Played> all, Path out) {
        ObjectNode root = Json.object();
        root.put("vehicle", fleet.vehicle().name()).put("cars", fleet.size()).put("seed", seed);
        root.put("written_to", out.toString());
        ArrayNode scenarios = root.putArray("scenarios");
        for (Played played : all) {
            ObjectNode node =
                    scenarios.addObject().put("scenario", played.scenario().name());
            node.put("drawn_passed", played.drawn().passed());
            share(node, played.share());
            ArrayNode expectations = node.putArray("expectations");
            played.spreads().forEach(spread -> expectation(expectations.addObject(), spread));
        }
        return root.toPrettyString();
    }

    private static void share(ObjectNode node, Share share) {
        node.put("met", share.count()).put("of", share.of());
        node.put("share", share.value()).put("share_low_95", share.low()).put("share_high_95", share.high());
    }

    private static void expectation(ObjectNode node, Spread spread) {
        node.put("text", spread.expectation().text()).put("unit", spread.unit()).put("unjudged", spread.unjudged());
        share(node, spread.met());
        Json.number(node, "drawn", spread.drawn());
        node.put("measured", spread.margins().length).put("worst_car", spread.worst());
        ObjectNode quantiles = node.putObject("quantiles");
        for (double quantile : QUANTILES) {
            Json.number(quantiles, String.valueOf(quantile), spread.quantile(quantile));
        }
        influences(node.putObject("influences"), spread.influences());
        influences(node.putObject("influences_on_met"), spread.misses());
    }

    private static void influences(ObjectNode node, Map<Factor, Influence> influences) {
        influences.forEach((factor, influence) -> node.putObject(factor.key())
                .put("rank_correlation", influence.rank())
                .put("first_order_index", influence.index()));
    }
}
