package sprag.bench.cli;

import java.util.ArrayList;
import java.util.List;

/** Breaks text into lines for a terminal. A word that is longer than a line is never cut. */
public final class Wrap {
    /** How long a line on a terminal is. A wider window changes nothing, so that every run prints the same. */
    public static final int TERMINAL_COLUMNS = 80;

    private Wrap() {}

    /** Breaks a text at blanks.
     *
     * @param text any text; line breaks in it count as blanks
     * @param columns how long a line may be
     * @return at least one line
     */
    public static List<String> lines(String text, int columns) {
        return hanging("", "", text, columns);
    }

    /** A text from a file as it may stand in a message: on one line, without what a terminal would obey, and not too long.
     *
     * @param text any text
     * @param letters the most that is shown
     * @return the text, or its beginning and three dots
     */
    public static String brief(String text, int letters) {
        String beginning = text.substring(0, Math.min(text.length(), 2 * letters));
        String flat = beginning.replaceAll("\\s+", " ").replaceAll("\\p{Cntrl}|\\p{Cf}", "?");
        return flat.length() <= letters && beginning.length() == text.length()
                ? flat
                : flat.substring(0, Math.min(flat.length(), letters - 3)) + "...";
    }

    /** Breaks a text into lines with an indent. All lines but the first have two blanks more. */
    public static List<String> at(String text, int columns, String indent) {
        return hanging(indent, indent + "  ", text, columns);
    }

    /** Breaks a text into lines that begin in different ways.
     *
     * @param first what stands before the first line
     * @param rest what stands before each further line
     * @param text any text; line breaks in it count as blanks
     * @param columns how long a line may be, with what stands before it
     * @return at least one line
     */
    public static List<String> hanging(String first, String rest, String text, int columns) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(first);
        boolean isEmpty = true;
        for (String word : text.strip().split("\\s+")) {
            if (!isEmpty && line.length() + 1 + word.length() > columns) {
                lines.add(line.toString());
                line = new StringBuilder(rest);
                isEmpty = true;
            }
            line.append(isEmpty ? "" : " ").append(word);
            isEmpty = false;
        }
        lines.add(line.toString());
        return lines;
    }
}
