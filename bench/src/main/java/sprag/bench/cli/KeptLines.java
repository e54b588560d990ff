package sprag.bench.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** A text without the lines that say nothing, and where each of the others stood. The first line stays, empty if it says nothing. */
public final class KeptLines {
    private final String text;
    private final List<Integer> numbers;

    private KeptLines(String text, List<Integer> numbers) {
        this.text = text;
        this.numbers = numbers;
    }

    /** Every line. */
    public static KeptLines all(String text) {
        return new KeptLines(text, List.of());
    }

    /** The lines that do not match, whole. A line ends with a line feed. */
    public static KeptLines without(Pattern saysNothing, String text) {
        StringBuilder kept = new StringBuilder();
        List<Integer> numbers = new ArrayList<>();
        int number = 1;
        for (int start = 0; start < text.length(); number++) {
            int feed = text.indexOf('\n', start);
            int end = feed < 0 ? text.length() : feed + 1;
            boolean says = !saysNothing
                    .matcher(text)
                    .region(start, feed < 0 ? end : feed)
                    .matches();
            if (says || number == 1) {
                kept.append(says ? text.substring(start, end) : "\n");
                numbers.add(number);
            }
            start = end;
        }
        return new KeptLines(kept.toString(), numbers);
    }

    /** The lines that are kept. */
    public String text() {
        return text;
    }

    /** Where a line of {@link #text()} stood. */
    public int line(int line) {
        return numbers.isEmpty() ? line : numbers.get(Math.min(line, numbers.size()) - 1);
    }
}
