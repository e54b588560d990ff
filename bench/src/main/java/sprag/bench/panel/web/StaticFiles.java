package sprag.bench.panel.web;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.zip.GZIPOutputStream;
import sprag.bench.drawing.paper.SvgInk;

/** The page's own files, read once from the class path. What is not listed here cannot be fetched. */
final class StaticFiles {
    private static final String CHARTS = "/META-INF/resources/webjars/uplot/1.6.30/dist/";
    private static final String SCRIPT = "text/javascript; charset=utf-8";
    private static final String STYLE = "text/css; charset=utf-8";
    private static final String[] SCRIPTS = {
        "main.js",
        "link.js",
        "diagram.js",
        "levers.js",
        "strip.js",
        "charts.js",
        "series.js",
        "moment.js",
        "then.js",
        "project.js",
        "class.js",
        "lists.js",
        "words.js",
        "tabs.js",
        "beside.js",
        "sheet.js"
    };

    /** A file with its kind, as it is and packed for the way (gzip, RFC 1952). */
    record Piece(String type, byte[] bytes, byte[] packed) {}

    private final Map<String, Piece> pieces = new LinkedHashMap<>();

    /** Reads every file.
     *
     * @throws UncheckedIOException when one is missing
     */
    StaticFiles() {
        add("/", "text/html; charset=utf-8", "/panel/index.html");
        add("/panel.css", STYLE, "/panel/panel.css");
        add("/icon.svg", "image/svg+xml", "/panel/icon.svg");
        for (String script : SCRIPTS) {
            add("/" + script, SCRIPT, "/panel/" + script);
        }
        put("/sheet.css", STYLE, SvgInk.style());
        // the small edition is no module by itself
        add("/uplot.js", SCRIPT, CHARTS + "uPlot.iife.min.js", "\nexport default uPlot;\n");
        add("/uplot.css", STYLE, CHARTS + "uPlot.min.css");
    }

    private void add(String path, String type, String resource) {
        add(path, type, resource, "");
    }

    private void add(String path, String type, String resource, String end) {
        try (InputStream in = StaticFiles.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IOException(resource + " is not on the class path");
            }
            put(path, type, new String(in.readAllBytes(), StandardCharsets.UTF_8) + end);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + resource, e);
        }
    }

    private void put(String path, String type, String text) {
        pieces.put(path, piece(type, text));
    }

    /** A text as a file. */
    static Piece piece(String type, String text) {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        try {
            return new Piece(type, bytes, packed(bytes));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot pack a text in memory", e);
        }
    }

    /** Packed for the way. */
    static byte[] packed(byte[] bytes) throws IOException {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (GZIPOutputStream out = new GZIPOutputStream(packed)) {
            out.write(bytes);
        }
        return packed.toByteArray();
    }

    /** Every path. */
    Set<String> paths() {
        return pieces.keySet();
    }

    /** The file of a path, null when there is none. */
    Piece at(String path) {
        return pieces.get(path);
    }
}
