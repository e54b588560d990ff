package sprag.bench.site;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.commonmark.ext.gfm.tables.TableBlock;
import org.commonmark.ext.gfm.tables.TableCell;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.Block;
import org.commonmark.node.Code;
import org.commonmark.node.FencedCodeBlock;
import org.commonmark.node.HardLineBreak;
import org.commonmark.node.Heading;
import org.commonmark.node.HtmlBlock;
import org.commonmark.node.Image;
import org.commonmark.node.IndentedCodeBlock;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.node.Paragraph;
import org.commonmark.node.SoftLineBreak;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.HtmlRenderer;

/** One page of the documents as HTML, and its sections as the search finds them. */
final class SitePage {
    private static final List<org.commonmark.Extension> TABLES = List.of(TablesExtension.create());
    private static final Parser PARSER = Parser.builder().extensions(TABLES).build();

    /** What the search looks through: a heading and the text below it. */
    record Section(String page, String heading, String url, String text) {}

    /** The file of the page in the site. */
    final String file;

    final String title;
    final String html;
    final List<Section> sections = new ArrayList<>();
    /** The pictures of the page, relative to the project's folder: they go into the site. */
    final List<Path> pictures = new ArrayList<>();

    private final Map<String, Integer> anchors = new HashMap<>();

    /** Reads a page.
     *
     * @param source the Markdown file, relative to the project's folder
     */
    SitePage(Path source, String markdown) {
        file = fileOf(source);
        Node root = PARSER.parse(markdown);
        withoutComments(root);
        Map<Node, String> ids = new HashMap<>();
        String found = file;
        StringBuilder below = new StringBuilder();
        String heading = "";
        String url = file;
        for (Node node = root.getFirstChild(); node != null; node = node.getNext()) {
            lead(source, node);
            if (node instanceof Heading head) {
                keep(found, heading, url, below);
                heading = words(head);
                String id = anchor(heading);
                ids.put(head, id);
                url = file + "#" + id;
                found = head.getLevel() == 1 ? heading : found;
            } else {
                below.append(words(node)).append(' ');
            }
        }
        title = found;
        keep(found, heading, url, below);
        html = HtmlRenderer.builder()
                .extensions(TABLES)
                .escapeHtml(true)
                .attributeProviderFactory(context -> (node, tag, attributes) -> {
                    if (ids.containsKey(node)) {
                        attributes.put("id", ids.get(node));
                    }
                    if (node instanceof TableBlock
                            || node instanceof IndentedCodeBlock
                            || node instanceof FencedCodeBlock
                            || isPicture(node)) {
                        attributes.put("tabindex", "0"); // it scrolls on a narrow screen, by keys too
                    }
                    if (isPicture(node)) {
                        attributes.put("class", "picture");
                    }
                })
                .build()
                .render(root);
    }

    /** Comments above blocks of code are for the tests, not for readers. */
    private static void withoutComments(Node root) {
        Node next;
        for (Node node = root.getFirstChild(); node != null; node = next) {
            next = node.getNext();
            if (node instanceof HtmlBlock html && html.getLiteral().startsWith("<!--")) {
                node.unlink();
            } else {
                withoutComments(node);
            }
        }
    }

    /** A drawing with nothing beside it. */
    private static boolean isPicture(Node node) {
        return node instanceof Paragraph
                && node.getFirstChild() instanceof Image
                && node.getFirstChild() == node.getLastChild();
    }

    static String fileOf(Path source) {
        String name = source.getFileName().toString();
        return name.equals("README.md")
                ? "index.html"
                : name.replaceFirst("\\.md$", ".html").toLowerCase(Locale.ROOT);
    }

    private void keep(String page, String heading, String url, StringBuilder below) {
        if (!heading.isEmpty()) {
            sections.add(new Section(
                    page, heading, url, below.toString().replaceAll("\\s+", " ").strip()));
        }
        below.setLength(0);
    }

    /** Small letters, digits and hyphens, as the links of the pages have it; a second heading of the same words gets a number. */
    private String anchor(String heading) {
        String plain = heading.toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{N} _-]", "")
                .replace(' ', '-');
        int before = anchors.merge(plain, 1, Integer::sum) - 1;
        return before == 0 ? plain : plain + "-" + before;
    }

    /** Links between pages lead to pages of the site, all others to the files beside it. */
    private void lead(Path source, Node node) {
        for (Node child = node.getFirstChild(); child != null; child = child.getNext()) {
            lead(source, child);
        }
        if (node instanceof Link link) {
            link.setDestination(target(source, link.getDestination()));
        } else if (node instanceof Image image) {
            Path picture = source.resolveSibling(image.getDestination()).normalize();
            pictures.add(picture);
            image.setDestination(picture.getFileName().toString());
        }
    }

    private static String target(Path source, String destination) {
        if (destination.startsWith("#") || destination.contains("://")) {
            return destination;
        }
        String[] parts = destination.split("#", 2);
        Path to = source.resolveSibling(parts[0]).normalize();
        String at = parts.length > 1 ? "#" + parts[1] : "";
        return (parts[0].endsWith(".md") ? fileOf(to) : "../" + to.toString().replace('\\', '/')) + at;
    }

    private static String words(Node node) {
        StringBuilder text = new StringBuilder();
        collect(node, text);
        return text.toString().strip();
    }

    private static void collect(Node node, StringBuilder text) {
        if (node instanceof Text plain) {
            text.append(plain.getLiteral());
        } else if (node instanceof Code code) {
            text.append(code.getLiteral());
        } else if (node instanceof IndentedCodeBlock block) {
            text.append(block.getLiteral());
        } else if (node instanceof FencedCodeBlock block) {
            text.append(block.getLiteral());
        } else if (node instanceof SoftLineBreak || node instanceof HardLineBreak) {
            text.append(' ');
        }
        for (Node child = node.getFirstChild(); child != null; child = child.getNext()) {
            collect(child, text);
        }
        if (node instanceof Block || node instanceof TableCell) {
            text.append(' ');
        }
    }
}
