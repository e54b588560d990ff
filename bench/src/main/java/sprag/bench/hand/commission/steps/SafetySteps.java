package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.commission.record.Measure;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.bench.page.Cautions;
import sprag.bench.review.pins.Drawing;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** What comes before anything is touched; the supplies; the link. */
public final class SafetySteps {
    /** The step that proves that no voltage is there. */
    public static final String ABSENCE = "safety.absence";

    /** What a meter may still show with the pack absent (V): common practice, far below what can hurt. */
    private static final double ABSENT_V = 5;
    /** UN R100, bonding of exposed conductive parts: below 0.1 ohm, with at least 0.2 A. */
    private static final double BOND_OHM = 0.1;
    /** The most that a 12 V side should show with its charger or converter on: common practice. */
    private static final double SUPPLY_MAX_V = 15;

    private static final double SIMULATED_INSULATION_KOHM = 2000;
    private static final double SIMULATED_BOND_OHM = 0.02;
    private static final long WATCH_MS = 1000;

    private static final Map<String, String> REMEDIES = Map.of(
            "safety.cautions",
            "Read the cautions and confirm them.",
            "safety.isolated",
            "Disconnect the traction battery, lock it out, lift the driven wheels.",
            ABSENCE,
            "A deadly voltage may be there. Keep hands and tools away from the traction side. Find its source from the"
                    + " drawing, disconnect it, wait for the capacitors to bleed down, measure again.",
            "safety.insulation",
            "Have the insulation measured with an insulation tester, and repair what it finds.",
            "safety.bonding",
            "Have the bonding measured, and repair what it finds.");

    private SafetySteps() {}

    /** What a person must do while a safety step has not passed. */
    public static String remedy(String id) {
        return REMEDIES.get(id);
    }

    static List<BringUpStep> safety(StepContext context) {
        return List.of(cautions(context), lockedOut(context), absence(context), insulation(context), bonding(context));
    }

    private static BringUpStep cautions(StepContext context) {
        return new BringUpStep(
                new StepDescription(
                        "safety.cautions",
                        StepDescription.Part.SAFETY,
                        "read the cautions",
                        List.of("read the cautions below"),
                        "you know the dangers and the local codes"),
                BringUpStep.Need.EARLIER_EACH_SESSION,
                () -> {
                    Console console = context.console();
                    Cautions.RULES.forEach(rule -> console.say("  - ", rule));
                    console.say("  - ", "Nothing here is certified. A passed record is a record, not an approval.");
                    console.typeWord("Only if you understand all of that and follow it:", "understood");
                    return StepResult.passed("confirmed in writing");
                });
    }

    private static BringUpStep lockedOut(StepContext context) {
        return new BringUpStep(
                new StepDescription(
                        "safety.isolated",
                        StepDescription.Part.SAFETY,
                        "the traction battery is disconnected and locked out",
                        List.of(
                                "disconnect the traction battery at both poles, or leave it out of the car",
                                "take its service plug out and lock it away",
                                "lift the driven wheels clear of the ground",
                                "keep a second person near who can cut the supply"),
                        "no source of traction voltage can come back unnoticed"),
                BringUpStep.Need.EARLIER_EACH_SESSION,
                () -> context.console().askYesNo("Is all of that done?", true)
                        ? StepResult.passed("confirmed")
                        : StepResult.failed("not done; do not continue before it is"));
    }

    private static BringUpStep absence(StepContext context) {
        double bleedS = context.vehicle().get(Parameter.BUS_BLEED_MS) / 1000;
        return new BringUpStep(
                new StepDescription(
                        ABSENCE,
                        StepDescription.Part.SAFETY,
                        "a meter shows that there is no traction voltage",
                        List.of(
                                "wait at least " + Numbers.text(bleedS) + " s: the capacitors bleed down",
                                "test the meter on a known source; gloves and meter must be rated for the pack",
                                "measure pole to pole, on the pack side and on the bus side",
                                "measure each pole to chassis, on both sides",
                                "test the meter again"),
                        "at most " + Numbers.text(ABSENT_V) + " V anywhere"),
                BringUpStep.Need.EARLIER_EACH_SESSION,
                () -> {
                    double volts = context.console().askNumber("The greatest voltage that you measured", "V", 0);
                    return byMeter(new Measure("greatest voltage", Math.abs(volts), "V", 0, ABSENT_V));
                });
    }

