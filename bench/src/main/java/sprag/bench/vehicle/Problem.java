package sprag.bench.vehicle;

import java.nio.file.Path;
import sprag.bench.cli.Wrap;

/**
 * One mistake in a file, or in a name on the command line, with all that is needed to put it right.
 *
 * @param line the line, counted from 1; 0 when it is not in a file but in what was asked for
 * @param column the column, counted from 1
 * @param key the dotted key, empty when it is not about a key
 * @param found what was found, ready to stand behind the key, e.g. {@code = 1.2 is outside 0.8..0.99}
 * @param allowed what would be allowed, for programs that read it
 * @param effect what it would lead to, to finish "it would ...", empty when that is plain
 * @param remedy what to do, a whole sentence
 */
public record Problem(
        Path file, int line, int column, String key, String found, String allowed, String effect, String remedy) {

    /** What is told of a key that must be there and is not. */
    static final String MISSING = "is missing";

    private static final int LONGEST_KEY = 100;
    private static final int LONGEST_FINDING = 300;
    private static final int LONGEST_REMEDY = 600;

    /** A mistake as it may be shown: whatever the file holds, the message is short and on one line. */
    public Problem {
        key = Wrap.brief(key, LONGEST_KEY);
        found = Wrap.brief(found, LONGEST_FINDING);
        remedy = Wrap.brief(remedy, LONGEST_REMEDY);
    }

    /** The mistake in one line, e.g. {@code vehicle.toml:31: precharge.done_fraction = 1.2 is outside 0.8..0.99: it would ...}. */
    public String message() {
        StringBuilder text = new StringBuilder();
        text.append(file).append(line > 0 ? ":" + line + ": " : " ").append(key);
        text.append(key.isEmpty() || found.isEmpty() ? "" : " ").append(found);
        if (!effect.isEmpty()) {
            text.append(": it would ").append(effect);
        }
        char last = text.charAt(text.length() - 1);
        return text.append(last == '.' || last == '?' ? " " : ". ")
                .append(remedy)
                .toString();
    }

    /** The same mistake, told of another file. */
    public Problem in(Path other) {
        return new Problem(other, line, column, key, found, allowed, effect, remedy);
    }

    /** Whether a key that must be there is not. */
    public boolean isMissingKey() {
        return found.equals(MISSING);
    }

    @Override
    public String toString() {
        return message();
    }
}
