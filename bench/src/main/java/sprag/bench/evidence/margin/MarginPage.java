package sprag.bench.evidence.margin;

import java.util.List;
import java.util.Map;
import sprag.bench.cli.Numbers;
import sprag.bench.page.Page;

/** Writes the margins as a page. */
final class MarginPage {
    private record Chapter(String name, String title, String sentence, List<Row> rows) {}

    private record Row(
            String text,
            String style,
            String met,
            String figures,
            String why,
            List<Cause> causes,
            String whyMissed,
            List<Cause> causesOfMisses,
            String plot,
            String worst) {}

    private record Cause(String words, String key, String rank, String index) {}

    private MarginPage() {}

    static String of(Fleet fleet, long seed, List<Played> all) {
        return Page.of(
                MarginPage.class,
                "margin.html",
                fleet.size() + " cars of one drawing, on the simulated "
                        + fleet.vehicle().name(),
                "Margins: " + fleet.vehicle().name(),
                Map.of("chapters", all.stream().map(MarginPage::chapter).toList(), "cars", fleet.size(), "seed", seed));
    }

    private static Chapter chapter(Played played) {
        return new Chapter(
                played.scenario().name(),
                played.scenario().about().title(),
                MarginText.sentence(played),
                played.spreads().stream().map(spread -> row(played, spread)).toList());
    }

    private static Row row(Played played, Spread spread) {
        boolean all = spread.met().count() == spread.met().of();
        return new Row(
                spread.expectation().text(),
                all ? "pass" : "fail",
                Share.percent(spread.met().value()) + " %",
                MarginText.figures(spread),
                spread.why(),
                causes(spread.influences(), spread.strongest()),
                spread.whyMissed(),
                causes(spread.misses(), spread.strongestOfMisses()),
                Dots.svg(spread),
                spread.worst() < 0 ? "" : MarginCommand.fileName(played.scenario(), spread));
    }

    private static List<Cause> causes(Map<Factor, Influence> influences, List<Factor> strongest) {
        return strongest.stream()
                .map(factor -> cause(factor, influences.get(factor)))
                .toList();
    }

    private static Cause cause(Factor factor, Influence influence) {
        return new Cause(
                factor.words,
                factor.tolerance.key(),
                Numbers.text(Math.rint(influence.rank() * 100) / 100),
                Numbers.text(Math.rint(influence.index() * 100) / 100));
    }
}
