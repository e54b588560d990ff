package sprag.bench.vehicle;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.regex.Pattern;
import org.tomlj.Toml;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.KeptLines;

/** A TOML file as it was read, for any kind of file a person edits. */
public final class TomlFile {
    /** The largest file that is read. The largest shipped one has a fiftieth of it. */
    static final int MOST_BYTES = 1 << 20;

    /** A line with nothing or with a comment only. A character that TOML forbids stays to be refused. */
    private static final Pattern SAYS_NOTHING = Pattern.compile("[ \\t]*(#[\\t\\x20-\\x7E\\x80-\\x{10FFFF}]*+)?\\r?");

    private static final char BYTE_ORDER_MARK = '\uFEFF';

    private TomlFile() {}

    /**
     * Reads a file. What cannot be read, and every slip of the syntax, goes to the problems.
     *
     * @param problems where mistakes go, also those found later through the section
     * @throws BadInput when the file cannot be read or is not TOML, with all slips of the syntax
     */
    public static Section read(Path file, Problems problems) throws BadInput {
        try {
            byte[] bytes = InputFile.bytes(file, MOST_BYTES);
            return parse(file, decode(file, bytes, problems), problems);
        } catch (InputFile.Refused e) {
            problems.add(file, e.getMessage(), e.remedy());
            throw new BadInput(problems.list());
        }
    }

    private static String decode(Path file, byte[] bytes, Problems problems) throws BadInput {
        ByteBuffer from = ByteBuffer.wrap(bytes);
        CharBuffer to = CharBuffer.allocate(bytes.length + 1);
        CoderResult result = StandardCharsets.UTF_8.newDecoder().decode(from, to, true);
        String text = to.flip().toString();
        if (result.isError()) {
            int line = 1 + (int) text.chars().filter(c -> c == '\n').count();
            String what = "is no text in UTF-8: byte " + (from.position() + 1) + " begins no letter";
            problems.add(
                    new Problem(file, line, 1, "", what, "UTF-8", "", "Save it as UTF-8, or take that letter out."));
            throw new BadInput(problems.list());
        }
        // Some editors begin a file with a mark that no person sees.
        return text.startsWith(String.valueOf(BYTE_ORDER_MARK)) ? text.substring(1) : text;
    }

    /**
     * Reads a text as if it stood in a file.
     *
     * @param problems where mistakes go, also those found later through the section
     * @throws BadInput when the text is not TOML, with all slips of the syntax
     */
    public static Section parse(Path file, String text, Problems problems) throws BadInput {
        KeptLines kept = kept(text);
        TomlParseResult result = parsed(kept.text());
        if (result == null || result.hasErrors()) {
            kept = KeptLines.all(text); // for messages that quote what stands there
            result = parsed(text);
        }
        if (result == null) {
            int line = linesUntilItFails(text);
            String what = "cannot be read as TOML: a value, a comma or a bracket is not where it belongs";
            problems.add(new Problem(file, line, 1, "", what, "TOML", "", "Look at this line and at those above it."));
            throw new BadInput(problems.list());
        }
        for (TomlParseError error : result.errors()) {
            String what = error.getMessage().replaceAll("\\s*\\R\\s*", " ");
            int line = error.position().line();
            int column = error.position().column();
            problems.add(new Problem(file, line, column, "", what, "TOML", "", "Write it as TOML asks for."));
        }
        if (result.hasErrors()) {
            throw new BadInput(problems.list());
        }
        return new Section(file, result, kept, "", problems);
    }

    /** Null where the parser does not get over a slip of the syntax: it fails on {@code { a = , }}, for one. */
    private static TomlParseResult parsed(String text) {
        try {
            return Toml.parse(text);
        } catch (RuntimeException e) {
            return null;
        }
    }

    /** The first line with which the parser fails. The slip stands there or above: it may need more text to fail. */
    private static int linesUntilItFails(String text) {
        String[] lines = text.split("\r?\n", -1);
        int good = 0;
        int bad = lines.length;
        while (bad - good > 1) {
            int middle = (good + bad) >>> 1;
            boolean fails = parsed(String.join("\n", Arrays.asList(lines).subList(0, middle))) == null;
            bad = fails ? middle : bad;
            good = fails ? good : middle;
        }
        return bad;
    }

    /** The parser takes a hundred times as long for a file that explains each key. Within a text of several lines every line counts. */
    private static KeptLines kept(String text) {
        boolean hasTextOfSeveralLines = text.contains("\"\"\"") || text.contains("'''");
        return hasTextOfSeveralLines ? KeptLines.all(text) : KeptLines.without(SAYS_NOTHING, text);
    }
}
