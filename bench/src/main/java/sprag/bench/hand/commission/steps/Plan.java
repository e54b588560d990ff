package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import sprag.bench.hand.board.DecisiveReading;
import sprag.bench.hand.commission.pins.PinDriver;
import sprag.bench.hand.commission.record.Gap;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.hal.board.BoardMap;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * All steps for a vehicle, made from its file, its wiring schedule and the board's map.
 *
 * @param steps the steps in their order
 * @param gaps what they do not cover
 */
public record Plan(List<BringUpStep> steps, List<Gap> gaps) {
    public static Plan of(StepContext context) {
        List<BringUpStep> steps = new ArrayList<>();
        steps.addAll(SafetySteps.safety(context));
        steps.addAll(SafetySteps.supplies(context));
        steps.addAll(BusSteps.wires(context));
        steps.add(SafetySteps.link(context));
        steps.addAll(BusSteps.speakers(context));
        steps.addAll(InputSteps.all(context));
        if (!context.wired().outputs().isEmpty()) {
            steps.add(arming(context));
        }
        steps.addAll(OutputSteps.all(context));
        steps.addAll(CutOffSteps.all(context));
        steps.addAll(SequenceSteps.all(context));
        steps.addAll(InterlockSteps.all(context));
        return new Plan(List.copyOf(steps), gaps(context));
    }

    /** The steps as people read them. */
    public List<StepDescription> texts() {
        return steps.stream().map(BringUpStep::text).toList();
    }

    private static BringUpStep arming(StepContext context) {
        return new BringUpStep(
                new StepDescription(
                        "arming.deliberate",
                        StepDescription.Part.ARMING,
                        "see what the outputs drive, then arm them",
                        List.of("read the map and the cautions below"),
                        "you typed the word; outputs are driven only within a step, after its Enter"),
                BringUpStep.Need.SAFE_EACH_SESSION,
                () -> arm(context));
    }

    private static StepResult arm(StepContext context) throws StepAbandoned {
        Console console = context.console();
        for (Output output : context.wired().outputs()) {
            console.say("  ", output.key() + ": " + context.place(output));
        }
        BoardMap map = context.pins().map();
        if (map != null) {
            map.cautions().forEach(caution -> console.say("  CAUTION ", caution));
        }
        Set<Signal> real = EnumSet.noneOf(Signal.class);
        real.addAll(context.signals());
        real.removeAll(PinDriver.SIMULATED);
        DecisiveReading.invented(context.vehicle().settings()::has, real)
                .forEach(invented -> console.say("  CAUTION ", "While the supervisor runs, " + invented + "."));
        console.say(
                "  CAUTION ",
                "From here on outputs move real hardware. The traction battery must be disconnected and locked out,"
                        + " the wheels clear of the ground. Keep hands and tools away. Keep a second person at the supply"
                        + " and the cut-off within reach.");
        console.typeWord("To arm the outputs, each driven only after its own Enter:", "arm");
        return StepResult.passed("the word was typed after map and cautions were shown");
    }

    private static List<Gap> gaps(StepContext context) {
        List<Gap> gaps = new ArrayList<>();
        String absent = context.pins().map() == null
                ? "the wiring schedule has no wire for it"
                : "it is not in the board's map";
        for (Signal signal : context.vehicle().fitted()) {
            boolean own = signal == Signal.LOOP_OVERRUN || signal == Signal.LINK_LOST;
            if (!own && !context.signals().contains(signal)) {
                gaps.add(new Gap("input " + signal.key(), absent));
            }
        }
        for (Output output : Output.values()) {
            if (!context.wired().outputs().contains(output)) {
                gaps.add(new Gap("output " + output.key(), absent));
            }
        }
        for (Interlock interlock : InterlockSteps.missing(context)) {
            gaps.add(new Gap(
                    "interlock " + interlock.id(),
                    "it needs live parts, heat, charge, or a pin that is absent; prove and campaign show it"));
        }
        return gaps;
    }
}
