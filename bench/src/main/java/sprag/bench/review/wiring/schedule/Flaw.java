package sprag.bench.review.wiring.schedule;

import sprag.bench.cli.Wrap;

/**
 * Something that keeps a table from being read as it stands.
 *
 * @param line the line of the file, counted from 1
 * @param column the column's name, or its number when it has none; empty when the whole row is meant
 * @param found the cell as it stands there; empty when no cell is meant
 * @param sentence what is wrong, a colon, and what to do
 */
public record Flaw(int line, String column, String found, String sentence) {
    private static final int LONGEST_CELL = 40;

    private static final String REMEDY = ": ";

    /** What is wrong, without what to do: {@code "35 mm2" is not a number}. */
    public String what() {
        return quoted() + (hasRemedy() ? sentence.substring(0, sentence.indexOf(REMEDY)) : sentence);
    }

    /** What to do, as a sentence. */
    public String remedy() {
        if (!hasRemedy()) {
            return "Correct it.";
        }
        String words = sentence.substring(sentence.indexOf(REMEDY) + REMEDY.length());
        return Character.toUpperCase(words.charAt(0)) + words.substring(1) + ".";
    }

    private boolean hasRemedy() {
        return sentence.contains(REMEDY);
    }

    private String quoted() {
        return found.isEmpty() ? "" : "\"" + Wrap.brief(found, LONGEST_CELL) + "\" ";
    }

    /**
     * What was found and what to do, to stand behind the name of the column. Returns text such as {@code "35 mm2" is
     * not a number ...}.
     */
    public String about() {
        return quoted() + sentence;
    }

    /**
     * One line for people, without the file's name. Returns text such as {@code line 4, column size_mm2: "35 mm2" is
     * not a number ...}.
     */
    public String text() {
        return "line " + line + (column.isEmpty() ? "" : ", column " + column) + ": " + about();
    }
}
