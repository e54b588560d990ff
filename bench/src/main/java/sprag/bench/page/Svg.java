package sprag.bench.page;

import java.util.Locale;

/** Builds one drawing. Text is escaped, and numbers have a decimal point whatever the machine's language is. */
public final class Svg {
    private final StringBuilder svg = new StringBuilder();

    /** Begins a drawing.
     *
     * @param label what the drawing shows, for a reader who cannot see it
     */
    public Svg(String style, String label, int widthPx, int heightPx) {
        add("<svg class=\"%s\" aria-label=\"%s\" width=\"%d\" ", style, label, widthPx);
        add("height=\"%d\" viewBox=\"0 0 %d %d\"", heightPx, widthPx, heightPx);
    }

    /** Adds an attribute to the drawing itself. Call this before anything is drawn. */
    public Svg with(String name, Object value) {
        return add(" %s=\"%s\"", name, value);
    }

    /** Ends the list of attributes. */
    public Svg begin() {
        return raw(">");
    }

    /** Adds markup.
     *
     * @param pattern markup with places as in {@link String#format}
     * @param values what comes into the places; text is escaped
     */
    public Svg add(String pattern, Object... values) {
        svg.append(markup(pattern, values));
        return this;
    }

    /** Adds markup as it is.
     *
     * @param markup text that is already escaped
     */
    public Svg raw(String markup) {
        svg.append(markup);
        return this;
    }

    /**
     * Ends the drawing. Returns the whole {@code svg} element. A drawing with links is a group of them: what is told to be one
     * image hides them from a screen reader.
     */
    public String end() {
        String role = svg.indexOf("<a ") < 0 ? "img" : "group";
        svg.insert("<svg".length(), " role=\"" + role + "\"");
        return svg + "</svg>\n";
    }

    /** A piece of markup that is not yet part of a drawing.
     *
     * @param pattern markup with places as in {@link String#format}
     * @param values what comes into the places; text is escaped
     */
    public static String markup(String pattern, Object... values) {
        Object[] safe = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            safe[i] = values[i] instanceof Number ? values[i] : Html.escape(String.valueOf(values[i]));
        }
        return String.format(Locale.ROOT, pattern, safe);
    }

    /** A length with at most one decimal. Returns text such as {@code 12} or {@code 12.5}. */
    public static String px(double px) {
        long tenths = tenths(px);
        String whole = Long.toString(Math.abs(tenths) / 10);
        long rest = Math.abs(tenths) % 10;
        return (tenths < 0 ? "-" : "") + (rest == 0 ? whole : whole + "." + rest);
    }

    /** A length as it is drawn, in tenths of a pixel. */
    static long tenths(double px) {
        return Math.round(px * 10);
    }
}
