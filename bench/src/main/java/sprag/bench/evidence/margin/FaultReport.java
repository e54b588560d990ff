package sprag.bench.evidence.margin;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Json;
import sprag.bench.cli.Wrap;
import sprag.bench.page.Page;

/**
 * Tells of the faults on all cars: in a terminal, as JSON, as a page.
 *
 * @param cars how many cars were played to the end
 */
record FaultReport(Fleet fleet, int cars, List<FaultSpread> faults) {
    private static final int SHOWN = 20;
    private static final int MOST_ROWS = 500;

    private record Row(String fault, String moment, String drawn, String counts, String words) {}

    List<FaultSpread> worse() {
        return faults.stream().filter(FaultSpread::isWorseThanDrawn).toList();
    }

    private String sentence() {
        return worse().size() + " of " + faults.size() + " faults at their moments fare worse on some of " + cars
                + " cars than on the car as it is drawn.";
    }

    void print(PrintWriter out) {
        out.println();
        Wrap.lines(sentence(), Wrap.TERMINAL_COLUMNS).forEach(out::println);
        worse().stream().limit(SHOWN).forEach(each -> {
            String text = each.moment() + " " + each.fault() + ": as drawn " + each.drawn() + "; " + each.counts()
                    + "; " + each.words();
            Wrap.at(text, Wrap.TERMINAL_COLUMNS, "  ").forEach(out::println);
        });
        if (worse().size() > SHOWN) {
            out.println("  ... and " + (worse().size() - SHOWN) + " more on the page");
        }
    }

    String json() {
        ObjectNode root = Json.object();
        root.put("vehicle", fleet.vehicle().name()).put("cars", cars).put("faults", faults.size());
        root.put("worse_than_drawn", worse().size());
        ArrayNode all = root.putArray("each");
        for (FaultSpread fault : faults) {
            ObjectNode node = all.addObject().put("fault", fault.fault()).put("moment", fault.moment());
            node.put("drawn", fault.drawn()).put("worse_than_drawn", fault.isWorseThanDrawn());
            fault.verdicts().forEach(node.putObject("verdicts")::put);
            node.put("never_there", fault.absent());
            node.put("noticed", fault.noticed().count())
                    .put("shown", fault.noticed().of());
            Json.number(node, "beyond_budget_ms", fault.overMs());
            node.put("worst_car", fault.worst());
        }
        return root.toPrettyString();
    }

    String page() {
        List<Row> rows = worse().stream()
                .limit(MOST_ROWS)
                .map(f -> new Row(f.fault(), f.moment().replace('_', ' '), f.drawn(), f.counts(), f.words()))
                .toList();
        return Page.of(
                FaultReport.class,
                "faults.html",
                cars + " cars of one drawing, on the simulated "
                        + fleet.vehicle().name(),
                "Faults on many cars: " + fleet.vehicle().name(),
                Map.of("sentence", sentence(), "rows", rows));
    }
}
