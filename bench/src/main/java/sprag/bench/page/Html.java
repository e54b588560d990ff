package sprag.bench.page;

/** Makes text safe for HTML and SVG. */
public final class Html {
    private Html() {}

    /** Text as it may stand in an element or in a quoted attribute.
     *
     * @param text any text; characters that XML does not allow are replaced
     */
    public static String escape(String text) {
        StringBuilder safe = new StringBuilder(text.length() + 16);
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.append(c < ' ' && c != '\n' && c != '\t' ? '\uFFFD' : c);
            }
        }
        return safe.toString();
    }
}
