package sprag.bench.port.translate;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Doc comments of Java as comments of C. */
final class Comments {
    private static final Pattern INLINE = Pattern.compile("\\{@(?:code|link|linkplain|literal|value)\\s+#?([^}]*)}");
    private static final Pattern ELEMENT = Pattern.compile("</?(?:p|pre|ul|ol|li|em|b|i|code)>");

    private Comments() {}

    /** A comment in C.
     *
     * @param doc the text of a doc comment, null for none
     * @param indent what stands before each line
     * @return lines that end with a line feed, empty for none
     */
    static String of(String doc, String indent) {
        List<String> lines = lines(doc);
        if (lines.isEmpty()) {
            return "";
        }
        if (lines.size() == 1) {
            return indent + "/* " + lines.get(0) + " */\n";
        }
        StringBuilder text = new StringBuilder(indent + "/* " + lines.get(0) + "\n");
        for (String line : lines.subList(1, lines.size())) {
            text.append((indent + " * " + line).stripTrailing()).append('\n');
        }
        return text.append(indent).append(" */\n").toString();
    }

    private static List<String> lines(String doc) {
        List<String> lines = new ArrayList<>();
        if (doc == null) {
            return lines;
        }
        String plain = INLINE.matcher(doc).replaceAll("$1");
        plain = ELEMENT.matcher(plain).replaceAll("");
        plain = plain.replace("&gt;", ">").replace("&lt;", "<").replace("&amp;", "&");
        plain = plain.replaceAll("(?m)^ *@param (\\w+) ", "$1: ").replaceAll("(?m)^ *@return ", "gives ");
        for (String line : plain.split("\n")) {
            String trimmed = line.stripTrailing();
            String kept = trimmed.startsWith(" ") ? trimmed.substring(1) : trimmed;
            boolean twice = kept.isEmpty()
                    && (lines.isEmpty() || lines.get(lines.size() - 1).isEmpty());
            if (!twice) {
                lines.add(kept);
            }
        }
        while (!lines.isEmpty() && lines.get(lines.size() - 1).isEmpty()) {
            lines.remove(lines.size() - 1);
        }
        return lines;
    }
}
