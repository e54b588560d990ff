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
            List<String> measures) {}

    private record Part(String heading, List<Row> rows) {}

    private RecordPage() {}

    public static String of(CommissionRecord record) {
        List<Row> rows = record.results().entrySet().stream()
                .map(each -> row(each.getKey(), each.getValue()))
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
                "notes", record.state().history());
        String over = begun.rehearsal() ? "Rehearsal, nothing real" : "Record, traction battery absent";
        String title = record.vehicle() + ": commissioning of the low-voltage side";
        return Page.of(RecordPage.class, "record.html", over, title, model);
    }

    private static Row row(StepDescription step, RecordState.LastResult last) {
        StepVerdict verdict = last.result().verdict();
        String colour = switch (verdict) {
            case PASSED -> "pass";
            case FAILED -> "fail";
            default -> "error";
        };
        List<String> measures =
                last.result().measures().stream().map(Measure::text).toList();
        return new Row(step, verdict.key().replace('_', '-'), colour, verdict.word(), last, measures);
    }
}
