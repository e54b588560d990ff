package sprag.bench.release;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Both launchers of a release refuse the same Java in the same words. Nobody runs the one for Windows here: its text is read. */
class LaunchersTest {
    private static final Path FOLDER = Path.of("src/release");

    private final String posix = read("start.sh");
    private final String windows = read("sprag.bat");

    @Test
    void leastVersion_isThatOfTheClasses_inBothLaunchers() throws IOException {
        String least = only("<maven.compiler.release>(\\d+)<", Files.readString(Path.of("../pom.xml")));
        assertEquals(least, only("-lt (\\d+) \\]", posix));
        assertEquals(least, only("LSS (\\d+) goto old", windows));
    }

    @Test
    void javaThatIsTooOldOrMissing_isToldInTheSameWords() {
        List<String> told = Pattern.compile("complain \"(.*)\"")
                .matcher(posix)
                .results()
                .map(found -> found.group(1))
                .map(words -> words.replace("$1", "a Java runtime, version 17").replace("${2:+ ($2)}", ""))
                .map(words -> words.replace("$java", "%java%").replace("$version", "%version%"))
                .toList();
        assertEquals(2, told.size(), "one for no Java, one for an old one");
        List<String> echoed = windows.lines()
                .filter(line -> line.startsWith("echo "))
                .map(line -> line.replace("echo sprag: ", "").replace(" 1>&2", ""))
                .toList();
        assertEquals(told, echoed);
    }

    /** The runtime of the archive needs no look at its version; any other does. */
    @Test
    void windows_everyJavaButThatOfTheArchive_isComparedBeforeTheStart() {
        List<String> lines = windows.lines().toList();
        List<String> found = lines.stream()
                .filter(line -> line.startsWith("if exist \"%java%\" "))
                .toList();
        assertEquals(
                List.of(
                        "if exist \"%java%\" goto start",
                        "if exist \"%java%\" goto version", "if exist \"%java%\" goto version"),
                found);
        int compare = lines.indexOf(":compare");
        assertTrue(lines.indexOf(":version") < compare && compare < lines.indexOf(":old"), windows);
        assertTrue(lines.indexOf(":old") < lines.indexOf(":start"), windows);
        assertEquals("exit /b 3", lines.get(lines.indexOf(":old") + 2), "the same status as in the other launcher");
    }

    private static String only(String pattern, String text) {
        Matcher found = Pattern.compile(pattern).matcher(text);
        assertTrue(found.find(), pattern);
        return found.group(1);
    }

    private static String read(String name) {
        try {
            return Files.readString(FOLDER.resolve(name));
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }
}
