package sprag.bench.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.vehicle.Catalogue;

/** The site is whole: every page of the documents, every link and every anchor, and nothing from a network. */
class SiteTest {
    private static final Path HOME = Catalogue.installed().home();
    private static final Pattern LEADS = Pattern.compile("(?:href|src)=\"([^\"]*)\"");

    @TempDir
    static Path folder;

    private static List<SitePage> pages;

    @BeforeAll
    static void write() throws Exception {
        Site site = new Site(HOME);
        site.write(folder.resolve("site"));
        pages = site.pages();
    }

    @Test
    void everyDocument_isAPage_withATitleAndSections() throws Exception {
        TreeSet<String> wanted = new TreeSet<>(List.of("index.html", "developers.html"));
        try (Stream<Path> docs = Files.list(HOME.resolve("docs"))) {
            docs.filter(file -> file.toString().endsWith(".md")).forEach(file -> wanted.add(SitePage.fileOf(file)));
        }
        assertEquals(wanted, new TreeSet<>(pages.stream().map(page -> page.file).toList()));
        for (SitePage page : pages) {
            assertFalse(page.sections.isEmpty(), page.file);
            assertFalse(page.title.endsWith(".html"), page.file + " has no title");
        }
    }

    @Test
    void everyLink_leadsToAPageAnAnchorOrAFileOfTheArchive() throws Exception {
        List<String> dead = new ArrayList<>();
        for (SitePage page : pages) {
            String html = Files.readString(folder.resolve("site").resolve(page.file));
            Matcher leads = LEADS.matcher(html);
            while (leads.find()) {
                if (!arrives(page, leads.group(1))) {
                    dead.add(page.file + ": " + leads.group(1));
                }
            }
        }
        assertEquals(List.of(), dead);
    }

    private static boolean arrives(SitePage from, String link) throws Exception {
        if (link.contains("://")) {
            return false; // everything is read without a network
        }
        if (link.startsWith("../")) {
            // the archive has these folders beside the site
            return link.matches("\\.\\./(config|docs)/.*") && Files.exists(HOME.resolve(link.substring(3)));
        }
        String[] parts = link.split("#", 2);
        String file = parts[0].isEmpty() ? from.file : parts[0];
        Path to = folder.resolve("site").resolve(file);
        return Files.exists(to) && (parts.length == 1 || Files.readString(to).contains(" id=\"" + parts[1] + "\""));
    }

    @Test
    void headings_ofTheSameWords_haveAnchorsOfTheirOwn() {
        SitePage page = new SitePage(Path.of("docs/some.md"), "# Page\n\n## A part\n\none\n\n## A part\n\ntwo\n");
        assertEquals(
                List.of("some.html#page", "some.html#a-part", "some.html#a-part-1"),
                page.sections.stream().map(SitePage.Section::url).toList());
        assertEquals("two", page.sections.get(2).text());
    }

    @Test
    void markup_inADocument_isTextAndNoElement() {
        SitePage page = new SitePage(Path.of("docs/some.md"), "# Page\n\n<script>alert(1)</script>\n\nnext\n");
        assertFalse(page.html.contains("<script"), page.html);
        assertTrue(page.html.contains("&lt;script&gt;"), page.html);
    }

    @Test
    void searchedText_hasTheCellsOfTables() {
        String text = pages.stream()
                .filter(page -> page.file.equals("words.html"))
                .flatMap(page -> page.sections.stream())
                .map(SitePage.Section::text)
                .reduce("", (a, b) -> a + b);
        assertTrue(text.contains("precharge"), text);
    }
}
