package sprag.bench.review.report;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import sprag.bench.cli.InputFile;
import sprag.bench.review.finding.Finding;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;

/**
 * A finding that somebody has looked at and lives with, from {@code accepted.toml} in the vehicle's folder. It stays visible;
 * it no longer stops.
 *
 * @param where what it is about, exactly as the finding says
 * @param reason why it is accepted; no name of a person
 * @param date when
 */
public record Acceptance(String finding, String where, String reason, LocalDate date, int line) {
    /** The file's name. */
    public static final String FILE = "accepted.toml";

    private static final int SHORTEST_REASON = 12;
    private static final int FEWEST_LETTERS = 5;
    private static final LocalDate FIRST_DAY = LocalDate.of(2000, 1, 1);

    /** Whether it is about a finding. */
    boolean covers(Finding other) {
        return other.id().equals(finding) && other.where().equals(where);
    }

    /**
     * Reads a vehicle's acceptances; none when there is no file.
     *
     * @param today the day of the review: an acceptance of a later day is refused
     */
    static List<Acceptance> read(Path folder, LocalDate today) throws BadInput {
        Path file = folder.resolve(FILE);
        if (!InputFile.isThere(file)) {
            return List.of();
        }
        Problems problems = new Problems();
        Section root = TomlFile.read(file, problems);
        List<Acceptance> all = new ArrayList<>();
        for (Section entry : root.list("accepted")) {
            String reason = entry.text("reason", null);
            if (entry.has("reason") && !isReason(reason)) {
                entry.problem(
                        "reason",
                        "a sentence of two words and " + SHORTEST_REASON + " letters or more",
                        "tell the next reader nothing",
                        "Say in a sentence why the finding does not matter here.");
            }
            all.add(new Acceptance(
                    entry.text("finding", null),
                    entry.text("where", null),
                    reason,
                    date(entry, today),
                    entry.line("finding")));
        }
        root.end();
        problems.throwIfAny();
        return all;
    }

    /** Blanks, dots and repeated letters fill a line without giving a reason. */
    private static boolean isReason(String text) {
        long words = Arrays.stream(text.split("[^\\p{L}]+"))
                .filter(word -> word.length() > 1)
                .distinct()
                .count();
        long letters = text.codePoints().filter(Character::isLetter).count();
        long different =
                text.codePoints().filter(Character::isLetter).distinct().count();
        return words >= 2 && letters >= SHORTEST_REASON && different >= FEWEST_LETTERS;
    }

    private static LocalDate date(Section entry, LocalDate today) {
        Object written = entry.plainValue("date");
        LocalDate date = written instanceof OffsetDateTime
                ? ((OffsetDateTime) written).toLocalDate()
                : written instanceof LocalDate ? (LocalDate) written : null;
        if (date == null) {
            entry.problem("date", "a date", "", "Write the day without quotes, as in 2026-03-31.");
            return LocalDate.EPOCH;
        }
        // A day more than today's: somewhere on earth it has begun already.
        if (date.isAfter(today.plusDays(1)) || date.isBefore(FIRST_DAY)) {
            entry.problem(
                    "date",
                    FIRST_DAY + " to " + today,
                    "record a look that nobody has taken",
                    "Write the day on which somebody looked at the finding; if it is right, set this computer's"
                            + " clock.");
        }
        return date;
    }
}
