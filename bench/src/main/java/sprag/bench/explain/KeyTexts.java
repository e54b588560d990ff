package sprag.bench.explain;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;

/** What the keys of a vehicle file mean and how a builder finds the values. The tables of the keys hold everything else. */
public final class KeyTexts {
    private static final String FILE = "/explain/keys.csv";

    /**
     * What a person needs to know to fill in a key.
     *
     * @param meaning what the value is
     * @param howToFind where a builder takes it from, or how it is measured
     */
    public record KeyText(String meaning, String howToFind) {}

    private KeyTexts() {}

    /** The texts of all keys by dotted key, in the order of the file. */
    public static Map<String, KeyText> all() {
        Map<String, KeyText> texts = new LinkedHashMap<>();
        try (InputStream in = KeyTexts.class.getResourceAsStream(FILE);
                CsvReader<NamedCsvRecord> rows =
                        CsvReader.builder().fieldSeparator('|').ofNamedCsvRecord(in, StandardCharsets.UTF_8)) {
            for (NamedCsvRecord row : rows) {
                KeyText before = texts.put(
                        row.getField("key"), new KeyText(row.getField("meaning"), row.getField("how to find it")));
                if (before != null) {
                    throw new IllegalStateException(FILE + " has " + row.getField("key") + " twice");
                }
            }
            return texts;
        } catch (IOException e) {
            throw new UncheckedIOException(FILE, e);
        }
    }
}
