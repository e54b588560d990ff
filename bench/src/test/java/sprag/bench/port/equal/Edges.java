package sprag.bench.port.equal;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The comparisons by size in the C, each changed so that it tells what it compares. */
final class Edges {
    private static final Pattern THAN = Pattern.compile(" ([<>])(=?) ");
    private static final Pattern COMMENT = Pattern.compile("/\\*.*?\\*/", Pattern.DOTALL);

    /** What ends an operand, outside of its parentheses. */
    private static final List<String> ENDS =
            List.of(" && ", " || ", " ? ", " : ", " = ", "|= ", "&= ", " == ", " != ", ",", ";", "{", "}", "return ");

    private Edges() {}

    /**
     * One comparison.
     *
     * @param file where it stands
     * @param words the line, with the comparison marked
     */
    record Edge(String file, String words) {}

    /** The code that tells, and its comparisons in the order of their numbers. */
    record Told(Map<String, String> code, List<Edge> edges) {}

    /** Changes all files of code. What is no code of the supervisor stays as it is. */
    static Told in(Map<String, String> files) {
        Map<String, String> told = new LinkedHashMap<>(files);
        List<Edge> edges = new ArrayList<>();
        files.forEach((file, text) -> {
            if (file.endsWith(".c")
                    && !List.of("vehicle.c", "fields.c", "self_test.c").contains(file)) {
                told.put(file, "#include \"edge.h\"\n" + told(file, text, edges));
            }
        });
        return new Told(told, edges);
    }

    private static String told(String file, String text, List<Edge> edges) {
        String code = COMMENT.matcher(text)
                .replaceAll(comment -> " ".repeat(comment.group().length()));
        TreeMap<Integer, String> inserted = new TreeMap<>();
        boolean[] gone = new boolean[text.length()];
        Matcher than = THAN.matcher(code);
        while (than.find()) {
            int begin = code.lastIndexOf('\n', than.start()) + 1;
            String line = text.substring(begin, text.indexOf('\n', begin));
            if (line.strip().startsWith("for (") || line.startsWith("static const") || line.startsWith("#")) {
                continue;
            }
            String call = "edge_met(" + edges.size() + ", '" + than.group(1) + "', "
                    + !than.group(2).isEmpty() + ", ";
            inserted.merge(first(code, than.start()), call, (inner, outer) -> inner + outer);
            inserted.put(than.start(), ", ");
            inserted.merge(last(code, than.end()), ")", String::concat);
            for (int i = than.start(); i < than.end(); i++) {
                gone[i] = true;
            }
            int at = than.start() + 1 - begin;
            String mark = "{" + than.group().strip() + "}";
            edges.add(new Edge(file, (line.substring(0, at) + mark + line.substring(than.end() - 1 - begin)).strip()));
        }
        StringBuilder changed = new StringBuilder();
        for (int i = 0; i < text.length(); i++) {
            changed.append(inserted.getOrDefault(i, ""));
            if (!gone[i]) {
                changed.append(text.charAt(i));
            }
        }
        return changed.toString();
    }

    /** Where the operand begins that ends before a place. */
    private static int first(String code, int end) {
        int depth = 0;
        int at = end;
        while (true) {
            char before = code.charAt(at - 1);
            if (depth == 0 && (before == '(' || before == '[' || isEnd(code, at))) {
                break;
            }
            depth += before == ')' || before == ']' ? 1 : before == '(' || before == '[' ? -1 : 0;
            at--;
        }
        while (Character.isWhitespace(code.charAt(at))) {
            at++;
        }
        return at;
    }

    private static boolean isEnd(String code, int at) {
        return ENDS.stream().anyMatch(end -> code.startsWith(end, at - end.length()))
                || code.startsWith("&& ", at - 3)
                || code.startsWith("|| ", at - 3);
    }

    /** Where the operand ends that begins at a place. */
    private static int last(String code, int begin) {
        int depth = 0;
        int at = begin;
        while (true) {
            char next = code.charAt(at);
            int here = at;
            if (depth == 0
                    && (next == ')'
                            || next == ']'
                            || ENDS.stream().anyMatch(end -> code.startsWith(end.stripTrailing(), here)))) {
                break;
            }
            depth += next == '(' || next == '[' ? 1 : next == ')' || next == ']' ? -1 : 0;
            at++;
        }
        return at;
    }
}
