package sprag.bench.hand.commission;

import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import sprag.bench.hand.commission.record.RecordState;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.bench.hand.commission.record.StepVerdict;
import sprag.bench.hand.commission.steps.BringUpStep;
import sprag.bench.hand.commission.steps.Console;
import sprag.bench.hand.commission.steps.Contactors;
import sprag.bench.hand.commission.steps.Plan;
import sprag.bench.hand.commission.steps.SafetySteps;
import sprag.bench.hand.commission.steps.StepContext;

/** Goes through the plan. Steps that have passed are left out; every other step is done, written down and told. */
final class BringUpSession {
    private final StepContext context;
    private final Console console;
    private final Plan plan;
    private final RecordState state;
    private final SafetyGate gate;
    private final Set<String> passedNow = new HashSet<>();
    private boolean armed;

    BringUpSession(StepContext context, Plan plan, RecordState state) {
        this.context = context;
        this.console = context.console();
        this.plan = plan;
        this.gate = new SafetyGate(plan.steps());
        this.state = state;
    }

    /** Does the steps that remain. Returns false when it was stopped. */
    boolean run() {
        Map<String, RecordState.LastResult> before = state.results();
        if (plan.steps().stream().allMatch(step -> hasPassed(before, step))) {
            console.say("Every step has passed; nothing is left to do.");
            return true;
        }
        console.say(
                "At each question press Enter or type the answer. Other letters: s and a reason skips the step; f and"
                        + " what you saw fails the step; q stops. You can continue later with --resume.");
        state.addSession(context.pins().identity());
        context.rest();
        StepDescription.Part part = null;
        for (BringUpStep step : plan.steps()) {
            boolean unsure = SafetyGate.isSafety(step) && !isPassedSafety(step);
            if (hasPassed(before, step) && !step.need().isRepeated() && !unsure) {
                continue;
            }
            if (step.text().part() != part) {
                part = step.text().part();
                console.say("");
                console.say("== " + part.heading);
            }
            if (!doStep(step)) {
                return false;
            }
        }
        return true;
    }

    private static boolean hasPassed(Map<String, RecordState.LastResult> results, BringUpStep step) {
        return results.containsKey(step.id()) && results.get(step.id()).hasPassed();
    }

    /** One step; false when the person stops the session. */
    private boolean doStep(BringUpStep step) {
        StepDescription text = step.text();
        console.say("");
        console.say("[" + (plan.steps().indexOf(step) + 1) + "/" + plan.steps().size() + "] " + text.id() + " - "
                + text.title());
        text.todo().forEach(todo -> console.say("  - ", todo));
        console.say("  = ", text.expect());
        context.driver().nameStep(text.id());
        StepResult result;
        try {
            result = refusal(step);
            result = result == null ? step.work().run() : result;
        } catch (StepAbandoned e) {
            if (e.endsSession()) {
                console.say("Stopped before " + text.id() + " was done.");
                return false;
            }
            result = e.result();
        } finally {
            context.rest();
        }
        remember(step, result);
        state.addStep(text.id(), result);
        console.say("  ", result.verdict().word().toUpperCase(Locale.ROOT) + ": " + result.seen());
        result.measures().forEach(measure -> console.say("    ", measure.text()));
        tellConsequence(step, result);
        return true;
    }

    /** Why a step must not be done now, null when it may. */
    private StepResult refusal(BringUpStep step) {
        String why = gate.refusal(step, this::isPassedSafety);
        boolean needsArming = step.need() == BringUpStep.Need.ARMED || step.need() == BringUpStep.Need.PROVED;
        if (why.isEmpty() && needsArming && !armed) {
            why = "the outputs were not armed in this session";
        }
        if (why.isEmpty() && step.need() == BringUpStep.Need.PROVED) {
            why = unproved();
        }
        return why.isEmpty() ? null : StepResult.of(StepVerdict.NOT_DONE, "refused: " + why);
    }

    /** A safety step that is asked in each session must have passed in this one; another, since the last change of a file. */
    private boolean isPassedSafety(BringUpStep step) {
        RecordState.LastResult last = state.results().get(step.id());
        boolean everPassed = last != null && last.hasPassed() && !last.isBeforeChange();
        return step.need().isRepeated() ? passedNow.contains(step.id()) : everPassed;
    }

    /** The supervisor drives several contactors by itself: each must have been shown to be the right one. */
    private String unproved() {
        Map<String, RecordState.LastResult> results = state.results();
        String open = String.join(
                ", ",
                plan.steps().stream()
                        .filter(s -> s.text().part() == StepDescription.Part.CUT_OFF || provesContactor(s))
                        .filter(s -> !hasPassed(results, s))
                        .map(BringUpStep::id)
                        .toList());
        return open.isEmpty() ? "" : "not yet passed: " + open;
    }

    private static boolean provesContactor(BringUpStep step) {
        return Contactors.ALL.stream().anyMatch(contactor -> step.proves(contactor.key()));
    }

    private void remember(BringUpStep step, StepResult result) {
        boolean passed = result.verdict() == StepVerdict.PASSED;
        if (passed) {
            passedNow.add(step.id());
        }
        if (step.need() == BringUpStep.Need.SAFE_EACH_SESSION) {
            armed = passed;
        }
    }

    /** Tells at once what a safety step that has not passed means for the rest. */
    private void tellConsequence(BringUpStep step, StepResult result) {
        if (SafetyGate.isSafety(step) && result.verdict() != StepVerdict.PASSED) {
            console.say("  STOP ", SafetySteps.remedy(step.id()));
            console.say("  ", "Until this step has passed, " + gate.waitingFor(step) + " steps are refused.");
        }
    }
}
