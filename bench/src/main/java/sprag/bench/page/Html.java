package sprag.bench.page;

/** Small helpers for writing HTML. */
public final class Html {
    private Html() {}

    /** Text as it may stand in an element or in a quoted attribute. */
    public static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }
}
