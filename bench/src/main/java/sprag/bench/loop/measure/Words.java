package sprag.bench.loop.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The words of a question, one after the other. What stands between quotes is one word. */
final class Words {
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|'([^']*)'|(\\S+)");
    private static final int LONGEST = 300;

    private final List<String> words = new ArrayList<>();
    private int at;

    Words(String phrase) {
        if (phrase.length() > LONGEST) {
            throw new IllegalArgumentException(
                    "The question has " + phrase.length() + " letters; it may have " + LONGEST + ".");
        }
        Matcher word = WORD.matcher(phrase);
        while (word.find()) {
            words.add(word.group(1) != null ? word.group(1) : word.group(2) != null ? word.group(2) : word.group(3));
        }
    }

    boolean isEmpty() {
        return at >= words.size();
    }

    /** The next word, which stays there; empty at the end. */
    String peek() {
        return isEmpty() ? "" : words.get(at);
    }

    /** Takes the next word when it is this one. */
    boolean take(String word) {
        boolean same = peek().equals(word);
        at += same ? 1 : 0;
        return same;
    }

    /** Takes the next word, whatever it is.
     *
     * @param wanted what should stand there, for the message
     */
    String next(String wanted) {
        if (isEmpty()) {
            throw new IllegalArgumentException("The question ends where " + wanted + " was expected.");
        }
        return words.get(at++);
    }

    double number(String wanted) {
        String word = next(wanted);
        try {
            double value = Double.parseDouble(word);
            if (Double.isFinite(value) && word.matches("[-+0-9.eE]+")) {
                return value;
            }
        } catch (NumberFormatException e) {
            // told below
        }
        throw new IllegalArgumentException("\"" + word + "\" stands where " + wanted + " was expected.");
    }
}
