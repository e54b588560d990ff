package sprag.bench.evidence.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import sprag.bench.evidence.campaign.CutSets.CutSet;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.page.Page;
import sprag.bench.page.Svg;
import sprag.bench.vehicle.Vehicle;

/** Writes what is enough for each hazard: as a page with a drawn tree each, and as a table for other programs. */
final class CutSetPage {
    private static final int MOST_DRAWN = 24;
    private static final int ROW_PX = 30;
    private static final int WIDTH_PX = 580;
    private static final int TOP_PX = 40;
    private static final int TRUNK_PX = 20;
    private static final int BOX_PX = 60;
    private static final int BOX_WIDTH_PX = 250;
    private static final int BOX_HEIGHT_PX = 22;

    private record Row(String faults, int order, String moments, String probability) {}

    private record Section(
            String hazard,
            String meaning,
            int singles,
            int pairs,
            String tree,
            String bound,
            List<Row> rows,
            int more) {}

    private CutSetPage() {}

    static String of(Vehicle vehicle, CutSets sets, FailureRates rates, String share) {
        List<Section> sections = new ArrayList<>();
        sets.ofHazard().forEach((hazard, all) -> sections.add(section(hazard, all, rates)));
        return Page.of(
                CutSetPage.class,
                "cutsets.html",
                "what is enough for each hazard, by the runs of a campaign on the simulated " + vehicle.name(),
                "Cut sets: " + vehicle.name(),
                Map.of(
                        "share",
                        share.isEmpty() ? List.of() : List.of(share),
                        "rated",
                        !rates.perHour().isEmpty(),
                        "hours",
                        (long) rates.hours(),
                        "sections",
                        sections));
    }

    private static Section section(String hazard, List<CutSet> all, FailureRates rates) {
        List<Row> rows = all.stream()
                .limit(MOST_DRAWN * 4L)
                .map(set -> new Row(
                        String.join(" and ", set.faults()),
                        set.order(),
                        String.join(", ", set.moments()).replace('_', ' '),
                        FailureRates.text(rates.probability(set.faults()))))
                .toList();
        int singles = (int) all.stream().filter(set -> set.order() == 1).count();
        return new Section(
                hazard,
                meaning(hazard),
                singles,
                all.size() - singles,
                tree(hazard, all),
                bound(all, rates),
                rows,
                all.size() - rows.size());
    }

    /** The harms by which a campaign measures a hazard. */
    private static String meaning(String hazard) {
        List<String> meanings = new ArrayList<>();
        for (Harm harm : Harm.values()) {
            if (harm.hazard.equals(hazard)) {
                meanings.add(harm.meaning);
            }
        }
        return String.join("; or ", meanings);
    }

    private static String bound(List<CutSet> all, FailureRates rates) {
        List<Double> known = all.stream()
                .map(set -> rates.probability(set.faults()))
                .filter(p -> !Double.isNaN(p))
                .toList();
        if (known.isEmpty()) {
            return "";
        }
        int without = all.size() - known.size();
        return FailureRates.text(FailureRates.any(known))
                + (without == 0 ? "" : ", without the " + without + " sets that have a fault whose rate is not known");
    }

    /** The hazard on top; below it any one row is enough, and in a row all boxes are needed. */
    static String tree(String hazard, List<CutSet> all) {
        int drawn = Math.min(MOST_DRAWN, all.size());
        int rows = drawn + (all.size() > drawn ? 1 : 0);
        Svg svg = new Svg("tree", hazard + ": any one row is enough", WIDTH_PX, TOP_PX + rows * ROW_PX + 8).begin();
        box(svg, TRUNK_PX - 10, 4, hazard + ", by any of these");
        int lastPx = TOP_PX + (rows - 1) * ROW_PX + BOX_HEIGHT_PX / 2;
        svg.add("<path class=\"axis\" fill=\"none\" d=\"M%d %dV%d\"/>", TRUNK_PX, 4 + BOX_HEIGHT_PX, lastPx);
        for (int i = 0; i < drawn; i++) {
            int yPx = TOP_PX + i * ROW_PX;
            int xPx = BOX_PX;
            svg.add("<path class=\"axis\" fill=\"none\" d=\"M%d %dH%d\"/>", TRUNK_PX, yPx + BOX_HEIGHT_PX / 2, BOX_PX);
            for (String fault : all.get(i).faults()) {
                if (xPx > BOX_PX) {
                    svg.add("<text class=\"mid\" x=\"%d\" y=\"%d\">and</text>", xPx - 18, yPx + 15);
                }
                box(svg, xPx, yPx, fault);
                xPx += BOX_WIDTH_PX;
            }
        }
        if (rows > drawn) {
            svg.add("<text x=\"%d\" y=\"%d\">%d more</text>", BOX_PX, lastPx + 4, all.size() - drawn);
        }
        return svg.end();
    }

    private static void box(Svg svg, int xPx, int yPx, String text) {
        svg.add(
                "<rect x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" fill=\"none\" stroke=\"currentColor\"/>",
                xPx, yPx, BOX_WIDTH_PX - 36, BOX_HEIGHT_PX);
        svg.add("<text x=\"%d\" y=\"%d\">%s</text>", xPx + 6, yPx + 15, text);
    }

    /** One line a set: hazard, order, faults, moments, probability. */
    static String csv(CutSets sets, FailureRates rates) {
        StringBuilder csv = new StringBuilder("hazard,order,faults,moments,probability\n");
        sets.ofHazard()
                .forEach((hazard, all) -> all.forEach(set -> csv.append(hazard)
                        .append(',')
                        .append(set.order())
                        .append(',')
                        .append(set.name())
                        .append(',')
                        .append(String.join(" ", set.moments()))
                        .append(',')
                        .append(FailureRates.text(rates.probability(set.faults())))
                        .append('\n')));
        return csv.toString();
    }
}
