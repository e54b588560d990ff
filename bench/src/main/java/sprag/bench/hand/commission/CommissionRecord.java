package sprag.bench.hand.commission;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * All of a commissioning at a moment: the plan and what came of it.
 *
 * @param vehicle whose car
 * @param description a sentence about it
 * @param plan the steps and the gaps
 * @param account what the journal says
 */
record CommissionRecord(String vehicle, String description, Plan plan, RecordState account) {
    /** What came of a step, or that nobody got to it. */
    RecordState.Done of(BringUpStep step, Map<String, RecordState.Done> done) {
        StepResult none = new StepResult(StepVerdict.NOT_DONE, "nobody got to it", List.of());
        return done.getOrDefault(step.id(), new RecordState.Done("", 0, none, false));
    }

    /** How many steps came out how. */
    Map<StepVerdict, Integer> counts() {
        Map<StepVerdict, Integer> counts = new EnumMap<>(StepVerdict.class);
        for (StepVerdict verdict : StepVerdict.values()) {
            counts.put(verdict, 0);
        }
        Map<String, RecordState.Done> done = account.done();
        plan.steps().forEach(step -> counts.merge(of(step, done).outcome().verdict(), 1, Integer::sum));
        return counts;
    }

    boolean isPassed() {
        return counts().get(StepVerdict.PASSED) == plan.steps().size()
                && account.changes().isEmpty();
    }

    /** In one line, e.g. {@code 80 passed, 1 failed, 2 skipped, 0 not done}. */
    String summary() {
        StringBuilder text = new StringBuilder();
        counts().forEach((verdict, count) -> text.append(text.isEmpty() ? "" : ", ")
                .append(count)
                .append(' ')
                .append(verdict.word()));
        return text.toString();
    }

    ObjectNode json() {
        RecordState.Beginning begun = account.beginning();
        ObjectNode root = new ObjectMapper().createObjectNode();
        root.put("kind", "commissioning").put("vehicle", vehicle).put("rehearsal", begun.rehearsal());
        root.put("board", begun.board()).put("begun", begun.at()).put("passed", isPassed());
        ObjectNode counts = root.putObject("counts");
        counts().forEach((verdict, count) -> counts.put(verdict.name().toLowerCase(Locale.ROOT), count));
        ObjectNode prints = root.putObject("fingerprints");
        account.prints().forEach(prints::put);
        account.changes().forEach(root.putArray("changed")::add);
        begun.faults().forEach(root.putArray("planted_faults")::add);
        Map<String, RecordState.Done> done = account.done();
        ArrayNode steps = root.putArray("steps");
        for (BringUpStep step : plan.steps()) {
            RecordState.Done last = of(step, done);
            ObjectNode node = steps.addObject();
            node.put("id", step.id()).put("part", step.part().heading).put("title", step.title());
            step.todo().forEach(node.putArray("do")::add);
            node.put("expect", step.expect())
                    .put("verdict", last.outcome().verdict().word());
            node.put("seen", last.outcome().seen()).put("at", last.at()).put("session", last.session());
            node.put("before_change", last.isBeforeChange());
            RecordState.write(node.putArray("measures"), last.outcome().measures());
        }
        ArrayNode gaps = root.putArray("not_covered");
        plan.gaps().forEach(gap -> gaps.addObject().put("what", gap.what()).put("why", gap.why()));
        account.notes().forEach(root.putArray("notes")::add);
        return root;
    }
}