    private static BringUpStep insulation(StepContext context) {
        double ohmPerV = context.vehicle().get(Parameter.ISOLATION_MIN_OHM_PER_V);
        double packV = context.vehicle().get(Parameter.PACK_MAX_V);
        double minKohm = ohmPerV * packV / 1000;
        return new BringUpStep(
                new StepDescription(
                        "safety.insulation",
                        StepDescription.Part.SAFETY,
                        "the traction side is insulated from the chassis",
                        List.of(
                                "disconnect what the test voltage could damage, as its maker says",
                                "measure each pole of the traction side to chassis with an insulation tester, at a"
                                        + " voltage that its parts are rated for",
                                "discharge the line afterwards"),
                        String.format(
                                Locale.ROOT,
                                "at least %.1f kohm: %s ohm for each of %s V",
                                minKohm,
                                Numbers.text(ohmPerV),
                                Numbers.text(packV))),
                BringUpStep.Need.EARLIER,
                () -> {
                    double kohm = context.console()
                            .askNumber("The least resistance that you measured", "kohm", SIMULATED_INSULATION_KOHM);
                    return byMeter(new Measure("least resistance", kohm, "kohm", minKohm, Double.POSITIVE_INFINITY));
                });
    }

    private static BringUpStep bonding(StepContext context) {
        return new BringUpStep(
                new StepDescription(
                        "safety.bonding",
                        StepDescription.Part.SAFETY,
                        "every case of a traction part is bonded to the chassis",
                        List.of("measure from each case to the chassis with at least 0.2 A"),
                        "less than " + BOND_OHM + " ohm each (UN R100)"),
                BringUpStep.Need.EARLIER,
                () -> {
                    double ohm = context.console()
                            .askNumber("The greatest resistance that you measured", "ohm", SIMULATED_BOND_OHM);
                    return byMeter(new Measure("greatest resistance", ohm, "ohm", 0, BOND_OHM));
                });
    }

    private static StepResult byMeter(Measure measure) {
        return StepResult.judged("measured by hand", List.of(measure));
    }

    static List<BringUpStep> supplies(StepContext context) {
        List<BringUpStep> steps = new ArrayList<>();
        context.drawing().lowFuses().forEach(fuse -> steps.add(supply(context, fuse)));
        return steps;
    }

    private static BringUpStep supply(StepContext context, Drawing.Fuse fuse) {
        double minV = context.vehicle().get(Parameter.LV_LOW_V);
        String rating = Double.isNaN(fuse.ratedA()) ? "" : " of " + Numbers.text(fuse.ratedA()) + " A";
        String behind = fuse.behind().isEmpty() ? "behind it" : "on " + fuse.behind();
        String source = fuse.name().contains("dcdc") ? " (fed back from the 12 V side)" : "";
        return new BringUpStep(
                new StepDescription(
                        BringUpStep.idOf("supply", fuse.name()),
                        StepDescription.Part.SUPPLIES,
                        fuse.name() + rating + " feeds what it should",
                        List.of(
                                "check the rating printed on the fuse",
                                "put the fuse in",
                                "measure to ground " + behind + source),
                        Numbers.text(minV) + " to " + Numbers.text(SUPPLY_MAX_V) + " V, plus to ground"),
                BringUpStep.Need.NO_VOLTAGE,
                () -> {
                    double restV = context.isRehearsal() ? context.loom().farEnd(Signal.LV_SUPPLY_V) : 0;
                    double volts = context.console().askNumber("Voltage behind " + fuse.name(), "V", restV);
                    return byMeter(new Measure("voltage", volts, "V", minV, SUPPLY_MAX_V));
                });
    }

    static BringUpStep link(StepContext context) {
        return new BringUpStep(
                new StepDescription(
                        "link.fresh",
                        StepDescription.Part.LINK,
                        "every input keeps answering",
                        List.of("do nothing: the inputs are watched for " + WATCH_MS + " ms"),
                        "a fresh reading from every input"),
                BringUpStep.Need.NOTHING,
                () -> watchLink(context));
    }

    private static StepResult watchLink(StepContext context) throws StepAbandoned {
        context.driver().runMs(WATCH_MS);
        List<String> silent = context.signals().stream()
                .filter(signal -> Double.isNaN(context.driver().read(signal)))
                .map(Signal::key)
                .toList();
        String board = context.pins().identity();
        return silent.isEmpty()
                ? StepResult.passed(board + ", " + context.signals().size() + " inputs")
                : StepResult.failed(board + ": no reading from " + String.join(", ", silent));
    }
}
