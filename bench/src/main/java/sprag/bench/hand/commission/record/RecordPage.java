package sprag.bench.hand.commission.record;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import sprag.bench.page.Page;

/** Writes the record of a commissioning as a page, for the screen and for paper. */
public final class RecordPage {
    private record Row(
            StepDescription step,
            String style,
            String colour,
            String verdict,
            RecordState.LastResult last,
            List<String> measures,
            List<Attempt> earlier) {}

    /** A result that a later one of the same step has replaced. */
    private record Attempt(String at, String verdict, String colour, String seen) {
        static Attempt of(RecordState.LastResult each) {
            StepVerdict verdict = each.result().verdict();
            return new Attempt(
                    each.at(), verdict.word(), colourOf(verdict), each.result().seen());
        }
    }

    private record Part(String heading, List<Row> rows) {}

    private RecordPage() {}

    public static String of(CommissionRecord record) {
        Map<String, List<RecordState.LastResult>> attempts = record.state().attempts();
        List<Row> rows = record.results().entrySet().stream()
                .map(each -> row(
                        each.getKey(),
                        each.getValue(),
                        attempts.getOrDefault(each.getKey().id(), List.of())))
                .toList();
        List<Part> parts = Arrays.stream(StepDescription.Part.values())
                .map(part -> new Part(
                        part.heading,
                        rows.stream().filter(row -> row.step().part() == part).toList()))
                .filter(part -> !part.rows().isEmpty())
                .toList();
        JournalEntry.Begin begun = record.state().begin();
        Map<String, Object> model = Map.of(
                "record", record,
                "begun", begun,
                "changes", String.join(", ", record.state().changedFiles()),
                "passed", record.isPassed(),
                "prints", record.state().fingerprints().entrySet(),
                "open", rows.stream().filter(row -> !row.last().hasPassed()).toList(),
                "parts", parts,
                "notes", record.state().history(),
                "mended", rows.stream().filter(RecordPage::isMended).toList());
        String over = begun.rehearsal() ? "Rehearsal, nothing real" : "Record, traction battery absent";
        String title = record.vehicle() + ": commissioning of the low-voltage side";
        return Page.of(RecordPage.class, "record.html", over, title, model);
    }

    private static boolean isMended(Row row) {
        return row.earlier().stream().anyMatch(attempt -> attempt.verdict().equals(StepVerdict.FAILED.word()));
    }

    private static Row row(StepDescription step, RecordState.LastResult last, List<RecordState.LastResult> attempts) {
        StepVerdict verdict = last.result().verdict();
        List<String> measures =
                last.result().measures().stream().map(Measure::text).toList();
        List<Attempt> earlier = attempts.stream()
                .limit(Math.max(0, attempts.size() - 1))
                .map(Attempt::of)
                .toList();
        String style = verdict.key().replace('_', '-');
        return new Row(step, style, colourOf(verdict), verdict.word(), last, measures, earlier);
    }

    private static String colourOf(StepVerdict verdict) {
        return switch (verdict) {
            case PASSED -> "pass";
            case FAILED -> "fail";
            default -> "error";
        };
    }
}
