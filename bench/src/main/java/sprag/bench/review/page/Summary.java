package sprag.bench.review.page;

import sprag.bench.cli.Numbers;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.formula.VoltageBand;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** The last words of a review, the same on every page. */
public final class Summary {
    /** What a review is not. */
    static final String CAUTION =
            "A review of files finds what is written in them, no more. Before working on the traction"
                    + " side: contactors open, service switch out and kept, wait for the bus to bleed down, verify absence of voltage"
                    + " with a meter rated for it, gloves, a second person present. Local codes decide.";

    private Summary() {}

    /** How many findings of each weight, and what follows from them. */
    public static String of(CheckReport report) {
        long stops = report.count(Weight.STOP);
        long cautions = report.count(Weight.CAUTION);
        String counts = count(stops, "stop") + ", " + count(cautions, "caution") + ", "
                + count(report.count(Weight.NOTE), "note")
                + (report.accepted() > 0 ? ", " + report.accepted() + " accepted" : "") + ".";
        long unjudged = report.calculations().stream()
                .filter(sum -> sum.verdict() == Calculation.Verdict.UNKNOWN)
                .count();
        String open = unjudged > 0 ? count(unjudged, "size") + " could not be judged for want of values. " : "";
        String verdict = stops > 0 ? "Do not build it like this." : open + "Nothing here says not to build it.";
        return counts + " " + verdict;
    }

    /** How high the pack's voltage is. */
    static String voltage(Vehicle vehicle) {
        return "The pack has " + Numbers.text(vehicle.get(Parameter.PACK_MAX_V), "V") + " when full, "
                + VoltageBand.of(vehicle).title;
    }

    private static String count(long number, String word) {
        return number + " " + word + (number == 1 ? "" : "s");
    }
}
