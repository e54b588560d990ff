package sprag.bench.evidence.margin;

import java.io.PrintWriter;
import java.util.Locale;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.Wrap;

/** Tells of the margins in a terminal of 80 columns. */
final class MarginText {

    private MarginText() {}

    static void print(PrintWriter out, Played played) {
        out.println();
        out.println(played.scenario().name());
        say(out, "  ", sentence(played));
        for (Spread spread : played.spreads()) {
            out.println();
            say(out, "  ", mark(spread) + " " + spread.expectation().text());
            say(out, "       ", figures(spread));
            if (!spread.influences().isEmpty()) {
                say(out, "       ", spread.why());
            }
            if (!spread.misses().isEmpty()) {
                say(out, "       ", spread.whyMissed());
            }
        }
    }

    private static void say(PrintWriter out, String indent, String text) {
        Wrap.at(text, Wrap.TERMINAL_COLUMNS, indent).forEach(out::println);
    }

    /** The answer in one sentence. */
    static String sentence(Played played) {
        Share share = played.share();
        return share.count() + " of " + share.of() + " cars meet every expectation: " + share.text()
                + ". The car as it is drawn " + (played.drawn().passed() ? "does." : "does not.");
    }

    private static String mark(Spread spread) {
        return spread.met().count() == spread.met().of()
                ? "all "
                : String.format(Locale.ROOT, "%3.0f%%", floor(spread.met()));
    }

    /** What is not all of them is never rounded to 100. */
    private static double floor(Share share) {
        return Math.floor(share.value() * 100);
    }

    /** The margins of an expectation in words. */
    static String figures(Spread spread) {
        int of = spread.met().of();
        String missed = spread.met().count() == of ? "" : (of - spread.met().count()) + " cars miss it; ";
        String unjudged = spread.unjudged() == 0 ? "" : spread.unjudged() + " of them could not be judged; ";
        return missed + unjudged + (spread.margins().length == 0 ? "no margin to measure" : margins(spread));
    }

    /** A quantile is of the cars that have a margin: a car that never got there has none, and says nothing of the others. */
    private static String margins(Spread spread) {
        String cars = spread.measuresEveryCar() ? "the cars" : "these cars";
        String who = spread.measuresEveryCar() ? "" : "of the " + spread.margins().length + " that have a margin: ";
        String drawn = Double.isNaN(spread.drawn()) ? "" : "; as drawn " + Numbers.text(spread.drawn(), spread.unit());
        if (spread.quantile(0) == spread.quantile(1)) {
            return who + "margin " + text(spread, 0) + " on every car" + drawn;
        }
        return who + "margin at worst " + text(spread, 0) + ", 5 % of " + cars + " below " + text(spread, 0.05)
                + ", half below " + text(spread, 0.5) + drawn;
    }

    static String text(Spread spread, double quantile) {
        return Numbers.text(spread.quantile(quantile), spread.unit());
    }
}
