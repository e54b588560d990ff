package sprag.bench.hand.commission;

import java.util.List;
import java.util.function.Predicate;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.steps.BringUpStep;
import sprag.bench.hand.commission.steps.SafetySteps;

/**
 * Which safety steps must have passed before a step. A step is refused while one of them has failed, was skipped or is not
 * done: nothing that a person types, and no option, passes it.
 */
final class SafetyGate {
    private final List<BringUpStep> steps;
    private final List<BringUpStep> safety;

    SafetyGate(List<BringUpStep> steps) {
        this.steps = steps;
        this.safety = steps.stream().filter(SafetyGate::isSafety).toList();
    }

    static boolean isSafety(BringUpStep step) {
        return step.text().part() == StepDescription.Part.SAFETY;
    }

    /** The safety steps that must have passed before a step. */
    List<BringUpStep> neededFor(BringUpStep step) {
        return switch (step.need()) {
            case NOTHING -> List.of();
            case EARLIER, EARLIER_EACH_SESSION -> safety.subList(0, safety.indexOf(step));
            case NO_VOLTAGE -> safety.subList(0, safety.indexOf(absence()) + 1);
            case SAFE, SAFE_EACH_SESSION, ARMED, PROVED -> safety;
        };
    }

    private BringUpStep absence() {
        return safety.stream()
                .filter(step -> step.id().equals(SafetySteps.ABSENCE))
                .findFirst()
                .orElseThrow();
    }

    /** Why a step must not be done, with what to do; empty when no safety step stands against it. */
    String refusal(BringUpStep step, Predicate<BringUpStep> hasPassed) {
        return neededFor(step).stream()
                .filter(needed -> !hasPassed.test(needed))
                .findFirst()
                .map(open -> open.id() + " has not passed. " + SafetySteps.remedy(open.id())
                        + " Then type q and continue with --resume: the safety steps are asked first")
                .orElse("");
    }

    /** How many steps wait for a safety step. */
    long waitingFor(BringUpStep open) {
        return steps.stream().filter(step -> neededFor(step).contains(open)).count();
    }
}
