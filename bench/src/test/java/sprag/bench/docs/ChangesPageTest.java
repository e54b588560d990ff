package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** What a person reads before an update keeps its order: by version, and what concerns files first. */
class ChangesPageTest {
    private static final List<String> SECTIONS = List.of("### File formats", "### Added", "### Changed", "### Fixed");

    @Test
    void everyVersion_tellsFileFormatsFirst() throws Exception {
        String page = Files.readString(Path.of("../docs/changes.md"));
        String[] versions = Pattern.compile("^## ", Pattern.MULTILINE).split(page);
        assertTrue(versions.length > 1, "no version on the page");
        for (int v = 1; v < versions.length; v++) {
            List<String> headings =
                    versions[v].lines().filter(line -> line.startsWith("### ")).toList();
            assertEquals(SECTIONS.stream().filter(headings::contains).toList(), headings, "sections and their order");
        }
    }

    @Test
    void formatChange_standsInTheSectionOfFormats() throws Exception {
        List<String> marked = Files.readString(Path.of("../docs/changes.md"))
                .lines()
                .filter(line -> line.contains("**(format)**"))
                .toList();
        assertEquals(List.of(), marked, "move these below the heading File formats; there they need no mark");
    }
}
