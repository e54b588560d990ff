package sprag.bench.drawing.sheet;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** A table that a builder works from.
 *
 * @param title what it lists
 * @param file its name as a file, without the ending
 * @param hint what to know before it is used; may be empty
 * @param heads the headings of its columns
 * @param rows cells as text
 */
public record Listing(String title, String file, String hint, List<String> heads, List<List<String>> rows) {
    /** The table as a file of comma separated values. */
    public String csv() {
        return Stream.concat(Stream.of(heads), rows.stream())
                .map(row -> row.stream().map(Listing::quoted).collect(Collectors.joining(",")))
                .collect(Collectors.joining("\n", "", "\n"));
    }

    /** A cell that a table program would take for a formula gets a blank before it. */
    private static String quoted(String cell) {
        boolean formula = !cell.isEmpty() && "=+-@".indexOf(cell.charAt(0)) >= 0 && !cell.matches("-?[\\d.]+");
        String safe = formula ? " " + cell : cell;
        return safe.matches("[^,\"\n\r]*") ? safe : '"' + safe.replace("\"", "\"\"") + '"';
    }
}
