package sprag.bench.site;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.samskivert.mustache.Mustache;
import com.samskivert.mustache.Template;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import sprag.bench.page.Html;
import sprag.bench.page.Page;

/**
 * The documents as one static site: pages of HTML, a style, and a search that needs no server. The order of the pages is that
 * of README, which is the only index.
 */
public final class Site {
    private static final Pattern LINKED = Pattern.compile("\\]\\(((?:docs/)?[A-Za-z-]+\\.md)\\)");

    private final Path home;

    Site(Path home) {
        this.home = home;
    }

    /** Writes the site.
     *
     * @param words the project's folder, and the folder to write into
     */
    public static void main(String... words) throws IOException {
        new Site(Path.of(words[0])).write(Path.of(words[1]));
    }

    void write(Path folder) throws IOException {
        Files.createDirectories(folder);
        List<SitePage> pages = pages();
        Template frame = Mustache.compiler().withEscaper(Html::escape).compile(read(Site.class, "frame.html"));
        for (SitePage page : pages) {
            List<Map<String, Object>> menu = new ArrayList<>();
            pages.forEach(each -> menu.add(Map.of("file", each.file, "title", each.title, "here", each == page)));
            Files.writeString(
                    folder.resolve(page.file),
                    frame.execute(Map.of(
                            "title", page.title, "first", page == pages.get(0), "body", page.html, "menu", menu)));
            for (Path picture : page.pictures) {
                Files.copy(
                        home.resolve(picture),
                        folder.resolve(picture.getFileName()),
                        StandardCopyOption.REPLACE_EXISTING);
            }
        }
        Files.writeString(folder.resolve("site.css"), read(Page.class, "page.css") + read(Site.class, "site.css"));
        Files.writeString(folder.resolve("search.js"), read(Site.class, "search.js"));
        List<SitePage.Section> sections =
                pages.stream().flatMap(page -> page.sections.stream()).toList();
        Files.writeString(
                folder.resolve("sections.js"),
                "const SECTIONS = " + new ObjectMapper().writeValueAsString(sections) + ";\n");
    }

    /** README first, then every page in the order in which README leads to it. */
    List<SitePage> pages() throws IOException {
        String readme = Files.readString(home.resolve("README.md"));
        Set<Path> order = new LinkedHashSet<>();
        order.add(Path.of("README.md"));
        Matcher linked = LINKED.matcher(readme);
        while (linked.find()) {
            order.add(Path.of(linked.group(1)));
        }
        try (Stream<Path> docs = Files.list(home.resolve("docs"))) {
            docs.filter(file -> file.toString().endsWith(".md"))
                    .map(home::relativize)
                    .sorted()
                    .forEach(order::add);
        }
        List<SitePage> pages = new ArrayList<>();
        for (Path source : order) {
            pages.add(new SitePage(source, Files.readString(home.resolve(source))));
        }
        return pages;
    }

    private static String read(Class<?> room, String name) throws IOException {
        try (InputStream in = room.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException(name + " is missing beside " + room.getName());
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
