package sprag.bench.vehicle;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;

/** A file, or a name on the command line, that cannot be used, with every problem found in it. */
public final class BadInput extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    /**
     * Refuses an input.
     *
     * @param problems what is wrong with it, at least one
     */
    public BadInput(List<Problem> problems) {
        super(problems.stream().map(Problem::message).collect(Collectors.joining(System.lineSeparator())));
        if (problems.isEmpty()) {
            throw new IllegalArgumentException("refused without a problem: " + problems);
        }
        this.problems = List.copyOf(problems);
    }

    /**
     * Refuses a file for one reason that is not about a key.
     *
     * @param line the line, counted from 1; 0 when it is not in a file but in what was asked for
     * @param found what was found, ready to stand behind the name of the file
     * @param remedy what to do, a whole sentence
     */
    public static BadInput of(Path file, int line, String found, String remedy) {
        return new BadInput(List.of(new Problem(file, line, 1, "", found, "", "", remedy)));
    }

    /** What is wrong, in the order of the lines. */
    public List<Problem> problems() {
        return problems;
    }
}
