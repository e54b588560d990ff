package sprag.bench.hand.commission;

import java.util.List;
import java.util.Map;

/** Goes through the plan: what has passed is left alone, everything else is done, written down, and told. */
final class BringUpSession {
    private final StepContext floor;
    private final Plan plan;
    private final RecordState account;
    private boolean safe = true;
    private boolean armed;

    BringUpSession(StepContext floor, Plan plan, RecordState account) {
        this.floor = floor;
        this.plan = plan;
        this.account = account;
    }

    /** Does what is left.
     *
     * @return false when it was stopped
     */
    boolean run() {
        Map<String, RecordState.Done> before = account.done();
        List<BringUpStep> left =
                plan.steps().stream().filter(s -> !hasPassed(before, s)).toList();
        if (left.isEmpty()) {
            floor.talk().say("Every step has passed; nothing is left to do.");
            return true;
        }
        explain();
        account.session(floor.pins().identity());
        floor.rest();
        BringUpStep.Part part = null;
        for (BringUpStep step : plan.steps()) {
            if (hasPassed(before, step) && !step.need().isAskedAnew()) {
                continue;
            }
            if (step.part() != part) {
                part = step.part();
                floor.talk().say("");
                floor.talk().say("== " + part.heading);
            }
            if (!go(step)) {
                return false;
            }
        }
        return true;
    }

    private static boolean hasPassed(Map<String, RecordState.Done> done, BringUpStep step) {
        RecordState.Done last = done.get(step.id());
        return last != null && last.outcome().verdict() == StepVerdict.PASSED;
    }

    private void explain() {
        floor.talk()
                .say("At each question: Enter or the answer; s skips the step (s and a reason), f says that it"
                        + " failed (f and what was seen), q stops. A later --resume goes on where this ended.");
    }

    /** One step; false when whoever does it stops. */
    private boolean go(BringUpStep step) {
        Console talk = floor.talk();
        talk.say("");
        talk.say("[" + (plan.steps().indexOf(step) + 1) + "/" + plan.steps().size() + "] " + step.id() + " - "
                + step.title());
        step.todo().forEach(todo -> talk.say("  - ", todo));
        talk.say("  = ", step.expect());
        floor.bed().about(step.id());
        StepResult outcome;
        try {
            outcome = refusal(step);
            outcome = outcome == null ? step.work().run(floor) : outcome;
        } catch (StepAbandoned e) {
            if (e.stops()) {
                talk.say("Stopped before " + step.id() + " was done.");
                return false;
            }
            outcome = e.outcome();
        } finally {
            floor.rest();
        }
        note(step, outcome);
        account.step(step.id(), outcome);
        talk.say("  ", outcome.verdict().word().toUpperCase(java.util.Locale.ROOT) + ": " + outcome.seen());
        outcome.measures().forEach(m -> talk.say("    ", m.text()));
        return true;
    }

    /** Why a step must not be done now, null when it may. */
    private StepResult refusal(BringUpStep step) {
        String unsafe = safe ? "" : "a safety step has not passed since this start";
        String unarmed = armed ? "" : "the outputs were not armed since this start";
        String why = switch (step.need()) {
            case SAFE -> unsafe;
            case ARMED -> unarmed;
            case PROVED -> unarmed.isEmpty() ? unproved() : unarmed;
            default -> "";
        };
        return why.isEmpty() ? null : new StepResult(StepVerdict.NOT_DONE, "refused: " + why, List.of());
    }

    /** The supervisor drives several contactors by itself: each must have been shown to be the right one. */
    private String unproved() {
        Map<String, RecordState.Done> done = account.done();
        List<String> open = plan.steps().stream()
                .filter(s -> s.part() == BringUpStep.Part.CUT_OFF || isContactor(s))
                .filter(s -> !hasPassed(done, s))
                .map(BringUpStep::id)
                .toList();
        return open.isEmpty() ? "" : "not yet passed: " + String.join(", ", open);
    }

    private static boolean isContactor(BringUpStep step) {
        return Supervised.COILS.stream().anyMatch(coil -> step.id().equals(BringUpStep.idOf("output", coil.key())));
    }

    private void note(BringUpStep step, StepResult outcome) {
        boolean passed = outcome.verdict() == StepVerdict.PASSED;
        if (step.need() == BringUpStep.Need.EACH_SESSION) {
            safe &= passed;
        } else if (step.need() == BringUpStep.Need.SAFE) {
            armed = passed;
        }
    }
}
