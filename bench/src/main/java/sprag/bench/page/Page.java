package sprag.bench.page;

import com.samskivert.mustache.Mustache;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * Writes pages that need no other file and no network. The text of a page is a template beside the class that writes it; the
 * frame, the style and the cautions are the same for all. A name that a template asks for and nobody gives is an error.
 */
public final class Page {
    private static final Mustache.Compiler TEMPLATES = Mustache.compiler()
            .withEscaper(Html::escape)
            .withFormatter(Page::text)
            .withLoader(name -> new StringReader(read(Page.class, name + ".html")))
            .emptyStringIsFalse(true)
            .zeroIsFalse(true)
            .strictSections(true)
            .nullValue("");
    private static final Map<String, Object> SHARED =
            Map.of("standing", Cautions.STANDING, "rules", Cautions.RULES, "style", read(Page.class, "page.css"));

    /**
     * A cell of a table that is stacked on a narrow screen.
     *
     * @param label the heading of its column
     * @param text what stands in it
     */
    public record Cell(String label, String text) {}

    private Page() {}

    /** A row of cells, each with the heading of its column. */
    public static List<Cell> cells(List<String> heads, List<String> texts) {
        return IntStream.range(0, texts.size())
                .mapToObj(i -> new Cell(heads.get(i), texts.get(i)))
                .toList();
    }

    /** Writes a page.
     *
     * @param room the class that the template stands beside
     * @param model what the template asks for, by name
     */
    public static String of(Class<?> room, String template, String over, String title, Map<String, ?> model) {
        String body = fill(read(room, template), model);
        return fill(read(Page.class, "frame.html"), Map.of("over", over, "title", title, "body", body));
    }

    private static String fill(String template, Map<String, ?> model) {
        StringWriter filled = new StringWriter();
        TEMPLATES.compile(template).execute(model, SHARED, filled);
        return filled.toString();
    }

    /** Names of enums are written in small letters, as style classes and as words. */
    private static String text(Object value) {
        return value instanceof Enum<?> each
                ? each.name().toLowerCase(Locale.ROOT).replace('_', '-')
                : String.valueOf(value);
    }

    private static String read(Class<?> room, String name) {
        try (InputStream in = room.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException(name + " is missing beside " + room.getName());
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + name + " beside " + room.getName(), e);
        }
    }
}
