package sprag.bench.explain;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.explain.Entry.Fact;
import sprag.bench.explain.Entry.Kind;

/** The keys and columns of all files that a person edits beside the values of a vehicle. */
final class FileEntries {
    private static final String FILE = "/explain/files.csv";

    private FileEntries() {}

    static List<Entry> all() {
        List<Entry> all = new ArrayList<>();
        try (InputStream in = FileEntries.class.getResourceAsStream(FILE);
                CsvReader<NamedCsvRecord> rows =
                        CsvReader.builder().fieldSeparator('|').ofNamedCsvRecord(in, StandardCharsets.UTF_8)) {
            for (NamedCsvRecord row : rows) {
                all.add(new Entry(
                        Kind.valueOf(row.getField("kind").toUpperCase(Locale.ROOT)),
                        row.getField("key"),
                        row.getField("meaning"),
                        List.of(new Fact("value", row.getField("value")))));
            }
            return all;
        } catch (IOException e) {
            throw new UncheckedIOException(FILE, e);
        }
    }
}
