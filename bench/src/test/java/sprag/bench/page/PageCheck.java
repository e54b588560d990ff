package sprag.bench.page;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** What holds for every page that the bench writes. */
public final class PageCheck {
    private PageCheck() {}

    /** Asserts that a page is well-formed, needs nothing from outside, and carries the words that it must not be without. */
    public static Document standsAlone(String page) throws Exception {
        String markup = page.replaceFirst("<!doctype html>", "").replaceAll("(?s)<script>.*?</script>", "");
        Document document = parse(markup);
        assertAll(
                () -> assertFalse(page.contains("://"), "no address of anything outside"),
                () -> assertEquals(List.of(), references(document), "nothing is loaded"),
                () -> assertTrue(page.contains("default-src 'none'"), "the browser may load nothing"),
                () -> assertTrue(page.contains("prefers-color-scheme: dark"), "dark as well"),
                () -> assertTrue(page.contains("@media print"), "paper as well"),
                () -> assertTrue(page.contains(Html.escape(Cautions.STANDING)), "what it is not"));
        return document;
    }

    private static List<String> references(Document document) {
        List<String> found = new ArrayList<>();
        for (Element each : all(document, "*", "")) {
            for (String name : List.of("src", "srcset", "action", "data", "poster", "background")) {
                if (each.hasAttribute(name) || each.getTagName().equals("link")) {
                    found.add(each.getTagName() + " " + name);
                }
            }
        }
        return found;
    }

    /** Reads markup as XML. */
    public static Document parse(String markup) throws Exception {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(markup.getBytes(StandardCharsets.UTF_8)));
    }

    /** The elements of a name whose class begins with a word. */
    public static List<Element> all(Document document, String name, String style) {
        return within(document.getElementsByTagName(name), style);
    }

    /** The same within an element. */
    public static List<Element> all(Element element, String name, String style) {
        return within(element.getElementsByTagName(name), style);
    }

    private static List<Element> within(NodeList nodes, String style) {
        List<Element> found = new ArrayList<>();
        for (int i = 0; i < nodes.getLength(); i++) {
            Element each = (Element) nodes.item(i);
            if (each.getAttribute("class").matches(style + ".*")) {
                found.add(each);
            }
        }
        return found;
    }
}
