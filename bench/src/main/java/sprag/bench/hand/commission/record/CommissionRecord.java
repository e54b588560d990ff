package sprag.bench.hand.commission.record;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * The record of a commissioning as it stands now: the steps, and the last result of each.
 *
 * @param steps the steps in their order
 * @param gaps what is not commissioned
 */
public record CommissionRecord(
        String vehicle, String description, List<StepDescription> steps, List<Gap> gaps, RecordState state) {
    /** The record as it stands in {@code commission.json}; keys are {@code lower_snake}. */
    private record Sheet(
            String kind,
            String vehicle,
            boolean rehearsal,
            String board,
            String begun,
            boolean passed,
            Map<String, Integer> counts,
            Map<String, String> fingerprints,
            List<String> changed,
            List<String> plantedFaults,
            List<Row> steps,
            List<Gap> notCovered,
            List<String> notes) {}

    private record Row(
            String id,
            String part,
            String title,
            @JsonProperty("do") List<String> todo,
            String expect,
            StepVerdict verdict,
            String seen,
            String at,
            int session,
            boolean beforeChange,
            List<Measure> measures,
            List<Attempt> attempts) {
        static Row of(StepDescription step, RecordState.LastResult last, List<RecordState.LastResult> attempts) {
            StepResult result = last.result();
            return new Row(
                    step.id(),
                    step.part().heading,
                    step.title(),
                    step.todo(),
                    step.expect(),
                    result.verdict(),
                    result.seen(),
                    last.at(),
                    last.session(),
                    last.isBeforeChange(),
                    result.measures(),
                    attempts.stream().map(Attempt::of).toList());
        }
    }

    /** One time that a step was done. */
    private record Attempt(String at, int session, StepVerdict verdict, String seen, List<Measure> measures) {
        static Attempt of(RecordState.LastResult each) {
            StepResult result = each.result();
            return new Attempt(each.at(), each.session(), result.verdict(), result.seen(), result.measures());
        }
    }

    /** The last result of every step, in order; {@link StepVerdict#NOT_DONE} where there is none. */
    Map<StepDescription, RecordState.LastResult> results() {
        Map<String, RecordState.LastResult> done = state.results();
        Map<StepDescription, RecordState.LastResult> results = new LinkedHashMap<>();
        steps.forEach(step -> results.put(step, done.getOrDefault(step.id(), RecordState.LastResult.NONE)));
        return results;
    }

    /** How many steps have each verdict. */
    private Map<StepVerdict, Integer> counts() {
        Map<StepVerdict, Integer> counts = new EnumMap<>(StepVerdict.class);
        for (StepVerdict verdict : StepVerdict.values()) {
            counts.put(verdict, 0);
        }
        results().values().forEach(last -> counts.merge(last.result().verdict(), 1, Integer::sum));
        return counts;
    }

    public boolean isPassed() {
        return counts().get(StepVerdict.PASSED) == steps.size()
                && state.changedFiles().isEmpty();
    }

    /** In one line, e.g. {@code 80 passed, 1 failed, 2 skipped, 0 not done}. */
    public String summary() {
        return counts().entrySet().stream()
                .map(count -> count.getValue() + " " + count.getKey().word())
                .collect(Collectors.joining(", "));
    }

    /** The record for programs. */
    public String json() {
        JournalEntry.Begin begin = state.begin();
        Map<String, Integer> counts = new LinkedHashMap<>();
        counts().forEach((verdict, count) -> counts.put(verdict.key(), count));
        Map<String, List<RecordState.LastResult>> attempts = state.attempts();
        List<Row> rows = results().entrySet().stream()
                .map(e -> Row.of(
                        e.getKey(),
                        e.getValue(),
                        attempts.getOrDefault(e.getKey().id(), List.of())))
                .toList();
        Sheet sheet = new Sheet(
                "commissioning",
                vehicle,
                begin.rehearsal(),
                begin.board(),
                begin.at(),
                isPassed(),
                counts,
                state.fingerprints(),
                state.changedFiles(),
                begin.faults(),
                rows,
                gaps,
                state.history());
        return JsonMapper.builder()
                .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
                .build()
                .valueToTree(sheet)
                .toPrettyString();
    }
}
