package sprag.bench.review.report;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import sprag.bench.review.finding.Finding;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;

/**
 * A finding that somebody has looked at and lives with, from {@code accepted.toml} in the vehicle's folder. It stays visible;
 * it no longer stops.
 *
 * @param finding the finding's id
 * @param where what it is about, exactly as the finding says
 * @param reason why it is accepted; no name of a person
 * @param date when
 * @param line the line of the file
 */
public record Acceptance(String finding, String where, String reason, LocalDate date, int line) {
    /** The file's name. */
    public static final String FILE = "accepted.toml";

    private static final int SHORTEST_REASON = 12;

    /** Whether it is about a finding. */
    boolean covers(Finding other) {
        return other.id().equals(finding) && other.where().equals(where);
    }

    /** Reads a vehicle's acceptances; none when there is no file. */
    static List<Acceptance> read(Path folder) throws BadInput {
        Path file = folder.resolve(FILE);
        if (!Files.exists(file)) {
            return List.of();
        }
        Problems problems = new Problems();
        Section root = TomlFile.read(file, problems);
        List<Acceptance> all = new ArrayList<>();
        for (Section entry : root.list("accepted")) {
            String reason = entry.text("reason", null);
            if (!reason.isEmpty() && reason.length() < SHORTEST_REASON) {
                entry.problem(
                        "reason",
                        "a reason of " + SHORTEST_REASON + " letters or more",
                        "tell the next reader nothing",
                        "Say in a sentence why the finding does not matter here.");
            }
            all.add(new Acceptance(
                    entry.text("finding", null),
                    entry.text("where", null),
                    reason,
                    date(entry),
                    entry.line("finding")));
        }
        root.end();
        problems.throwIfAny();
        return all;
    }

    private static LocalDate date(Section entry) {
        Object written = entry.plainValue("date");
        if (written instanceof LocalDate) {
            return (LocalDate) written;
        }
        if (written instanceof OffsetDateTime) {
            return ((OffsetDateTime) written).toLocalDate();
        }
        entry.problem("date", "a date", "", "Write the day without quotes, as in 2026-03-31.");
        return LocalDate.EPOCH;
    }
}
