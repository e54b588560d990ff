package sprag.bench.commission;

import java.util.List;
import java.util.Map;

/** Goes through the plan: what has passed is left alone, everything else is done, written down, and told. */
final class Session {
    private final Floor floor;
    private final Plan plan;
    private final Account account;
    private boolean safe = true;
    private boolean armed;

    Session(Floor floor, Plan plan, Account account) {
        this.floor = floor;
        this.plan = plan;
        this.account = account;
    }

    /** Does what is left.
     *
     * @return false when it was stopped
     */
    boolean run() {
        Map<String, Account.Done> before = account.done();
        List<Step> left =
                plan.steps().stream().filter(s -> !hasPassed(before, s)).toList();
        if (left.isEmpty()) {
            floor.talk().say("Every step has passed; nothing is left to do.");
            return true;
        }
        explain();
        account.session(floor.pins().identity());
        floor.rest();
        Step.Part part = null;
        for (Step step : plan.steps()) {
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

    private static boolean hasPassed(Map<String, Account.Done> done, Step step) {
        Account.Done last = done.get(step.id());
        return last != null && last.outcome().verdict() == Verdict.PASSED;
    }

    private void explain() {
        floor.talk()
                .say("At each question: Enter or the answer; s skips the step (s and a reason), f says that it"
                        + " failed (f and what was seen), q stops. A later --resume goes on where this ended.");
    }

    /** One step; false when whoever does it stops. */
    private boolean go(Step step) {
        Talk talk = floor.talk();
        talk.say("");
        talk.say("[" + (plan.steps().indexOf(step) + 1) + "/" + plan.steps().size() + "] " + step.id() + " - "
                + step.title());
        step.todo().forEach(todo -> talk.say("  - ", todo));
        talk.say("  = ", step.expect());
        floor.bed().about(step.id());
        Outcome outcome;
        try {
            outcome = refusal(step);
            outcome = outcome == null ? step.work().run(floor) : outcome;
        } catch (Left e) {
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
    private Outcome refusal(Step step) {
        String unsafe = safe ? "" : "a safety step has not passed since this start";
        String unarmed = armed ? "" : "the outputs were not armed since this start";
        String why = switch (step.need()) {
            case SAFE -> unsafe;
            case ARMED -> unarmed;
            case PROVED -> unarmed.isEmpty() ? unproved() : unarmed;
            default -> "";
        };
        return why.isEmpty() ? null : new Outcome(Verdict.NOT_DONE, "refused: " + why, List.of());
    }

    /** The supervisor drives several contactors by itself: each must have been shown to be the right one. */
    private String unproved() {
        Map<String, Account.Done> done = account.done();
        List<String> open = plan.steps().stream()
                .filter(s -> s.part() == Step.Part.CUT_OFF || isContactor(s))
                .filter(s -> !hasPassed(done, s))
                .map(Step::id)
                .toList();
        return open.isEmpty() ? "" : "not yet passed: " + String.join(", ", open);
    }

    private static boolean isContactor(Step step) {
        return Supervised.COILS.stream().anyMatch(coil -> step.id().equals(Step.idOf("output", coil.key())));
    }

    private void note(Step step, Outcome outcome) {
        boolean passed = outcome.verdict() == Verdict.PASSED;
        if (step.need() == Step.Need.EACH_SESSION) {
            safe &= passed;
        } else if (step.need() == Step.Need.SAFE) {
            armed = passed;
        }
    }
}
