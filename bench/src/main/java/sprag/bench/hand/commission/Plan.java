package sprag.bench.hand.commission;

import java.util.ArrayList;
import java.util.List;
import sprag.hal.board.BoardMap;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * All steps for a vehicle, made from its file, its wiring schedule and the board's map, and what they do not cover.
 *
 * @param steps the steps in their order
 * @param gaps what is not commissioned here, and why
 */
record Plan(List<BringUpStep> steps, List<Gap> gaps) {
    /**
     * Something that is not commissioned here.
     *
     * @param what which
     * @param why the reason
     */
    record Gap(String what, String why) {}

    static Plan of(StepContext f) {
        List<BringUpStep> steps = new ArrayList<>();
        steps.addAll(SafetySteps.safety(f));
        steps.addAll(SafetySteps.supplies(f));
        steps.add(SafetySteps.link(f));
        steps.addAll(InputSteps.all(f));
        if (!f.wired().outputs().isEmpty()) {
            steps.add(arming(f));
        }
        steps.addAll(OutputSteps.all(f));
        steps.addAll(CutOffSteps.all(f));
        steps.addAll(SequenceSteps.all(f));
        steps.addAll(InterlockSteps.all(f));
        return new Plan(List.copyOf(steps), gaps(f));
    }

    private static BringUpStep arming(StepContext f) {
        return new BringUpStep(
                "arming.deliberate",
                BringUpStep.Part.ARMING,
                "whoever arms the outputs has seen what they drive",
                List.of("read the map and the cautions below"),
                "the word is typed; outputs are driven only within a step, and only after its Enter",
                BringUpStep.Need.SAFE,
                Plan::arm);
    }

    private static StepResult arm(StepContext f) throws StepAbandoned {
        BoardMap map = f.pins().map();
        for (Output output : f.wired().outputs()) {
            String pin = map == null
                    ? ""
                    : map.outputs().stream()
                            .filter(p -> p.output() == output)
                            .map(p -> p.pin() + "  ")
                            .findFirst()
                            .orElse("");
            f.talk().say("  ", pin + output.key() + ": " + f.drawing().wiring(output.key()));
        }
        if (map != null) {
            map.cautions().forEach(caution -> f.talk().say("  CAUTION ", caution));
        }
        f.talk()
                .say(
                        "  CAUTION ",
                        "From here on outputs move real hardware. Traction battery absent and locked out, wheels"
                                + " clear, a second person at the supply, hands and tools away. The cut-off stays within reach.");
        f.talk().word("To let the outputs be driven, each after its own Enter:", "arm");
        return StepResult.passed("the word was typed after map and cautions were shown");
    }

    private static List<Gap> gaps(StepContext f) {
        List<Gap> gaps = new ArrayList<>();
        for (Signal signal : f.vehicle().fitted()) {
            boolean own = signal == Signal.LOOP_OVERRUN || signal == Signal.LINK_LOST;
            if (!own && !f.signals().contains(signal)) {
                gaps.add(new Gap("input " + signal.key(), absent(f)));
            }
        }
        for (Output output : Output.values()) {
            if (!f.wired().outputs().contains(output)) {
                gaps.add(new Gap("output " + output.key(), absent(f)));
            }
        }
        for (Interlock row : InterlockSteps.missing(f)) {
            gaps.add(
                    new Gap(
                            "interlock " + row.id(),
                            "not set off here: it needs live parts, heat, charge, or a pin that is absent; see prove and campaign"));
        }
        return gaps;
    }

    private static String absent(StepContext f) {
        return f.pins().map() == null ? "the wiring schedule has no wire for it" : "not in the board's map";
    }
}
