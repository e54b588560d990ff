package sprag.bench.run.report;

import sprag.bench.car.Quantity;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.History;

/** What a run did to contacts and plug, in words. */
final class HarmWords {
    private HarmWords() {}

    /** Some sentences; empty when nothing was kept of the run, or not these quantities. */
    static String of(History history) {
        if (history.size() == 0 || column(history, Quantity.CONTACTOR_PEAK_A) < 0) {
            return "";
        }
        double plugA = last(history, Quantity.PLUG_ARC_A);
        double movedM = last(history, Quantity.LIVE_PLUG_MOVE_M);
        return "The contactors carried at most " + show(history, Quantity.CONTACTOR_PEAK_A)
                + "; closing burnt " + show(history, Quantity.CONTACTOR_INRUSH_J)
                + " in their contacts, opening under load " + show(history, Quantity.CONTACTOR_ARC_J) + "."
                + (plugA > 0 ? " The plug was pulled under " + Numbers.text(plugA, "A") + "." : "")
                + (movedM > 0 ? " The car moved " + Numbers.text(movedM, "m") + " with the plug in." : "");
    }

    private static String show(History history, Quantity quantity) {
        return Numbers.show(last(history, quantity), quantity.unit);
    }

    private static double last(History history, Quantity quantity) {
        return history.value(history.size() - 1, column(history, quantity));
    }

    private static int column(History history, Quantity quantity) {
        return history.channels().indexOf(Source.QUANTITY, quantity.key());
    }
}
