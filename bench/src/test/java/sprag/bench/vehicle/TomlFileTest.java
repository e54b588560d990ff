package sprag.bench.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Lines that are empty or comments only are left out before the parser sees them. Nobody must notice that. */
class TomlFileTest {
    private static final Path FILE = Path.of("some.toml");

    private static Section read(String text) throws BadInput {
        return TomlFile.parse(FILE, text, new Problems());
    }

    private static int line(String text) {
        return assertThrows(BadInput.class, () -> read(text)).problems().get(0).line();
    }

    @Test
    void comments_betweenKeys_keepTheLinesOfWhatFollows() throws BadInput {
        assertEquals(5, line("# one\r\n  # two\r\n\n\t# three\r\na = \n"));
        assertEquals(
                "b",
                read("# one\r\n[s] # two\r\n# three\r\na = 'b'\r\n")
                        .section("s")
                        .text("a", ""));
    }

    /** The first line is the place of a section that is not written. */
    @ParameterizedTest
    @CsvSource({"a, 6", "s.b, 11", "s.more, 8", "t, 1", "s.list, 13"})
    void key_betweenCommentsAndEmptyLines_hasItsLine(String key, int line) throws BadInput {
        String text = "# one\n\n# three\r\n \t\n\na = 1\n\n[s] # eight\n# nine\n\nb = 2\n\nlist = [\n\n# x\n4, 5]";
        assertEquals(line, read(text).line(key));
    }

    @Test
    void entryOfAList_behindEmptyLines_isToldInItsLine() throws BadInput {
        Problems problems = new Problems();
        Section root = TomlFile.parse(FILE, "\n\nlist = [\n\n# five\n1,\n2]\n", problems);
        root.noteAt("list", 1, "= 2", "1", "", "");
        assertEquals(7, problems.list().get(0).line());
    }

    /** Ten thousand lines of comments took minutes. */
    @Test
    void manyCommentsInARow_areReadAtOnce() {
        String text = "a = 1\n" + "# more\n\n".repeat(10_000) + "b = 2\n";
        Section root = assertTimeout(Duration.ofSeconds(60), () -> read(text));
        assertEquals(20_002, root.line("b"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"# a \u0001", "#\u007f", "  # \u0000"})
    void controlCharacter_inAComment_isRefusedInItsLine(String comment) {
        assertEquals(2, line("a = 1\n" + comment + "\n"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"\"\"\"one\n# two\n\"\"\"", "'''one\n# two\n'''"})
    void textOfSeveralLines_withANumberSign_keepsIt(String text) throws BadInput {
        assertEquals("one\n# two\n", read("# before\na = " + text + "\n").text("a", ""));
    }

    @ParameterizedTest
    @ValueSource(strings = {"\u2028", "\u2029", "\u0085", "\\n"})
    void textWithAnotherBreak_beforeANumberSign_keepsIt(String lineBreak) throws BadInput {
        String kept = lineBreak.equals("\\n") ? "\n" : lineBreak;
        assertEquals(
                "one" + kept + "# two",
                read("a = \"one" + lineBreak + "# two\"\n").text("a", ""));
    }

    /** The parser fails on these, instead of telling a slip. */
    @ParameterizedTest
    @ValueSource(strings = {"{ b = , }", "{ b = , c = 1 }"})
    void commaWithoutAValue_onWhichTheParserFails_isToldNearItsLine(String table) {
        int told = line("# one\r\nx = 1\na = " + table + "\n\n[s]\n" + "c = 2\n".repeat(50));
        assertTrue(told >= 3 && told <= 5, "line " + told);
    }
}
