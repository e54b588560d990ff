package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sprag.bench.page.Page;

/** Pictures of the documents that are made from the program. {@code -Ddocs.update=true} draws them anew. */
public final class Pictures {
    private static final Pattern SIZE = Pattern.compile("width=\"(\\d+)\" height=\"(\\d+)\"");
    /** For the script of a page; a picture has none. */
    private static final Pattern OF_SCRIPT = Pattern.compile(" (?:tabindex|data-[a-z]+)=\"[^\"]*\"");

    private Pictures() {}

    /** Compares a picture in docs with what the program draws. */
    public static void isCurrent(String name, String drawn) throws IOException {
        Path file = MadePages.docs().resolve(name);
        if (Boolean.getBoolean("docs.update")) {
            Files.writeString(file, drawn);
        }
        assertTrue(Files.exists(file), file + " is missing: mvn test -Ddocs.update=true draws it");
        assertTrue(
                drawn.equals(Files.readString(file)),
                file + " is stale; if the change is meant: mvn test -Ddocs.update=true");
    }

    /** Cuts a drawing out of a page that a command wrote. Returns an {@code svg} element that needs the style of the pages.
     *
     * @param label what the drawing says of itself
     * @param number which one of those, from 1
     */
    static String drawing(String page, String label, int number) {
        int at = -1;
        for (int i = 0; i < number; i++) {
            at = page.indexOf("aria-label=\"" + label, at + 1);
            assertTrue(at >= 0, "the page has no drawing number " + number + ": " + label);
        }
        return page.substring(page.lastIndexOf("<svg", at), page.indexOf("</svg>", at) + "</svg>\n".length());
    }

    /** Makes a drawing of a page a file of its own, in the colours of the pages, light and dark. */
    public static String alone(String svg) throws IOException {
        int after = svg.indexOf('>') + 1;
        Matcher size = SIZE.matcher(svg.substring(0, after));
        assertTrue(size.find(), svg.substring(0, after));
        String head = OF_SCRIPT.matcher(svg.substring(0, after)).replaceAll("");
        String body = OF_SCRIPT.matcher(svg.substring(after)).replaceAll("");
        String paper =
                "<rect width=\"" + size.group(1) + "\" height=\"" + size.group(2) + "\" fill=\"var(--paper)\"/>\n";
        return head.replaceFirst("<svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"") + "\n<style>" + style()
                + "</style>\n" + paper + body.replace("><", ">\n<");
    }

    /** The colours and the rules for drawings, without those for text and tables. */
    private static String style() throws IOException {
        try (InputStream in = Page.class.getResourceAsStream("page.css")) {
            String all = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            String colours = part(all, ":root", "@media print");
            String drawings = part(all, "svg text", "#readout");
            assertEquals(-1, drawings.indexOf('&'), "a style rule must be fit for XML");
            return "svg { font: 13px system-ui, \"Liberation Sans\", sans-serif; }\n" + colours + drawings;
        }
    }

    private static String part(String text, String from, String to) {
        int begin = text.indexOf(from);
        int end = text.indexOf(to, begin);
        assertTrue(begin >= 0 && end > begin, "the style of the pages has no part from " + from + " to " + to);
        return text.substring(begin, end);
    }
}
