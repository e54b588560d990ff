package sprag.bench.hand.commission.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.InputFile;
import sprag.bench.vehicle.BadInput;

/**
 * A record of a commissioning as it was written, for those who only report it.
 *
 * @param rehearsal whether nothing real was touched
 * @param begun day and time
 * @param passed whether every step passed, without a change of files on the way
 * @param counts verdict and number of steps
 * @param fingerprints SHA-256 by name of file
 * @param steps part, title, verdict, what was seen, when
 * @param notCovered what was not commissioned, and why
 */
public record RecordSummary(
        Path file,
        String vehicle,
        boolean rehearsal,
        String board,
        String begun,
        boolean passed,
        String counts,
        Map<String, String> fingerprints,
        List<List<String>> steps,
        List<List<String>> notCovered) {
    /** The file in the folder of a record. */
    public static final String FILE = "commission.json";

    private static final int MOST_BYTES = 16 << 20;

    /** Reads a record.
     *
     * @param named {@code commission.json}, or the folder that holds it
     */
    public static RecordSummary read(Path named) throws BadInput {
        Path file = Files.isDirectory(named) ? named.resolve(FILE) : named;
        try {
            JsonNode root = JsonMapper.builder().build().readTree(InputFile.bytes(file, MOST_BYTES));
            if (root == null || !root.path("kind").asText().equals("commissioning")) {
                throw refused(file, 1, "is no record of a commissioning");
            }
            return of(file, root);
        } catch (InputFile.Refused e) {
            throw refused(file, 0, e.getMessage());
        } catch (JsonProcessingException e) {
            int line = e.getLocation() == null ? 1 : Math.max(1, e.getLocation().getLineNr());
            throw refused(file, line, "is not JSON");
        } catch (java.io.IOException e) {
            throw refused(file, 1, "is not JSON");
        }
    }

    private static RecordSummary of(Path file, JsonNode root) {
        Map<String, String> prints = new LinkedHashMap<>();
        root.path("fingerprints")
                .properties()
                .forEach(f -> prints.put(f.getKey(), f.getValue().asText()));
        List<String> counts = new ArrayList<>();
        root.path("counts")
                .properties()
                .forEach(f -> counts.add(f.getValue().asInt() + " " + f.getKey().replace('_', ' ')));
        return new RecordSummary(
                file,
                root.path("vehicle").asText(),
                root.path("rehearsal").asBoolean(true),
                root.path("board").asText(),
                root.path("begun").asText(),
                root.path("passed").asBoolean(false),
                String.join(", ", counts),
                prints,
                rows(root.path("steps"), "part", "title", "verdict", "seen", "at"),
                rows(root.path("not_covered"), "what", "why"));
    }

    private static List<List<String>> rows(JsonNode list, String... columns) {
        List<List<String>> rows = new ArrayList<>();
        for (JsonNode entry : list) {
            List<String> row = new ArrayList<>();
            for (String column : columns) {
                row.add(entry.path(column).asText());
            }
            rows.add(row);
        }
        return rows;
    }

    private static BadInput refused(Path file, int line, String what) {
        return BadInput.of(file, line, what, "Give the folder that sprag commission has written, or its " + FILE + ".");
    }
}
