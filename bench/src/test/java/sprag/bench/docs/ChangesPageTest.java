package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import sprag.bench.cli.Version;

/** What a person reads before an update stays short: by version, files first, one line for each change. */
class ChangesPageTest {
    private static final Path PAGE = Path.of("../docs/changes.md");
    private static final List<String> SECTIONS = List.of("### File formats", "### Added", "### Changed", "### Fixed");
    private static final int LINE_CHARACTERS = 140;
    private static final int ENTRIES_OF_A_VERSION = 80;
    private static final Pattern TELLS_OF_BEFORE =
            Pattern.compile("\\b(was|were|did|had|before|earlier|no longer|now|used to)\\b", Pattern.CASE_INSENSITIVE);

    @Test
    void newestVersion_isTheOneThatTheBuildMakes() throws IOException {
        String built = new Version().getVersion()[0].replaceAll(".*?([0-9][0-9.]*[0-9]).*", "$1");
        assertEquals(built, versions().get(0).lines().findFirst().orElse(""), "the first heading of docs/changes.md");
    }

    @Test
    void versions_standNewestFirstAndOnce() throws IOException {
        List<int[]> told = new ArrayList<>();
        for (String version : versions()) {
            String name = version.lines().findFirst().orElse("");
            assertTrue(name.matches("[0-9]+[.][0-9]+[.][0-9]+"), "'## " + name + "' is no version such as 0.1.0");
            told.add(
                    Arrays.stream(name.split("[.]")).mapToInt(Integer::parseInt).toArray());
        }
        for (int v = 1; v < told.size(); v++) {
            assertTrue(
                    Arrays.compare(told.get(v), told.get(v - 1)) < 0, "a version stands below an older one, or twice");
        }
    }

    @Test
    void everyVersion_tellsFileFormatsFirst() throws IOException {
        for (String version : versions()) {
            List<String> headings =
                    version.lines().filter(line -> line.startsWith("#")).toList();
            assertEquals(SECTIONS.stream().filter(headings::contains).toList(), headings, "sections and their order");
            for (String section : version.split("(?m)^### .*$")) {
                assertTrue(!section.isBlank(), "a heading without an entry: leave it out");
            }
        }
    }

    /** A page that tells each change at length is a diary, and nobody reads it before an update. */
    @Test
    void everyChange_isOneLine() throws IOException {
        for (String version : versions()) {
            List<String> entries = version.substring(version.indexOf("###"))
                    .lines()
                    .filter(line -> !line.isBlank() && !line.startsWith("### "))
                    .toList();
            assertEquals(
                    List.of(),
                    entries.stream()
                            .filter(line -> !line.startsWith("- ") || line.length() > LINE_CHARACTERS)
                            .toList(),
                    "one line of up to " + LINE_CHARACTERS + " characters for each change, beginning with '- '."
                            + " Details go to the page of the command, reasons into comments and commits");
            assertTrue(
                    entries.size() <= ENTRIES_OF_A_VERSION,
                    entries.size() + " entries; a version may have " + ENTRIES_OF_A_VERSION
                            + ". Join those that concern one thing");
        }
    }

    /** Nobody had a version before the first one, so nothing in it can differ from what a reader knows. */
    @Test
    void firstVersion_tellsWhatItHoldsAndNotHowItGrew() throws IOException {
        List<String> all = versions();
        String first = all.get(all.size() - 1);
        assertTrue(!first.contains("### Changed") && !first.contains("### Fixed"), "nothing is older than this");
        assertEquals(
                List.of(),
                first.lines()
                        .filter(line -> line.startsWith("- "))
                        .filter(line -> TELLS_OF_BEFORE.matcher(line).find())
                        .toList(),
                "lines that tell how something was before");
    }

    private static List<String> versions() throws IOException {
        String[] parts = Pattern.compile("^## ", Pattern.MULTILINE).split(Files.readString(PAGE));
        assertTrue(parts.length > 1, "no version on the page");
        return Arrays.asList(parts).subList(1, parts.length);
    }
}
