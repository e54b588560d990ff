package sprag.bench.hand.commission;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Numbers;
import sprag.bench.page.Cautions;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** What comes before anything is touched, the supplies, and the link. */
final class SafetySteps {
    /** What a meter may still show of an absent pack (V): common practice, well below what can hurt. */
    private static final double ABSENT_V = 5;
    /** UN R100, bonding of exposed conductive parts: below 0.1 ohm, with at least 0.2 A. */
    private static final double BOND_OHM = 0.1;
    /** The most that a 12 V side should show with its charger or converter on: common practice. */
    private static final double SUPPLY_MAX_V = 15;

    private static final double MEASURED_SOUND_KOHM = 2000;
    private static final long FRESH_MS = 1000;

    private SafetySteps() {}

    static List<BringUpStep> safety(StepContext f) {
        List<BringUpStep> steps = new ArrayList<>();
        steps.add(new BringUpStep(
                "safety.cautions",
                BringUpStep.Part.SAFETY,
                "the cautions are read and understood",
                List.of("read the cautions below"),
                "whoever works here knows the dangers and the local codes",
                BringUpStep.Need.EACH_SESSION,
                SafetySteps::cautions));
        steps.add(new BringUpStep(
                "safety.isolated",
                BringUpStep.Part.SAFETY,
                "the traction battery is out of the circuit and locked out",
                List.of(
                        "disconnect the traction battery at both poles, or leave it out of the car",
                        "take its service plug out and lock it away",
                        "put the driven wheels clear of the ground; keep a second person near who can cut the supply"),
                "no source of traction voltage can come back unnoticed",
                BringUpStep.Need.EACH_SESSION,
                floor -> floor.talk().yes("Is all of that so?", true)
                        ? StepResult.passed("confirmed")
                        : StepResult.failed("not so; do not go on before it is")));
        steps.add(new BringUpStep(
                "safety.absence",
                BringUpStep.Part.SAFETY,
                "absence of voltage is verified with a meter",
                List.of(
                        "wait until the capacitors have bled down: at least "
                                + Numbers.text(f.vehicle().get(Parameter.BUS_BLEED_MS) / 1000) + " s",
                        "prove the meter on a known source; gloves and meter rated for the pack",
                        "measure pole to pole and each pole to chassis, on the pack side and on the bus side",
                        "prove the meter again"),
                "no more than " + Numbers.text(ABSENT_V) + " V anywhere",
                BringUpStep.Need.EACH_SESSION,
                floor -> {
                    double volts = floor.talk().number("The greatest voltage that was measured", "V", 0);
                    return StepResult.judged(
                            "measured by hand",
                            List.of(new Measure("greatest voltage", Math.abs(volts), "V", 0, ABSENT_V)));
                }));
        steps.add(insulation(f));
        steps.add(new BringUpStep(
                "safety.bonding",
                BringUpStep.Part.SAFETY,
                "every case of a traction part is bonded to the chassis",
                List.of("measure from each case to the chassis with at least 0.2 A"),
                "less than " + BOND_OHM + " ohm each (UN R100)",
                BringUpStep.Need.NOTHING,
                floor -> {
                    double ohm = floor.talk().number("The greatest resistance that was measured", "ohm", 0.02);
                    return StepResult.judged(
                            "measured by hand", List.of(new Measure("greatest resistance", ohm, "ohm", 0, BOND_OHM)));
                }));
        return steps;
    }

    private static StepResult cautions(StepContext f) throws StepAbandoned {
        Cautions.RULES.forEach(rule -> f.talk().say("  - ", rule));
        f.talk().say("  - ", "Nothing here is certified; a passed record is a record, not an approval.");
        f.talk().word("Only if all of that is understood and followed:", "understood");
        return StepResult.passed("confirmed in writing");
    }

    private static BringUpStep insulation(StepContext f) {
        double leastKohm =
                f.vehicle().get(Parameter.ISOLATION_MIN_OHM_PER_V) * f.vehicle().get(Parameter.PACK_MAX_V) / 1000;
        return new BringUpStep(
                "safety.insulation",
                BringUpStep.Part.SAFETY,
                "the traction side is insulated from the chassis",
                List.of(
                        "disconnect what the test voltage could damage, as its maker says",
                        "measure each pole of the traction side to chassis with an insulation tester, at a voltage that its"
                                + " parts are rated for; discharge the line afterwards"),
                String.format(
                        Locale.ROOT,
                        "at least %.1f kohm: %s ohm for each of %s V",
                        leastKohm,
                        Numbers.text(f.vehicle().get(Parameter.ISOLATION_MIN_OHM_PER_V)),
                        Numbers.text(f.vehicle().get(Parameter.PACK_MAX_V))),
                BringUpStep.Need.NOTHING,
                floor -> {
                    double kohm =
                            floor.talk().number("The least resistance that was measured", "kohm", MEASURED_SOUND_KOHM);
                    return StepResult.judged(
                            "measured by hand",
                            List.of(new Measure(
                                    "least resistance", kohm, "kohm", leastKohm, Double.POSITIVE_INFINITY)));
                });
    }

    static List<BringUpStep> supplies(StepContext f) {
        double leastV = f.vehicle().get(Parameter.LV_LOW_V);
        List<BringUpStep> steps = new ArrayList<>();
        for (Drawing.Fuse fuse : f.drawing().lowFuses()) {
            String rating = Double.isNaN(fuse.ratedA()) ? "" : " of " + Numbers.text(fuse.ratedA()) + " A";
            steps.add(new BringUpStep(
                    BringUpStep.idOf("supply", fuse.name()),
                    BringUpStep.Part.SUPPLIES,
                    fuse.name() + rating + " feeds what it should",
                    List.of(
                            "check the rating printed on the fuse, put it in",
                            "measure to ground " + (fuse.behind().isEmpty() ? "behind it" : "on " + fuse.behind())
                                    + (fuse.name().contains("dcdc") ? " (fed back from the 12 V side)" : "")),
                    Numbers.text(leastV) + " to " + Numbers.text(SUPPLY_MAX_V) + " V, plus to ground",
                    BringUpStep.Need.NOTHING,
                    floor -> {
                        double volts = floor.talk().number("Voltage behind " + fuse.name(), "V", restV(floor));
                        return StepResult.judged(
                                "measured by hand", List.of(new Measure("voltage", volts, "V", leastV, SUPPLY_MAX_V)));
                    }));
        }
        return steps;
    }

    private static double restV(StepContext f) {
        return f.isRehearsal() ? f.loom().farEnd(Signal.LV_SUPPLY_V) : 0;
    }

    static BringUpStep link(StepContext f) {
        return new BringUpStep(
                "link.fresh",
                BringUpStep.Part.LINK,
                "every input answers, again and again",
                List.of("nothing: it is watched for " + FRESH_MS + " ms"),
                "no input unknown or old",
                BringUpStep.Need.NOTHING,
                floor -> {
                    floor.bed().let(FRESH_MS);
                    List<String> silent = floor.signals().stream()
                            .filter(s -> Double.isNaN(floor.bed().read(s)))
                            .map(Signal::key)
                            .toList();
                    String who = floor.pins().identity();
                    return silent.isEmpty()
                            ? StepResult.passed(who + ", " + floor.signals().size() + " inputs")
                            : StepResult.failed(who + ": no reading from " + String.join(", ", silent));
                });
    }
}
