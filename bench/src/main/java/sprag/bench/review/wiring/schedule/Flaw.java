package sprag.bench.review.wiring.schedule;

import sprag.bench.cli.Wrap;

/**
 * Something that keeps a table from being read as it stands.
 *
 * @param line the line of the file, counted from 1
 * @param column the column's name, or its number when it has none; empty when the whole row is meant
 * @param found the cell as it stands there; empty when no cell is meant
 * @param wrong what is wrong with it, to stand behind what was found: {@code is not a number}
 * @param remedy what to do, as a sentence
 */
public record Flaw(int line, String column, String found, String wrong, String remedy) {
    private static final int LONGEST_CELL = 40;

    /** What was found and what is wrong with it: {@code "35 mm2" is not a number}. */
    public String what() {
        return quoted() + wrong;
    }

    private String quoted() {
        return found.isEmpty() ? "" : "\"" + Wrap.brief(found, LONGEST_CELL) + "\" ";
    }

    /**
     * One line for people, without the file's name. Returns text such as {@code line 4, column size_mm2: "35 mm2" is
     * not a number. Write ...}.
     */
    public String text() {
        return "line " + line + (column.isEmpty() ? "" : ", column " + column) + ": " + what() + ". " + remedy;
    }
}
