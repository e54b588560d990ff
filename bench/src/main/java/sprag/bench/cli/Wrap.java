package sprag.bench.cli;

import java.util.ArrayList;
import java.util.List;

/** Breaks sentences into lines for a terminal. */
public final class Wrap {
    private Wrap() {}

    /** Lines that begin with an indent, all but the first with two blanks more. */
    public static List<String> at(String text, int columns, String first) {
        String indent = first;
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(indent);
        for (String word : text.split(" +")) {
            if (line.length() > indent.length() && line.length() + 1 + word.length() > columns) {
                lines.add(line.toString());
                indent = first + "  ";
                line = new StringBuilder(indent);
            }
            line.append(line.length() > indent.length() ? " " : "").append(word);
        }
        lines.add(line.toString());
        return lines;
    }
}
