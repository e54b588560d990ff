package sprag.bench.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The frame that every self-contained page has: style, title, cautions. Nothing on it comes from outside. */
public final class Page {
    private final StringBuilder html = new StringBuilder();

    /** Begins a page.
     *
     * @param over a few words above the title
     * @param title the title, plain text
     */
    public Page(String over, String title) {
        html.append("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
                .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>")
                .append(Html.escape(title))
                .append("</title>\n<style>\n")
                .append(style())
                .append("</style>\n</head>\n<body>\n<header>\n<p class=\"over\">")
                .append(Html.escape(over))
                .append("</p>\n<h1>")
                .append(Html.escape(title))
                .append("</h1>\n</header>\n");
    }

    /** Adds markup as it is.
     *
     * @param markup HTML, already escaped where it must be
     * @return this
     */
    public Page raw(String markup) {
        html.append(markup);
        return this;
    }

    /** Adds the cautions.
     *
     * @return this
     */
    public Page cautions() {
        html.append("<aside><h2>Before anything here is tried on a car</h2>\n<p>")
                .append(Html.escape(Cautions.STANDING))
                .append("</p>\n<ul>\n");
        for (String rule : Cautions.RULES) {
            html.append("<li>").append(Html.escape(rule)).append("</li>\n");
        }
        html.append("</ul></aside>\n");
        return this;
    }

    /** Ends the page.
     *
     * @return the whole document
     */
    public String end() {
        return html.append("</body>\n</html>\n").toString();
    }

    /** The style that all pages share.
     *
     * @return a style sheet
     */
    public static String style() {
        try (InputStream in = Page.class.getResourceAsStream("report.css")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("the page's style cannot be read from the program's own files", e);
        }
    }
}
