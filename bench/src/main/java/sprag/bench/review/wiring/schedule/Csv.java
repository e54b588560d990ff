package sprag.bench.review.wiring.schedule;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * A table of text by RFC 4180, as spreadsheets write it.
 *
 * <p>Accepted: a byte-order mark, any line ending, comma, semicolon or tab as separator, quoted cells with separators and
 * line breaks in them, empty rows, rows that begin with {@code #}. Everything else that cannot be read is a flaw.
 */
public final class Csv {
    /** A row that holds something, with the line it begins on. */
    public record Line(int number, List<String> cells) {}

    /** The largest file that is read, in bytes. */
    public static final int MOST_BYTES = 16 << 20;

    /** Rows below the heading. */
    static final int MOST_ROWS = 200_000;

    static final int MOST_CELLS = 100;
    static final int MOST_LETTERS = 2_000;

    private static final Charset OLD_SPREADSHEETS = Charset.forName("windows-1252");

    private final char separator;
    private final List<Line> lines = new ArrayList<>();
    private final List<Flaw> flaws = new ArrayList<>();

    private Csv(char separator) {
        this.separator = separator;
    }

    /** Reads the bytes of a file. */
    public static Csv parse(byte[] bytes) {
        String text = decode(bytes);
        Csv csv = new Csv(separatorOf(text));
        int zero = text.indexOf('\0');
        if (zero >= 0) {
            int line = 1
                    + (int) text.substring(0, zero)
                            .chars()
                            .filter(c -> c == '\n')
                            .count();
            csv.flaws.add(
                    new Flaw(line, "", "", "holds a zero byte, so it is no text", "Save the table as CSV in UTF-8."));
        } else {
            csv.readRows(text);
        }
        return csv;
    }

    char separator() {
        return separator;
    }

    public List<Line> lines() {
        return lines;
    }

    /** What cannot be read, with line and column. */
    public List<Flaw> flaws() {
        return flaws;
    }

    private static String decode(byte[] bytes) {
        if (startsWith(bytes, 0xFF, 0xFE)) {
            return new String(bytes, 2, bytes.length - 2, StandardCharsets.UTF_16LE);
        }
        if (startsWith(bytes, 0xFE, 0xFF)) {
            return new String(bytes, 2, bytes.length - 2, StandardCharsets.UTF_16BE);
        }
        int skip = startsWith(bytes, 0xEF, 0xBB, 0xBF) ? 3 : 0;
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(bytes, skip, bytes.length - skip))
                    .toString();
        } catch (CharacterCodingException notUtf8) {
            // Older spreadsheets write the code page of the country; every byte means something there.
            return new String(bytes, OLD_SPREADSHEETS);
        }
    }

    private static boolean startsWith(byte[] bytes, int... mark) {
        if (bytes.length < mark.length) {
            return false;
        }
        for (int i = 0; i < mark.length; i++) {
            if ((bytes[i] & 0xFF) != mark[i]) {
                return false;
            }
        }
        return true;
    }

    /** The separator that the heading uses most; a comma when it uses none. */
    private static char separatorOf(String text) {
        String heading = text.lines()
                .filter(line -> !line.isBlank() && !line.startsWith("#"))
                .findFirst()
                .orElse("");
        char best = ',';
        for (char candidate : new char[] {';', '\t'}) {
            best = count(heading, candidate) > count(heading, best) ? candidate : best;
        }
        return best;
    }

    private static long count(String line, char wanted) {
        return line.chars().filter(c -> c == wanted).count();
    }

    private void readRows(String text) {
        RowHandler rows = new RowHandler();
        CsvReader<Line> reader = CsvReader.builder()
                .fieldSeparator(separator)
                .commentStrategy(CommentStrategy.SKIP)
                .allowUnclosedQuote(false)
                .trimWhitespacesAroundQuotes(true)
                // The table itself says which row is too long or too short, with its remedy.
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .build(rows, text);
        try {
            for (Line line : reader) {
                boolean says = line.cells().stream().anyMatch(cell -> !cell.isEmpty());
                if (says && !line.cells().get(0).startsWith("#")) {
                    lines.add(line);
                }
                if (lines.size() > 1 + MOST_ROWS) {
                    flaws.add(new Flaw(
                            line.number(),
                            "",
                            "",
                            "is one row too many",
                            "At most " + MOST_ROWS + " are read: split the table, or leave rows out."));
                }
                if (!flaws.isEmpty()) {
                    return;
                }
            }
        } catch (CsvParseException unreadable) {
            flaws.add(new Flaw(
                    rows.line(),
                    "number " + (rows.cells.size() + 1),
                    "",
                    "has a quotation mark that is never closed, or text behind a closed one",
                    "Close it at the end of the cell, and double each one that belongs to the text."));
        }
    }

    /** Collects the cells of one row after the other and notes what is too large. */
    private final class RowHandler extends AbstractBaseCsvCallbackHandler<Line> {
        private List<String> cells = List.of();

        @Override
        protected void handleBegin(long startingLineNumber) {
            cells = new ArrayList<>();
        }

        @Override
        protected void handleField(int index, char[] buffer, int offset, int length, boolean quoted) {
            if (length > MOST_LETTERS) {
                String beginning = new String(buffer, offset, 20);
                flaw(index, beginning, "has " + length + " letters", "Write at most " + MOST_LETTERS + ".");
            } else if (index == MOST_CELLS) {
                flaw(index, "", "is one cell too many", "Write at most " + MOST_CELLS + " in a row.");
            } else if (index < MOST_CELLS) {
                cells.add(new String(buffer, offset, length).strip());
            }
        }

        private void flaw(int index, String found, String wrong, String remedy) {
            flaws.add(new Flaw(line(), "number " + (index + 1), found, wrong, remedy));
        }

        int line() {
            return (int) getStartingLineNumber();
        }

        @Override
        protected Line buildRecord() {
            return new Line(line(), cells);
        }
    }
}
