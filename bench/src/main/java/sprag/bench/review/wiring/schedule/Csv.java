package sprag.bench.review.wiring.schedule;

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
 * <p>Taken as it comes: a byte-order mark, any line ending, comma, semicolon or tab as separator, quoted cells with
 * separators and line breaks in them, empty rows, rows that begin with {@code #}. What cannot be read is a flaw.
 */
public final class Csv {
    /** A row that holds something, with the line it begins on. */
    public record Line(int number, List<String> cells) {}

    private static final Charset OLD_SPREADSHEETS = Charset.forName("windows-1252");

    private final String text;
    private final char separator;
    private final List<Line> lines = new ArrayList<>();
    private final List<Flaw> flaws = new ArrayList<>();
    private final StringBuilder cell = new StringBuilder();
    private List<String> cells = new ArrayList<>();
    private int at;
    private int lineNumber = 1;
    private int rowBegan = 1;

    private Csv(String text) {
        this.text = text;
        this.separator = separatorOf(text);
    }

    /** Reads the bytes of a file. */
    public static Csv parse(byte[] bytes) {
        Csv csv = new Csv(decode(bytes));
        csv.scan();
        return csv;
    }

    char separator() {
        return separator;
    }

    public List<Line> lines() {
        return lines;
    }

    List<Flaw> flaws() {
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
        int[] count = new int[3];
        int start = 0;
        while (start < text.length()) {
            int end = text.indexOf('\n', start);
            String line = text.substring(start, end < 0 ? text.length() : end);
            if (!line.isBlank() && !line.startsWith("#")) {
                for (int i = 0; i < count.length; i++) {
                    char wanted = ",;\t".charAt(i);
                    count[i] = (int) line.chars().filter(c -> c == wanted).count();
                }
                break;
            }
            start = end < 0 ? text.length() : end + 1;
        }
        int best = count[1] > count[0] ? 1 : 0;
        return ",;\t".charAt(count[2] > count[best] ? 2 : best);
    }

    private void scan() {
        while (at < text.length()) {
            char c = text.charAt(at);
            if (c == '"' && cell.length() == 0) {
                quoted();
            } else if (c == separator) {
                endCell();
                at++;
            } else if (c == '\n' || c == '\r') {
                endRow();
                at += text.startsWith("\r\n", at) ? 2 : 1;
                rowBegan = ++lineNumber;
            } else {
                cell.append(c);
                at++;
            }
        }
        if (cell.length() > 0 || !cells.isEmpty()) {
            endRow();
        }
    }

    private void quoted() {
        int opened = lineNumber;
        at++;
        while (at < text.length()) {
            char c = text.charAt(at);
            if (c == '"' && text.startsWith("\"\"", at)) {
                cell.append('"');
                at += 2;
            } else if (c == '"') {
                at++;
                return;
            } else {
                if (c == '\n') {
                    lineNumber++;
                }
                cell.append(c);
                at++;
            }
        }
        flaws.add(new Flaw(
                opened,
                "number " + (cells.size() + 1),
                cell.substring(0, Math.min(20, cell.length())),
                "begins with a quotation mark that is never closed: close it, or double it if it belongs to the text"));
    }

    private void endCell() {
        cells.add(cell.toString().strip());
        cell.setLength(0);
    }

    private void endRow() {
        endCell();
        boolean empty = cells.stream().allMatch(String::isEmpty);
        if (!empty && !cells.get(0).startsWith("#")) {
            lines.add(new Line(rowBegan, cells));
        }
        cells = new ArrayList<>();
    }
}
