package sprag.bench.drawing;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Json;
import sprag.bench.drawing.paper.SheetFont;
import sprag.bench.drawing.paper.SvgInk;
import sprag.bench.drawing.sheet.Listing;
import sprag.bench.drawing.sheet.NetFacts;
import sprag.bench.drawing.sheet.Sheet;
import sprag.bench.page.Page;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.JudgedFinding;

/** All sheets and tables as one page. */
final class DrawPage {
    private record Numbered(int number, Finding finding, boolean accepted) {}

    private record Drawn(int number, String title, String svg) {}

    private record Listed(String title, String hint, String file, List<String> heads, List<List<Page.Cell>> rows) {
        static Listed of(Listing listing) {
            return new Listed(
                    listing.title(),
                    listing.hint(),
                    listing.file(),
                    listing.heads(),
                    listing.rows().stream()
                            .map(row -> Page.cells(listing.heads(), row))
                            .toList());
        }
    }

    private DrawPage() {}

    static String of(Drawing drawing) {
        Map<String, Object> model = new HashMap<>();
        model.put("style", SheetFont.styleRule() + SvgInk.style());
        model.put(
                "sheets", drawing.sheets().stream().map(s -> drawn(drawing, s)).toList());
        model.put("findings", findings(drawing));
        model.put("summary", drawing.findingsWords());
        model.put("stops", drawing.report().stops());
        model.put("changes", drawing.changes());
        model.put("listings", drawing.listings().stream().map(Listed::of).toList());
        model.put("unknownLive", drawing.live());
        model.put("nets", json(drawing));
        model.put("checkSum", drawing.checkSum());
        return Page.of(
                DrawPage.class,
                "draw.html",
                "sheets to build from",
                "Wiring of " + drawing.report().vehicle().name(),
                model);
    }

    private static Drawn drawn(Drawing drawing, Sheet sheet) {
        return new Drawn(sheet.number(), sheet.title(), drawing.svg(sheet).inPage());
    }

    private static List<Numbered> findings(Drawing drawing) {
        List<Numbered> all = new ArrayList<>();
        int number = 0;
        for (JudgedFinding judged : drawing.report().findings()) {
            number++;
            if (judged.finding().weight() != Weight.NOTE) {
                all.add(new Numbered(number, judged.finding(), judged.isAccepted()));
            }
        }
        return all;
    }

    /** What the page says about a net that is clicked on. A closing tag in a name must not end the script. */
    private static String json(Drawing drawing) {
        ObjectNode all = Json.object();
        for (Map.Entry<Integer, NetFacts.Net> entry : drawing.nets().entrySet()) {
            NetFacts.Net net = entry.getValue();
            ObjectNode node = all.putObject(String.valueOf(entry.getKey()));
            node.put("names", net.names());
            node.put("wires", String.join(" ", net.wires()));
            node.put("voltage", net.voltage());
            node.put("guard", net.guard());
            node.put("feeds", net.feeds());
            ObjectNode live = node.putObject("live");
            net.live().forEach(live::put);
        }
        return all.toString().replace("<", "\\u003c");
    }
}
