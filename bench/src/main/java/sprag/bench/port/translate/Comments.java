package sprag.bench.port.translate;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Doc comments of Java as comments of C. */
final class Comments {
    private static final Pattern INLINE = Pattern.compile("\\{@(?:code|link|linkplain|literal|value)\\s+#?([^}]*)}");
    private static final Pattern ELEMENT = Pattern.compile("</?(?:p|pre|ul|ol|li|em|b|i|code)>");

    /** A method of another class, as {@code LogicState#pack()}. */
    private static final Pattern METHOD = Pattern.compile("\\b([A-Z]\\w+)#(\\w+)(?:\\([^)]*\\))?");

    private static final int WIDTH = 110;

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

    /** Words of a row as a comment in C, in as many lines as they need.
     *
     * @param words on one line
     * @param indent what stands before each line
     */
    static String ofWords(String words, String indent) {
        StringBuilder doc = new StringBuilder();
        int column = 0;
        for (String word : words.split(" ")) {
            boolean fits = column + word.length() < WIDTH;
            doc.append(column == 0 ? "" : fits ? " " : "\n").append(word);
            column = fits ? column + 1 + word.length() : word.length();
        }
        return of(doc.toString(), indent);
    }

    private static List<String> lines(String doc) {
        List<String> lines = new ArrayList<>();
        if (doc == null) {
            return lines;
        }
        String plain = INLINE.matcher(doc).replaceAll("$1");
        plain = ELEMENT.matcher(plain).replaceAll("");
        plain = plain.replace("&gt;", ">").replace("&lt;", "<").replace("&amp;", "&");
        plain = METHOD.matcher(plain).replaceAll("sprag_$1_$2");
        plain = plain.replaceAll("\\bnull\\b", "SPRAG_NONE");
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
