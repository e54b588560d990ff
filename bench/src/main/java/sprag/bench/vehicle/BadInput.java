package sprag.bench.vehicle;

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

    /** What is wrong, in the order of the lines. */
    public List<Problem> problems() {
        return problems;
    }
}
