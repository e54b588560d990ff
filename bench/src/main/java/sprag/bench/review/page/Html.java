package sprag.bench.review.page;

/** Text made safe to stand in a page, between tags and in attributes. */
final class Html {
    private Html() {}

    static String escape(String text) {
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
